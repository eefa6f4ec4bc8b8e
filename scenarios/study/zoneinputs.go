package study

import (
	"fmt"

	"loamledger/scenarios"
	"loamledger/weather/cal"
)

// ZoneOn returns zone z as it is under strategy s on a date, and its parameters as
// understood. Strategies are numbered as in a table, with the references last.
func (l *Study) ZoneOn(s, z int, date cal.Date) (*scenarios.Zone, []scenarios.ZoneValue) {
	zone, values := &l.Scenario.Zones[z], l.Scenario.ZoneValues[z]
	if s >= len(l.Job.Strategies) {
		return zone, values
	}
	if stack := l.stackOf(s); stack != nil {
		for k := range stack.Stages {
			if st := &stack.Stages[k]; k == 0 || st.From <= date {
				zone, values = &st.Zones[z], st.Values[z]
			}
		}
	}
	return zone, values
}

// ZoneInputLines lists the parameters of zone z under strategy s on a date.
func (l *Study) ZoneInputLines(s, z int, date cal.Date) []string {
	lines := []string{"", fmt.Sprintf("Inputs for zone %q:", l.Scenario.Zones[z].Name)}
	_, values := l.ZoneOn(s, z, date)
	if len(l.PlantingLines(s, z, date)) > 0 {
		lines[1] = fmt.Sprintf("Inputs for zone %q, apart from what is said above of its plants:", l.Scenario.Zones[z].Name)
	}
	for _, v := range values {
		if v.Key != "name" {
			lines = append(lines, fmt.Sprintf("   %-26s %s", v.Key, v.Text(l.Scenario.Units)))
		}
	}
	return lines
}
