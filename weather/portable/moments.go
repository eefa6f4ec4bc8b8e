package portable

import "math"

// Mean returns the mean of values, added from the first to the last; NaN if there are none.
func Mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// Variance returns the sum of squared distances from the mean over n − 1; NaN for fewer than two values. Rounding of the mean is made
// up for.
//
// Source: Chan, Golub and LeVeque (1983), Algorithms for computing the sample variance, The American Statistician 37(3), eq. 1.7.
func Variance(values []float64) float64 {
	mean, n := Mean(values), float64(len(values))
	sum, rest := 0.0, 0.0
	for _, v := range values {
		d := v - mean
		sum, rest = sum+float64(d*d), rest+d
	}
	return (sum - rest*rest/n) / (n - 1)
}

// Correlation returns the correlation of x and y, of one length, as exact as [Variance]; NaN if one of them is constant.
func Correlation(x, y []float64) float64 {
	mx, my, n := Mean(x), Mean(y), float64(len(x))
	var xx, yy, xy, restX, restY float64
	for i, v := range x {
		dx, dy := v-mx, y[i]-my
		xx, yy, xy = xx+float64(dx*dx), yy+float64(dy*dy), xy+float64(dx*dy)
		restX, restY = restX+dx, restY+dy
	}
	xx, yy = xx-restX*restX/n, yy-restY*restY/n
	return (xy - restX*restY/n) / math.Sqrt(xx*yy)
}

// Quantile returns the first of the sorted values that at least the share p of them, 0 to 1, is not above: a value of the list, never
// one between two. The list is not empty.
func Quantile(p float64, sorted []float64) float64 {
	at := int(math.Ceil(p*float64(len(sorted)))) - 1
	return sorted[min(max(at, 0), len(sorted)-1)]
}
