package study

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// mostUnfit is the maximum number of programs that are listed as too long.
const mostUnfit = 5

// feasibilityLines lists programs that, run in full, do not fit the site's
// windows.
func (l *Study) feasibilityLines() (told []string) {
	var lines []string
	for _, w := range l.unfit() {
		if !slices.Contains(lines, w.Text) {
			lines = append(lines, w.Text)
		}
	}
	for i, line := range lines {
		if i == mostUnfit {
			told = append(told, fmt.Sprintf("Does not fit: %s more.", quantity.Count(len(lines)-i, "program", "programs")))
			break
		}
		told = append(told, fmt.Sprintf("Does not fit: %s.", line))
	}
	return told
}

// unfit returns the zones of programs that, run in full, do not fit the site's
// windows. Zones of one program share a text.
func (l *Study) unfit() []scenarios.Warning {
	if l.Scenario.Limits == nil {
		return nil
	}
	var out []scenarios.Warning
	site := replay.SiteOf(&l.Job)
	for i := range l.Job.Strategies {
		st := &l.Job.Strategies[i]
		if st.Role == strategy.Cut {
			continue // as the baseline
		}
		settled, zones := st.Settled(l.Job.Zones)
		site.Zones = zones
		for _, f := range strategy.Feasibility(site, &settled) {
			for _, u := range f.Outside {
				out = append(out, scenarios.Warning{
					Code: scenarios.NoRoom, Strategy: st.Name, Program: f.Program, Zone: u.Zone, Value: u.Minutes, Unit: "min", Text: f.String(),
				})
			}
		}
	}
	return out
}

// shallow returns the zones whose soil stores less than one day's use beyond
// RAW.
func (l *Study) shallow() []scenarios.Warning {
	var out []scenarios.Warning
	for z, n := range replay.ShallowDays(&l.Job) {
		if n > 0 {
			name := l.Job.Zones[z].Name
			text := fmt.Sprintf("Zone %q is shallow: on %s plants need more water than the soil stores beyond the point where stress begins, "+
				"so even daily watering leaves them short, in the least-water reference too", name, quantity.Count(n, "day", "days"))
			out = append(out, scenarios.Warning{Code: scenarios.ShallowZone, Zone: name, Value: float64(n), Unit: "d", Text: text})
		}
	}
	return out
}

// breaches returns the strategies that break the site's limits.
func (l *Study) breaches(t *tally.Table) []scenarios.Warning {
	var out []scenarios.Warning
	if l.Scenario.Limits == nil {
		return nil
	}
	for s := range t.NoWaterIndex() {
		if n := len(t.Breaches[s]); n > 0 && !t.IsCut(s) {
			w := scenarios.Warning{Code: scenarios.BreaksLimits, Strategy: t.Strategies[s], Value: float64(n), Unit: "runs", Text: l.brokenBy(t, s)}
			out = append(out, w)
		}
	}
	return out
}

// shallowLines warns of zones whose soil stores less than one day's use beyond
// RAW.
func (l *Study) shallowLines() (lines []string) {
	for _, one := range l.shallow() {
		lines = append(lines, one.Text+".")
	}
	return lines
}

// DescriptionLines describes the effect of strategy parts on this weather.
func (l *Study) DescriptionLines() (lines []string, err error) {
	site := replay.SiteOf(&l.Job)
	site.Units = l.Scenario.Units
	for i := range l.Job.Strategies {
		if l.Job.Strategies[i].Role == strategy.Cut {
			continue // as the baseline
		}
		texts, err := l.Job.Strategies[i].Describe(site)
		if err != nil {
			return nil, err
		}
		for _, text := range texts {
			lines = append(lines, fmt.Sprintf("%s: %s.", l.Job.Strategies[i].Name, text))
		}
	}
	return lines, nil
}

// done says what becomes of runs of strategy s that the limits forbid.
func (l *Study) done(s int) string {
	if l.Applies(s) {
		return "applied anyway"
	}
	return "omitted"
}

// Applies reports whether runs of strategy s that the limits forbid are applied.
// The site must have limits.
func (l *Study) Applies(s int) bool { return l.Scenario.Limits.FlagOnly || l.Job.Strategies[s].Unbound }

// complianceLines reports how many runs of each strategy the limits forbid.
func (l *Study) complianceLines(t *tally.Table) []string {
	if l.Scenario.Limits == nil {
		return nil
	}
	lines := []string{"", "Breaches of the limits in the scenario (compliance.csv lists each with date and rule):"}
	for s := range t.NoWaterIndex() {
		if t.IsCut(s) { // its breaches are those of the baseline

			continue
		}
		done := l.done(s)
		minutes := 0.0
		for i := range t.Breaches[s] {
			minutes += t.Breaches[s][i].Minutes
		}
		if n := len(t.Breaches[s]); n > 0 {
			lines = append(lines, fmt.Sprintf("  %s: %s, %s minutes %s", t.Strategies[s], quantity.Count(n, "breach", "breaches"),
				quantity.Whole(int(minutes+0.5)), done))
		} else {
			lines = append(lines, fmt.Sprintf("  %s: none", t.Strategies[s]))
		}
	}
	return lines
}

// compliance describes in sentences how the strategies comply with the site's
// limits: first those that keep them, then each that does not; empty if the site
// has none.
func (l *Study) compliance(t *tally.Table) []string {
	if l.Scenario.Limits == nil {
		return nil
	}
	var keep, broken []string
	for s := range t.NoWaterIndex() {
		switch {
		case t.IsCut(s): // its breaches are those of the baseline
		case len(t.Breaches[s]) == 0:
			keep = append(keep, "“"+t.Strategies[s]+"”")
		default:
			broken = append(broken, l.brokenBy(t, s))
		}
	}
	switch n := len(keep); {
	case n == 1:
		keep = []string{keep[0] + " keeps the limits in the scenario"}
	case n > 1 && len(broken) == 0:
		keep = []string{"All strategies keep the limits in the scenario"}
	case n > 1:
		keep = []string{strings.Join(keep[:n-1], ", ") + " and " + keep[n-1] + " keep the limits in the scenario"}
	}
	return append(keep, broken...)
}

// brokenBy says which rules strategy s breaks, and what became of the runs.
func (l *Study) brokenBy(t *tally.Table, s int) string {
	days, minutes := map[string]int{}, 0.0
	for i := range t.Breaches[s] {
		days[t.Breaches[s][i].Rule]++
		minutes += t.Breaches[s][i].Minutes
	}
	var rules []string
	for rule, n := range days {
		rules = append(rules, fmt.Sprintf("%s (%s)", rule, quantity.Count(n, "run", "runs")))
	}
	slices.Sort(rules)
	return fmt.Sprintf("“%s” breaks %s; %s minutes were %s", t.Strategies[s], strings.Join(rules, ", "),
		quantity.Whole(int(minutes+0.5)), l.done(s))
}
