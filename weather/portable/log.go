package portable

import "math"

// Log returns the natural logarithm of x. The error is below 0.6 ulp. 0 gives -Inf, +Inf gives +Inf; below 0 and NaN give NaN.
//
// Source: see [logPair].
func Log(x float64) float64 {
	switch {
	case x != x || x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	case x > math.MaxFloat64:
		return x
	}
	return logPair(x).hi
}

// Log10 returns the decimal logarithm of x. The error is below 0.6 ulp, so powers of ten give whole numbers. Special values
// are as in [Log].
func Log10(x float64) float64 {
	switch {
	case x != x || x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	case x > math.MaxFloat64:
		return x
	}
	return logPair(x).times(perLn10).hi
}

const (
	logCells  = 256 // cells of the table in one unit
	logFirst  = 181 // first cell: 256/√2, rounded
	rootOfTwo = math.Sqrt2
)

// logPair returns ln x with a relative error below 2^-66, for finite x above 0.
//
//	x = 2^e m, √½ ≤ m < √2;  c = k/256 close to 1/m;  r = m c − 1, |r| < 2^-8
//	ln x = e ln 2 − ln c + ln(1 + r)
//
// r is exact as a pair, and near x = 1 the first two terms are 0. Source: Tang (1990), with a table of ln c for 1/m instead
// of m, which spares the division of r; ln(1 + r) by Mercator's series to r⁹, whose rest is below r·2^-75.
func logPair(x float64) pair {
	m, e := math.Frexp(x)
	if m < rootOfTwo/2 {
		m *= 2
		e--
	}
	k := int(logCells/m + 0.5)
	c := float64(k) / logCells
	high, low := halves(m)
	r := sum(float64(high*c)-1, float64(low*c))
	// ln(1 + r) = r − r²/2 + r³ (1/3 − r/4 + …)
	h := r.hi
	q := 1.0/3 - float64(h*(1.0/4-float64(h*(1.0/5-float64(h*(1.0/6-
		float64(h*(1.0/7-float64(h*(1.0/8-float64(h*(1.0/9))))))))))))
	square := product(h, h)
	v := r.plus(pair{-float64(square.hi / 2), -float64(square.lo/2) - float64(h*r.lo)})
	v = v.plus(pair{float64(h * h * h * q), 0})
	if k != logCells {
		v = minusLogs[k-logFirst].plus(v)
	}
	if e != 0 {
		n := float64(e)
		v = ordered(float64(n*ln2High), 0).plus(pair{float64(n * ln2Low), 0}).plus(v)
	}
	return v
}
