package study

import (
	"fmt"
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

// landscapeLines compares each strategy with the thresholds of the public test
// landscape, if the site is one.
func landscapeLines(t *tally.Table) []string {
	if len(t.Zones) == 0 || !isLandscape(t.Zones) {
		return nil
	}
	lines := []string{"", "Measures of a public test landscape (adequacy and excess of need, by zone):"}
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
		lines = append(lines, fmt.Sprintf("  %-*s  lowest adequacy %3.0f%%  highest excess %4.1f%%  mean excess %4.1f%%  %s the thresholds",
			width, name,
			100*slices.Min(score.Adequacy), 100*slices.Max(score.Excess), 100*math.Abs(score.MeanExcess), verdict))
	}
	return append(lines, Wrap("Thresholds: "+tally.ThresholdSource+".", 96)...)
}
