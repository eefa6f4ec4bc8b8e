package portable

import "math"

// Pow returns x^y for x of 0 and above. The error is below 0.6 ulp, for results that are not subnormal, so results that a float64
// holds exactly, such as 10^3, are exact. x below 0 gives NaN, whatever y is: no quantity here has a negative base.
// As in [math.Pow], y = 0 and x = 1 give 1 even for NaN; otherwise NaN gives NaN; 0^y is 0 or +Inf, and the limits hold for ±Inf.
//
//	x^y = exp(y ln x), y ln x as a pair
func Pow(x, y float64) float64 {
	switch {
	case y == 0 || x == 1:
		return 1
	case x != x || y != y || x < 0:
		return math.NaN()
	case x == 0 || x > math.MaxFloat64:
		if (x == 0) == (y > 0) {
			return 0
		}
		return math.Inf(1)
	case math.Abs(y) > 1<<64: // ln x is at least 2^-53 in magnitude, or 0
		if (x > 1) == (y > 0) {
			return math.Inf(1)
		}
		return 0
	}
	l := logPair(x)
	p := product(l.hi, y)
	p = ordered(p.hi, p.lo+float64(l.lo*y))
	switch {
	case p.hi > mostExp+1:
		return math.Inf(1)
	case p.hi < leastExp-1:
		return 0
	}
	return expPair(p)
}
