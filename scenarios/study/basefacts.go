package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather"
	"loamledger/weather/quantity"
)

// yearETo gives the reference ET of a mean year.
func (l *Study) yearETo() string {
	sum := 0.0
	for _, v := range l.Job.Weather.EToMM {
		sum += v
	}
	if len(l.Job.Weather.EToMM) == 0 {
		return ""
	}
	mean := sum / float64(len(l.Job.Weather.EToMM))
	if len(l.Job.Weather.EToMM) < 365 {
		return fmt.Sprintf("ETo of %s a day on average", quantity.Format(mean, quantity.Depth, l.Scenario.Units))
	}
	return fmt.Sprintf("ETo of %s a year on average", quantity.Format(365.25*mean, quantity.Depth, l.Scenario.Units))
}

// otherETo names the other ET columns of the file and why they are not used. A
// column that is used, computed or supplied, is compared with the other.
func (l *Study) otherETo() string {
	rec := l.Weather
	var texts []string
	year := func(mm float64) string {
		return quantity.Format(365.25*mm, quantity.Depth, l.Scenario.Units) + " a year"
	}
	if c := rec.ET.Compare; rec.Has(weather.ETo) && c.N > 0 {
		if l.Scenario.Weather.ComputeETo {
			texts = append(texts, fmt.Sprintf("the file’s own ETo (%s, %.0f%% of what is used) is not used, because compute_eto is set",
				year(c.SuppliedMM), 100/c.Ratio))
		} else {
			texts = append(texts, fmt.Sprintf("used as supplied; computed from the file’s weather it would be %.0f%% of that", 100*c.Ratio))
		}
	}
	if rec.Has(weather.ETr) {
		texts = append(texts, "etr_mm is not used: it is for a tall crop, and plant coefficients are for the short reference")
	}
	return strings.Join(append(texts, rec.OtherET...), "; ")
}

// kSets names the sets of the plant coefficients, each with its zones.
func (l *Study) kSets() string {
	var sets []string
	by := map[string][]string{}
	for i := range l.Scenario.Zones {
		z := &l.Scenario.Zones[i]
		name := z.Coefficients
		if name == scenarios.Custom {
			name = "given in the scenario"
		}
		if !slices.Contains(sets, name) {
			sets = append(sets, name)
		}
		by[name] = append(by[name], z.Name)
	}
	if len(sets) == 1 {
		return sets[0] + " (all zones); other sets differ by 20% to 40% for the same plant"
	}
	for i, name := range sets {
		sets[i] = name + " (" + someOf(by[name]) + ")"
	}
	return strings.Join(sets, "; ") + "; other sets differ by 20% to 40% for the same plant"
}
