package portable

import "math"

const (
	expSteps = 32                  // of the table, in one octave
	mostExp  = 709.782712893384    // largest argument whose exponential is finite
	leastExp = -745.1332191019412  // smallest argument whose exponential is not 0
	perStep  = expSteps / math.Ln2 // steps in one unit
	stepHigh = ln2High / expSteps  // ln 2/32 in two parts, the first with zeros at the end
	stepLow  = ln2Low / expSteps   // so that its multiples are exact
	shifter  = 1<<52 + 1<<51       // adding it rounds to a whole number
)

// Exp returns e^x. The error is below 0.6 ulp, for results that are not subnormal. x of 709.79 and above gives +Inf, -745.14 and
// below 0; NaN gives NaN.
//
//	x = (32 M + j) ln 2/32 + r, |r| ≤ ln 2/64;  e^x = 2^M 2^(j/32) e^r
//
// Source: Tang (1989); e^r by its Taylor series to r⁶, whose rest is below 4e-18.
func Exp(x float64) float64 {
	switch {
	case x != x || x > mostExp && math.IsInf(x, 1):
		return x
	case x > mostExp:
		return math.Inf(1)
	case x < leastExp:
		return 0
	}
	return expPair(pair{x, 0})
}

// expPair returns e^x for x between leastExp and mostExp.
func expPair(x pair) float64 {
	n := (float64(x.hi*perStep) + shifter) - shifter
	r := x.hi - float64(n*stepHigh)
	rest := x.lo - float64(n*stepLow)
	t := r + rest
	q := 1.0/2 + float64(t*(1.0/6+float64(t*(1.0/24+float64(t*(1.0/120+float64(t*(1.0/720))))))))
	p := r + (rest + float64(t*t*q))
	k := int(n)
	at := &powersOfTwo[k&(expSteps-1)]
	return scaled(at.hi+(at.lo+float64(at.hi*p)), k>>5)
}

// scaled returns v·2^n for v from 0.5 to 4, rounded once.
func scaled(v float64, n int) float64 {
	if n > -1021 && n < 1022 {
		return v * math.Float64frombits(uint64(n+1023)<<52)
	}
	return math.Ldexp(v, n)
}
