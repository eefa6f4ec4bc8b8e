package meter

import (
	"math"
)

// A Line is use per day = Base + Slope · x, where x is need above a threshold.
type Line struct {
	Base      float64 // [m³/d]
	Slope     float64 // [m³ per unit of x]
	Threshold float64 // in the unit of need
	R2        float64 // weighted, adjusted for one slope
}

// leastOfLine is the number of periods below which a line is not fitted, and the
// number that must have need above the threshold.
const (
	leastOfLine = 10
	leastAbove  = 4
)

// FitLine fits use per day to max(0, need − threshold) by weighted least squares,
// the weights being days, for each threshold, and returns the line with the largest
// adjusted R²; the first of equal ones. xs returns x of every period for a
// threshold. ok is false if there are fewer than 10 periods, or no line has a base
// that is not below 0, a slope above 0 and four periods above its threshold.
//
// Source: CalTRACK 2.0, 3.4.2 and 3.4.3, with need in place of degree days.
func FitLine(perDay, days []float64, thresholds []float64, xs func(threshold float64) []float64) (best Line, ok bool) {
	n := len(perDay)
	if n < leastOfLine {
		return best, false
	}
	for _, t := range thresholds {
		x, above := xs(t), 0
		for _, v := range x {
			if v > 0 {
				above++
			}
		}
		if above < leastAbove {
			continue
		}
		base, slope, r2 := weightedLine(x, perDay, days)
		if math.IsNaN(base) || math.IsNaN(slope) || base < 0 || slope <= 0 {
			continue
		}
		r2 = 1 - (1-r2)*float64(n-1)/float64(n-2)
		if !ok || r2 > best.R2 {
			best, ok = Line{base, slope, t, r2}, true
		}
	}
	return best, ok
}

// thresholdStep is the step between thresholds of need [mm/d].
const thresholdStep = 0.1

// NeedLine fits use per day of the periods at the given indices to their need
// [mm/d], with thresholds from 0 in steps of 0.1 mm a day.
func NeedLine(periods []Period, needMM []float64, at []int) (Line, bool) {
	var perDay, days []float64
	most := 0.0
	for _, i := range at {
		perDay, days = append(perDay, periods[i].PerDay()), append(days, float64(periods[i].Days()))
		most = max(most, needMM[i])
	}
	var thresholds []float64
	for k := 0; float64(k)*thresholdStep < most; k++ {
		thresholds = append(thresholds, float64(k)*thresholdStep)
	}
	return FitLine(perDay, days, thresholds, func(t float64) []float64 {
		x := make([]float64, len(at))
		for k, i := range at {
			x[k] = max(needMM[i]-t, 0)
		}
		return x
	})
}

// PerDay returns the use per day at a need [m³/d].
func (l *Line) PerDay(need float64) float64 {
	return l.Base + float64(l.Slope*max(need-l.Threshold, 0))
}

// weightedLine returns the line y = base + slope x with the least weighted squares, and its R²; NaN if all x are equal.
func weightedLine(x, y, weights []float64) (base, slope, r2 float64) {
	var n, mx, my float64
	for i, w := range weights {
		n, mx, my = n+w, mx+float64(w*x[i]), my+float64(w*y[i])
	}
	mx, my = mx/n, my/n
	var xx, xy float64
	for i, w := range weights {
		d := x[i] - mx
		xx, xy = xx+float64(w*d*d), xy+float64(w*d*(y[i]-my))
	}
	slope = xy / xx
	base = my - float64(slope*mx)
	var rest, all float64
	for i, w := range weights {
		off, d := y[i]-(base+float64(slope*x[i])), y[i]-my
		rest, all = rest+float64(w*off*off), all+float64(w*d*d)
	}
	return base, slope, 1 - rest/all
}
