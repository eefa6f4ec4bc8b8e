package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/tune"
	"loamledger/weather/quantity"
)

// TunedHead describes the search.
func (l *Study) TunedHead(t *Tuning) []string {
	end := ":"
	if t.MarginPct > 0 {
		end = fmt.Sprintf(", with a reserve of %g%%:", t.MarginPct)
	}
	ranked := &t.Kinds[0].Outcome.Ranked
	return []string{
		fmt.Sprintf("Least water found with at most %s per zone in the %s (%s), or a wetter one,",
			quantity.Count(t.Goal.StressDays, "stress day", "stress days"), ranked.DryName(), ranked.Name(ranked.Dry)),
		fmt.Sprintf("and %g runoff events a year%s", t.Goal.RunoffEvents, end),
	}
}

// TunedGrid compares the settings found with the current ones.
func (l *Study) TunedGrid(t *Tuning) *Grid {
	volume := quantity.Label(quantity.Volume, l.Scenario.Units)
	g := &Grid{Columns: toTheRight(0, 7)}
	g.Head = []string{"", volume + "/yr", "vs.\nnow", "vs.\nthe bound", "stress days,\nworst year", "runoff\nevents/yr", "within\nlimits"}
	now := t.Now
	row := func(name string, o *tune.Outcome) {
		stress, runoff := worst(o)
		change := "-"
		if now != nil && o != now && now.M3PerYear > 0 {
			change = moreOrLess(o.M3PerYear/now.M3PerYear - 1)
		}
		g.add(name, l.volume(o.M3PerYear), change, above(o.Gap()), stress, fmt.Sprintf("%.1f", runoff), yesNo(o.Met))
	}
	if now != nil {
		row("current", now)
		g.Rule = 1
	}
	for _, k := range t.Kinds {
		row(k.Kind.Words(), &k.Outcome)
	}
	return g
}

// TunedNotes explains the settings found, and says why they are no better than
// the current ones if so.
func (l *Study) TunedNotes(t *Tuning) (lines []string) {
	now := t.Now
	if now != nil {
		lines = append(lines, fmt.Sprintf("Current is the baseline of the scenario, %q.", l.Job.Strategies[l.Scenario.Baseline].Name))
	}
	basis := l.basis()
	lines = append(lines, basis.Sentence())
	lines = append(lines, fmt.Sprintf("The bound is the water needed with perfect foresight, full supply, no losses and a DU of "+
		"100%%: %s %s a year.",
		l.volume(t.Kinds[0].Outcome.LeastM3PerYear), quantity.Label(quantity.Volume, l.Scenario.Units)))
	if now != nil && !slices.ContainsFunc(t.Kinds, func(k Tuned) bool { return k.Outcome.M3PerYear <= now.M3PerYear }) {
		lines = append(lines, "", l.whyMore(now, t.Goal, t.MarginPct))
	}
	for _, k := range t.Kinds {
		lines = append(lines, l.notFound(k.Result)...)
	}
	return lines
}

// HoldOutLine names the years for tuning and for the check. There must have
// been a check.
func (t *Tuning) HoldOutLine() string {
	a, b := &t.Kinds[0].Hold.Tuned.Outcome, t.Kinds[0].Hold.Checked
	return fmt.Sprintf("Held-out check: tuned on the odd years (%d, dry year %s), replayed on the even years (%d, dry year %s).",
		a.Years, a.Ranked.Name(a.Dry), b.Years, b.Ranked.Name(b.Dry))
}

// HoldOutGrid compares the outcome of a setting on the tuning years with that
// on the held-out years; nil if none was checked.
func (l *Study) HoldOutGrid(t *Tuning) *Grid {
	if len(t.Kinds) == 0 || t.Kinds[0].Hold == nil {
		return nil
	}
	volume := quantity.Label(quantity.Volume, l.Scenario.Units)
	g := &Grid{Columns: toTheRight(0, 7)}
	g.Head = []string{"", volume + "/yr\nodd", volume + "/yr\neven", "max stress\ndays, odd", "max stress\ndays, even",
		"max runoff\nevents, even", "within\nlimits, even"}
	for _, k := range t.Kinds {
		a, b := &k.Hold.Tuned.Outcome, k.Hold.Checked
		sa, _ := worst(a)
		sb, rb := worst(b)
		g.add(k.Kind.Words(), l.volume(a.M3PerYear), l.volume(b.M3PerYear), sa, sb, fmt.Sprintf("%.1f", rb), yesNo(b.Met))
	}
	return g
}

// whyMore says why every setting found uses more water than the current ones.
func (l *Study) whyMore(now *tune.Outcome, goal tune.Goal, margin float64) string {
	var over []string
	uneven := 0
	for z, zone := range now.Zones {
		if zone.Binds != "" {
			over = append(over, fmt.Sprintf("%s (%s, %.1f runoff events)",
				l.Job.Zones[z].Name, quantity.Count(zone.StressDays, "stress day", "stress days"), zone.RunoffEvents))
		}
		if l.Job.Zones[z].DULQ < l.Job.Zones[uneven].DULQ {
			uneven = z
		}
	}
	text := "Every kind uses MORE water than the current settings: "
	if len(over) == 0 {
		return text + fmt.Sprintf("these are within the limits, without the reserve of %g%% in the search. "+
			"Keep them, or search with --margin 0.", margin)
	}
	text += fmt.Sprintf("these exceed the limits (%s, %g runoff events) in %s.",
		quantity.Count(goal.StressDays, "stress day", "stress days"), goal.RunoffEvents, someOf(over))
	if zone := &l.Job.Zones[uneven]; zone.Strips > 1 && zone.DULQ < 0.999 {
		text += fmt.Sprintf(" Stress is counted on the whole zone, with its driest quarter: the lower its DU, the more water it needs "+
			"(%s has a DU of %.0f%%).", zone.Name, 100*zone.DULQ)
	}
	return text + " If the plants look fine now, allow more days with --stress-days."
}

// notFound names the zones for which no setting of a kind is within the limits,
// one line for each binding limit.
func (l *Study) notFound(r *tune.Result) (lines []string) {
	var binds []string
	for _, zone := range r.Outcome.Zones {
		if zone.Binds != "" && !slices.Contains(binds, zone.Binds) {
			binds = append(binds, zone.Binds)
		}
	}
	for _, b := range binds {
		var zones []string
		for z, zone := range r.Outcome.Zones {
			if zone.Binds == b {
				zones = append(zones, fmt.Sprintf("%s (best: %s and %.1f runoff events)",
					l.Job.Zones[z].Name, quantity.Count(zone.StressDays, "stress day", "stress days"), zone.RunoffEvents))
			}
		}
		lines = append(lines, fmt.Sprintf("No setting found (%s) is within the limits for %s; the binding limit is %s.",
			r.Kind.Words(), strings.ReplaceAll(someOf(zones), ";", ","), b))
	}
	return lines
}
