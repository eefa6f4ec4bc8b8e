package scenarios

import (
	"math"
	"slices"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// lowQuarterUniformity returns DU_LQ of a catch-can test, 0 to 1: the mean of
// the lowest quarter of the readings divided by the mean of all. If the number
// of cans is not a multiple of four, the quarter is rounded to the nearest
// whole number of cans, at least one; other methods round down or weight the
// last can, and differ. Readings may be in any unit. The result is NaN if there
// are no cans or all are empty.
//
// Source: Keller and Bliesner (1990), Sprinkle and Trickle Irrigation, as cited
// by North Carolina State University's reference page on catch-can tests.
func lowQuarterUniformity(catches []float64) float64 {
	sorted := slices.Clone(catches)
	slices.Sort(sorted)
	mean := func(x []float64) float64 {
		sum := 0.0
		for _, v := range x {
			sum += v
		}
		return sum / float64(len(x))
	}
	quarter := max(int(math.Round(float64(len(sorted))/4)), 1)
	if len(sorted) == 0 {
		return math.NaN()
	}
	return mean(sorted[:quarter]) / mean(sorted)
}

// fewestCans is the minimum number of catch cans for a meaningful low quarter.
const fewestCans = 8

// cans reads the catch-can readings and returns their uniformity.
func (g group) cans(n *Node) (du float64, ok bool) {
	items := g.items(n)
	if n.Kind != List || len(items) < fewestCans {
		g.fault(diag.WrongShape, n.Pos, "write at least 8 readings, all in the same unit, as in [10, 12, 14, 16, 18, 20, 22, 24]",
			"%s: catch_cans is %s, not a list of catch-can readings", g.where, n.what()).
			Suggest(diag.Value, "[10, 12, 14, 16, 18, 20, 22, 24]")
		return 0, false
	}
	var catches []float64
	for _, item := range items {
		v, good := g.parse(item, want{key: "catch_cans", shape: shape{bare: true}, max: 1e6, fix: "write numbers of 0 or more, without units"})
		if !good {
			return 0, false
		}
		catches = append(catches, v)
	}
	du = lowQuarterUniformity(catches)
	if !(du >= 0.25) {
		g.fault(diag.OutOfRange, n.Pos, "check the readings; below 25% the zone needs repair, not a schedule",
			"%s: catch_cans give a low-quarter uniformity of %s, below the minimum of 25%%", g.where,
			quantity.Format(du, quantity.Fraction, g.sc.Units))
		return 0, false
	}
	g.givenList(g.path("catch_cans"), n, items)
	return du, true
}
