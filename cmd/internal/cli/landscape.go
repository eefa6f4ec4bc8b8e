package cli

import (
	"fmt"
	"io"
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// isLandscape reports whether all zones are plain stores, as in a public test
// landscape.
func isLandscape(zones []sim.Zone) bool {
	return !slices.ContainsFunc(zones, func(z sim.Zone) bool { return !z.WorkingStorage })
}

// printLandscape holds each strategy against the thresholds of the public test
// landscape, where the site is one.
func printLandscape(w io.Writer, t *tally.Table) {
	if len(t.Zones) == 0 || !isLandscape(t.Zones) {
		return
	}
	fmt.Fprintln(w, "\nBy the measures of a public test landscape (adequacy and excess of need, zone by zone):")
	width := 0
	for _, name := range t.Strategies[:t.NoWaterIndex()] {
		width = max(width, len([]rune(name)))
	}
	for s, name := range t.Strategies[:t.NoWaterIndex()] {
		score := t.Score(s)
		verdict := "not within"
		if score.Within {
			verdict = "within"
		}
		fmt.Fprintf(w, "  %-*s  lowest adequacy %3.0f %%  greatest excess %4.1f %%  mean excess %4.1f %%  %s the thresholds\n", width, name,
			100*slices.Min(score.Adequacy), 100*slices.Max(score.Excess), 100*math.Abs(score.MeanExcess), verdict)
	}
	for _, line := range wrap("Thresholds: "+tally.ThresholdSource+".", 96) {
		fmt.Fprintln(w, line)
	}
}
