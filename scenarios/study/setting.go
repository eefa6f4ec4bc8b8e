package study

import (
	"fmt"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// SettingLines tells what to set for a kind; the first line is empty.
func (l *Study) SettingLines(r *Tuned) []string {
	lines := []string{"", strings.ToUpper(r.Kind.Words()[:1]) + r.Kind.Words()[1:]}
	if r.Sheet != nil {
		for _, text := range settings.MisfitTexts(r.Sheet) {
			lines = append(lines, "  DOES NOT FIT: "+text)
		}
	}
	for _, part := range r.Strategy.Parts {
		for _, line := range l.partLines(part) {
			lines = append(lines, "  "+line)
		}
	}
	for z, o := range r.Outcome.Zones {
		lines = append(lines, fmt.Sprintf("    %s: %s %s a year (bound %s), %s, %.1f runoff events", l.Job.Zones[z].Name, l.depth(o.GrossMM), quantity.Label(quantity.Depth, l.Scenario.Units), l.depth(o.LeastMM),
			quantity.Count(o.StressDays, "stress day", "stress days"), o.RunoffEvents))
	}
	return lines
}

// partLines tells what to set for one part of a strategy.
func (l *Study) partLines(part strategy.Part) (lines []string) {
	add := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	cycle := func(cycle, soak float64) string {
		if cycle <= 0 {
			return ""
		}
		return fmt.Sprintf(", cycles of %g min, pauses of %g min", cycle, soak)
	}
	switch p := part.(type) {
	case strategy.Programs:
		for i := range p.List {
			prog := &p.List[i]
			var zones []string
			for z, m := range prog.Minutes {
				if m > 0 {
					zones = append(zones, fmt.Sprintf("%s %g min", l.Job.Zones[z].Name, m))
				}
			}
			head := prog.Name
			switch days := settings.DaysText(prog.Days); {
			case strings.HasPrefix(days, head): // named by its days
				head = days
			case !strings.HasPrefix(head, days):
				head += ": " + days
			}
			add("%s at %s%s: %s", head, settings.StartsText(prog.Starts), cycle(prog.Cycle, prog.Soak), strings.Join(zones, ", "))
		}
	case strategy.Monthly:
		var months []string
		for m, share := range p.Share {
			months = append(months, fmt.Sprintf("%s %.0f", settings.MonthNames[m], 100*share))
		}
		add("percentages: %s", strings.Join(months, ", "))
	case *strategy.Refill:
		var zones []string
		for z, is := range p.Zones {
			if is {
				zones = append(zones, l.Job.Zones[z].Name)
			}
		}
		add("refill %s: at %.0f %% of the available water used up, %s%s", strings.Join(zones, ", "), 100*p.MAD, settings.DaysText(p.Days), cycle(p.CycleMin, p.SoakMin))
	case strategy.ZonePercent:
		var zones []string
		for z, share := range p.Share {
			zones = append(zones, fmt.Sprintf("%s %.0f %%", l.Job.Zones[z].Name, 100*share))
		}
		add("share of the minutes that fill the root zone evenly: %s", strings.Join(zones, ", "))
	default:
		if text, ok := settings.PartText(part, l.Scenario.Units); ok {
			add("%s", text)
		}
	}
	return lines
}
