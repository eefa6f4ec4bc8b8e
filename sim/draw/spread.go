package draw

import (
	"math"
	"slices"
)

// A Spread is three quantiles of many draws: a tenth of them lies below P10, half below
// P50 and nine tenths below P90.
type Spread struct{ P10, P50, P90 float64 }

// SpreadOf returns the quantiles of values, which stay in their order; NaN if there are
// none, or if one is NaN.
func SpreadOf(values []float64) Spread {
	sorted := slices.Sorted(slices.Values(values))
	return Spread{Quantile(sorted, 0.1), Quantile(sorted, 0.5), Quantile(sorted, 0.9)}
}

// Width returns P90 − P10.
func (s Spread) Width() float64 { return s.P90 - s.P10 }

// Quantile returns the value below which a share of sorted values lies, by straight
// lines between them: the i-th of n, from 0, is the quantile i/(n − 1). Source:
// definition 7 of Hyndman and Fan (1996), Sample quantiles in statistical packages.
func Quantile(sorted []float64, share float64) float64 {
	n := len(sorted)
	if n == 0 || math.IsNaN(sorted[0]) { // NaN sorts first
		return math.NaN()
	}
	at := float64(share * float64(n-1))
	k := min(int(at), n-1)
	if k == n-1 {
		return sorted[k]
	}
	return sorted[k] + float64((at-float64(k))*(sorted[k+1]-sorted[k]))
}

// Mean returns the mean of values; NaN if there are none.
func Mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// Variance returns the mean squared distance from the mean; NaN without values.
func Variance(values []float64) float64 {
	mean, sum := Mean(values), 0.0
	for _, v := range values {
		sum += float64((v - mean) * (v - mean))
	}
	return sum / float64(len(values))
}

// Less returns the share of the draws in which a is below b; where they are equal, half
// the draw counts. a and b are parallel: the same draw decides both.
func Less(a, b []float64) float64 {
	less := 0.0
	for i := range a {
		switch {
		case a[i] < b[i]:
			less++
		case a[i] == b[i]:
			less += 0.5
		}
	}
	return less / float64(len(a))
}
