package et0

import (
	"fmt"
	"math"

	"loamledger/weather/portable"
)

// A Comparison compares computed reference ET with that supplied in a record.
type Comparison struct {
	N          int     // days compared
	Basis      Way     // the lowest way among the computed days compared
	Ratio      float64 // mean computed / mean supplied
	BiasMM     float64 // mean of computed − supplied [mm/d]
	MeanAbsMM  float64 // mean absolute difference [mm/d]
	R2         float64 // squared correlation; NaN if either is constant
	WorstMM    float64 // computed − supplied on the worst day [mm]
	WorstDay   int     // index of the worst day
	SuppliedMM float64 // mean supplied [mm/d]
}

const (
	maxMeanPart = 0.10 // own threshold: a wrong definition or unit differs by more
	minR2       = 0.90 // own threshold: published daily series reach 0.98
	minCompared = 30   // minimum days for a conclusion
)

// Parts reports whether the two differ enough to doubt one of them.
func (c Comparison) Parts() bool {
	return c.N >= minCompared && (math.Abs(c.Ratio-1) > maxMeanPart || c.R2 < minR2)
}

// String describes the comparison in words.
func (c Comparison) String() string {
	if c.N == 0 {
		return "no day has both"
	}
	return fmt.Sprintf("computed is %.3f of supplied over %d days, mean absolute difference %.2f mm, r² %.3f, worst day %+.2f mm", c.Ratio,
		c.N, c.MeanAbsMM, c.R2, c.WorstMM)
}

// compare uses only days of the full equation if there are enough, otherwise
// also days with estimates, otherwise all.
func compare(supplied, computed []float64, methods []Method) Comparison {
	for basis := FullEquation; ; basis-- {
		c := compareFrom(basis, supplied, computed, methods)
		if c.N >= minCompared || basis == HargreavesOnly {
			return c
		}
	}
}

func compareFrom(basis Way, supplied, computed []float64, methods []Method) Comparison {
	c := Comparison{Basis: basis, R2: math.NaN(), Ratio: math.NaN()}
	var sx, sy, abs float64
	var xs, ys []float64
	for i, y := range computed {
		x := supplied[i]
		if methods[i].Way < basis || math.IsNaN(x) || math.IsNaN(y) {
			continue
		}
		c.N++
		xs, ys = append(xs, x), append(ys, y)
		sx, sy = sx+x, sy+y
		d := y - x
		abs += math.Abs(d)
		if math.Abs(d) > math.Abs(c.WorstMM) {
			c.WorstMM, c.WorstDay = d, i
		}
	}
	if c.N == 0 {
		return c
	}
	n := float64(c.N)
	c.BiasMM, c.MeanAbsMM, c.SuppliedMM = (sy-sx)/n, abs/n, sx/n
	if sx != 0 {
		c.Ratio = sy / sx
	}
	const leastSquares = 1e-9 // mm²; below, a series is constant except for rounding
	if least := leastSquares / (n - 1); portable.Variance(xs) > least && portable.Variance(ys) > least {
		r := portable.Correlation(xs, ys)
		c.R2 = r * r
	}
	return c
}
