package study

import (
	"fmt"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// SettingLines lists the settings of a kind; the first line is empty. The error
// is that of a part that cannot describe itself.
func (l *Study) SettingLines(r *Tuned) ([]string, error) {
	lines := []string{"", strings.ToUpper(r.Kind.Words()[:1]) + r.Kind.Words()[1:]}
	if r.Sheet != nil {
		for _, text := range settings.MisfitTexts(r.Sheet) {
			lines = append(lines, "  DOES NOT FIT: "+text)
		}
	}
	for _, part := range r.Strategy.Parts {
		told, err := strategy.Lines(part, l.ZoneNames(), l.Scenario.Units)
		if err != nil {
			return nil, err
		}
		for _, line := range told {
			lines = append(lines, "  "+line)
		}
	}
	for z, o := range r.Outcome.Zones {
		lines = append(lines, fmt.Sprintf("    %s: %s %s a year (bound %s), %s, %.1f runoff events", l.Job.Zones[z].Name, l.depth(o.GrossMM),
			quantity.Label(quantity.Depth, l.Scenario.Units), l.depth(o.LeastMM),
			quantity.Count(o.StressDays, "stress day", "stress days"), o.RunoffEvents))
	}
	return lines, nil
}
