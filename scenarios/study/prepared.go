package study

import (
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
)

// prepared says who made the report; nil if the scenario does not. The logo is added by
// who reads its file.
func (l *Study) prepared() *plots.Prepared {
	p := l.Scenario.Prepared
	if p == nil {
		return nil
	}
	return &plots.Prepared{Name: p.Name, Company: p.Company, Contact: p.Contact, For: p.For}
}

// actFact says who must act, and by when; empty if the scenario does not.
func (l *Study) actFact() string {
	d := l.Scenario.Decision
	if d == nil {
		return ""
	}
	act := "decision"
	if d.Who != "" {
		act += " by " + d.Who
	}
	if d.By != nil {
		act += ", due on " + plots.DayText(*d.By)
	}
	return act + "; then whoever programs the controller, after asking your water provider."
}

// meterNames names the meters through which the site is watered, with what they serve;
// empty if the scenario names none.
func (l *Study) meterNames() string {
	var names []string
	for i := range l.Scenario.Meters {
		m := &l.Scenario.Meters[i]
		if m.Name == "" {
			continue
		}
		name := m.Name
		if m.Serves == scenarios.ServesMixed {
			name += " (serves other uses, too)"
		}
		names = append(names, name)
	}
	return strings.Join(names, ", ")
}
