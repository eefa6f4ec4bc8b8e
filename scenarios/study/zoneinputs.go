package study

import "fmt"

// ZoneInputLines lists the parameters of zone z as understood.
func (l *Study) ZoneInputLines(z int) []string {
	lines := []string{"", fmt.Sprintf("Inputs for zone %q:", l.Scenario.Zones[z].Name)}
	for _, v := range l.Scenario.ZoneValues[z] {
		if v.Key != "name" {
			lines = append(lines, fmt.Sprintf("   %-26s %s", v.Key, v.Text(l.Scenario.Units)))
		}
	}
	return lines
}
