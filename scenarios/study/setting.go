package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
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
	for _, text := range l.tunedOverdraws(&r.Strategy) {
		lines = append(lines, "  Meter overdrawn, which the search does not avoid: "+text)
	}
	told, err := strategy.AllLines(r.Strategy.Parts, l.ZoneNames(), l.Scenario.Units)
	if err != nil {
		return nil, err
	}
	for _, line := range told {
		lines = append(lines, "  "+line)
	}
	for z := range r.All.Zones {
		o := &r.All.Zones[z]
		lines = append(lines, "    "+l.Job.Zones[z].Name+": "+l.zoneFigures(o))
		if text := l.ruleText(&o.Run); text != "" {
			lines = append(lines, "      "+text)
		}
		if o.Outside {
			v := l.intervals()[z]
			lines = append(lines, fmt.Sprintf("      Watered every %g days, outside the %d to %d days that suit the plants: no other "+
				"interval does better here",
				o.Every, v.Shortest, v.Longest))
		}
	}
	return lines, nil
}

// zoneFigures writes the figures of a setting in a zone.
func (l *Study) zoneFigures(o *tune.ZoneOutcome) string {
	if !o.Watered() {
		return "NO WATER"
	}
	return fmt.Sprintf("%s %s a year (bound %s), %s, %s, %.1f runoff events", l.depth(o.GrossMM),
		quantity.Label(quantity.Depth, l.Scenario.Units), l.depth(o.LeastMM), quantity.Count(o.StressDays, "stress day", "stress days"),
		quantity.Count(o.BrowningDays, "browning day", "browning days"), o.RunoffEvents)
}

// ruleText compares the run time of a zone with the trade's rule and says why they
// differ; empty if the zone is not watered in its peak month.
func (l *Study) ruleText(r *tune.RunTime) string {
	if r.Days == 0 || r.Rule == 0 {
		return ""
	}
	text := fmt.Sprintf("%s: %.0f min every %.1f days; the run-time rule gives %.0f min (need / rate x %.2f)", strategy.MonthNames[r.Month-1],
		r.Minutes, r.Days, r.Rule, r.Multiplier)
	if math.Abs(r.Minutes/r.Rule-1) < 0.005 {
		return text
	}
	part := func(share float64, more, less string) string {
		switch v := math.Round(100 * share); {
		case v > 0:
			return fmt.Sprintf(more, v)
		case v < 0 && less != "":
			return fmt.Sprintf(less, -v)
		}
		return ""
	}
	var why []string
	for _, s := range []string{part(r.Rain, "rain meets %.0f%%", ""), part(r.Soil, "stored water meets %.0f%%", "%.0f%% fills the soil"),
		part(r.Short, "%.0f%% is not met", ""), part(r.Lost, "%.0f%% is added for losses and drainage", "")} {
		if s != "" {
			why = append(why, s)
		}
	}
	text += fmt.Sprintf(", %.0f%% of it: ", 100*r.Minutes/r.Rule)
	if len(why) > 0 {
		text += "of the need, " + strings.Join(why, ", ") + "; "
	}
	return text + fmt.Sprintf("the rule adds %.0f%% for uneven coverage and nothing else", 100*(r.Multiplier-1))
}
