package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// mostUnfit is how many programs that do not fit are told on the screen.
const mostUnfit = 5

// printFeasibility says first what cannot run: programs that do not fit the
// site's windows, run whole.
func (l *loaded) printFeasibility(w io.Writer) {
	var lines []string
	for _, w := range l.unfit() {
		if !slices.Contains(lines, w.Text) {
			lines = append(lines, w.Text)
		}
	}
	for i, line := range lines {
		if i == mostUnfit {
			fmt.Fprintf(w, "Does not fit: %s more.\n", countOf(len(lines)-i, "program", "programs"))
			break
		}
		fmt.Fprintf(w, "Does not fit: %s.\n", line)
	}
}

// unfit returns the zones of programs that do not fit the site's windows, run
// whole. Zones of one program share a text.
func (l *loaded) unfit() []scenarios.Warning {
	if l.Scenario.Limits == nil {
		return nil
	}
	var out []scenarios.Warning
	site := replay.SiteOf(&l.Job)
	for i := range l.Job.Strategies {
		st := &l.Job.Strategies[i]
		for _, f := range strategy.Feasibility(site, st) {
			for _, u := range f.Outside {
				out = append(out, scenarios.Warning{
					Code: scenarios.NoRoom, Strategy: st.Name, Program: f.Program, Zone: u.Zone, Value: u.Minutes, Unit: "min", Text: f.String(),
				})
			}
		}
	}
	return out
}

// shallow returns the zones whose soil holds less than a day's use past RAW.
func (l *loaded) shallow() []scenarios.Warning {
	var out []scenarios.Warning
	site := replay.SiteOf(&l.Job)
	for z := range site.Zones {
		if n := sim.ShallowDays(&site.Zones[z], site.Forcing[z]); n > 0 {
			name := site.Zones[z].Name
			text := fmt.Sprintf("Zone %q is shallow: on %s plants ask for more than the soil holds past the point where stress begins, "+
				"so that even daily watering leaves them short; the least-water reference included", name, countOf(n, "day", "days"))
			out = append(out, scenarios.Warning{Code: scenarios.ShallowZone, Zone: name, Value: float64(n), Unit: "d", Text: text})
		}
	}
	return out
}

// breaches returns the strategies that break the limits of the site.
func (l *loaded) breaches(t *tally.Table) []scenarios.Warning {
	var out []scenarios.Warning
	for s, text := range l.compliance(t) {
		if n := len(t.Breaches[s]); n > 0 {
			w := scenarios.Warning{Code: scenarios.BreaksLimits, Strategy: t.Strategies[s], Value: float64(n), Unit: "runs", Text: text}
			out = append(out, w)
		}
	}
	return out
}

// printShallow warns of zones whose soil holds less than a day's use past RAW.
func (l *loaded) printShallow(w io.Writer) {
	for _, one := range l.shallow() {
		fmt.Fprintf(w, "%s.\n", one.Text)
	}
}

// printDescriptions tells what parts of strategies came to on this weather.
func (l *loaded) printDescriptions(w io.Writer) error {
	site := replay.SiteOf(&l.Job)
	for i := range l.Job.Strategies {
		texts, err := l.Job.Strategies[i].Describe(site)
		if err != nil {
			return err
		}
		for _, text := range texts {
			fmt.Fprintf(w, "%s: %s.\n", l.Job.Strategies[i].Name, text)
		}
	}
	return nil
}

// printCompliance says how many runs of each strategy the limits forbid.
func (l *loaded) printCompliance(w io.Writer, t *tally.Table) {
	if l.Scenario.Limits == nil {
		return
	}
	done := "left out"
	if l.Scenario.Limits.FlagOnly {
		done = "applied all the same"
	}
	fmt.Fprintf(w, "\nAgainst the limits of the scenario (compliance.csv lists each with its date and rule):\n")
	for s := range t.NoWaterIndex() {
		minutes := 0.0
		for i := range t.Breaches[s] {
			minutes += t.Breaches[s][i].Minutes
		}
		if n := len(t.Breaches[s]); n > 0 {
			fmt.Fprintf(w, "  %s: %s, %s minutes %s\n", t.Strategies[s], countOf(n, "breach", "breaches"), group(int(minutes+0.5)), done)
		} else {
			fmt.Fprintf(w, "  %s: no breach\n", t.Strategies[s])
		}
	}
}

// compliance says in one sentence for each strategy how it stands to the
// site's limits; empty where the site has none.
func (l *loaded) compliance(t *tally.Table) []string {
	if l.Scenario.Limits == nil {
		return nil
	}
	done := "left out"
	if l.Scenario.Limits.FlagOnly {
		done = "applied all the same"
	}
	var out []string
	for s := range t.NoWaterIndex() {
		if len(t.Breaches[s]) == 0 {
			out = append(out, fmt.Sprintf("%s keeps the limits that the scenario states", t.Strategies[s]))
			continue
		}
		days, minutes := map[string]int{}, 0.0
		for i := range t.Breaches[s] {
			days[t.Breaches[s][i].Rule]++
			minutes += t.Breaches[s][i].Minutes
		}
		var rules []string
		for rule, n := range days {
			rules = append(rules, fmt.Sprintf("%s (%s)", rule, countOf(n, "run", "runs")))
		}
		slices.Sort(rules)
		out = append(out, fmt.Sprintf("%s breaks %s; %s minutes were %s", t.Strategies[s], strings.Join(rules, ", "), group(int(minutes+0.5)), done))
	}
	return out
}
