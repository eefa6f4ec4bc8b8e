package cli

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"

	"loamledger/sim/tune"
	"loamledger/weather/quantity"
)

// printTuned compares what was found with what is set now, nil for nothing.
func (l *loaded) printTuned(w io.Writer, now *tune.Outcome, all []tuned, goal tune.Goal, margin float64) {
	fmt.Fprintf(w, "Least water found with at most %s of any zone in the 1-in-10 dry year (%d) or a wetter one,\nand %g runoff events a year",
		countOf(goal.StressDays, "stress day", "stress days"), all[0].result.Outcome.Dry, goal.RunoffEvents)
	if margin > 0 {
		fmt.Fprintf(w, ", with %g %% in reserve", margin)
	}
	fmt.Fprintln(w, ":")
	volume := quantity.Label(quantity.Volume, l.Scenario.Units)
	tw := plainTable(w, toTheRight(1, 12)...)
	tw.AppendHeader(table.Row{"", volume + "\na year", "against\nnow", "against\nthe bound", "stress days,\nworst year", "runoff\nevents/yr", "within\nlimits"})
	row := func(name string, o *tune.Outcome) {
		stress, runoff := worst(o)
		change := "-"
		if now != nil && o != now && now.M3PerYear > 0 {
			change = moreOrLess(o.M3PerYear/now.M3PerYear - 1)
		}
		tw.AppendRow(table.Row{name, l.volume(o.M3PerYear), change, above(o.Gap()), stress, fmt.Sprintf("%.1f", runoff), yesNo(o.Met)})
	}
	if now != nil {
		row("as set now", now)
		tw.AppendSeparator()
	}
	for _, t := range all {
		row(t.result.Kind.Words(), &t.result.Outcome)
	}
	tw.Render()
	if now != nil {
		fmt.Fprintf(w, "As set now is the first strategy of the scenario, %q.\n", l.Job.Strategies[0].Name)
	}
	fmt.Fprintf(w, "The bound is what perfect foresight would need without stress, losses or unevenness: %s %s a year.\n",
		l.volume(all[0].result.Outcome.LeastM3PerYear), volume)
	if now != nil && !slices.ContainsFunc(all, func(t tuned) bool { return t.result.Outcome.M3PerYear <= now.M3PerYear }) {
		fmt.Fprintln(w, "\n"+l.whyMore(now, goal, margin))
	}
	for _, t := range all {
		for _, line := range l.notFound(t.result) {
			fmt.Fprintln(w, line)
		}
	}
}

// whyMore says why all that was found uses more water than what is set now.
func (l *loaded) whyMore(now *tune.Outcome, goal tune.Goal, margin float64) string {
	var over []string
	uneven := 0
	for z, zone := range now.Zones {
		if zone.Binds != "" {
			over = append(over, fmt.Sprintf("%s (%s, %.1f runoff events)", l.Job.Zones[z].Name, countOf(zone.StressDays, "stress day", "stress days"), zone.RunoffEvents))
		}
		if l.Job.Zones[z].DULQ < l.Job.Zones[uneven].DULQ {
			uneven = z
		}
	}
	text := "Every kind uses MORE water than what is set now: "
	if len(over) == 0 {
		return text + fmt.Sprintf("that is within the limits as it is, without the reserve of %g %% that the search keeps. Keep it, or search with --margin 0.", margin)
	}
	text += fmt.Sprintf("as set now, the limits (%s, %g runoff events) are not kept in %s.", countOf(goal.StressDays, "stress day", "stress days"), goal.RunoffEvents, someOf(over))
	if zone := &l.Job.Zones[uneven]; zone.Strips > 1 && zone.DULQ < 0.999 {
		text += fmt.Sprintf(" Stress is counted on the driest quarter: the less evenly a zone is watered, the more all of it takes (%s has an evenness of %.0f %%).", zone.Name, 100*zone.DULQ)
	}
	return text + " If the planting looks well as it is, allow more days with --stress-days."
}

// notFound names the zones that no setting of a kind keeps within the limits,
// one line for each limit that binds.
func (l *loaded) notFound(r *tune.Result) (lines []string) {
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
				zones = append(zones, fmt.Sprintf("%s (best found %s and %.1f runoff events)", l.Job.Zones[z].Name, countOf(zone.StressDays, "stress day", "stress days"), zone.RunoffEvents))
			}
		}
		lines = append(lines, fmt.Sprintf("No setting found (%s) is within the limits for %s; what binds: %s.", r.Kind.Words(), strings.ReplaceAll(someOf(zones), ";", ","), b))
	}
	return lines
}
