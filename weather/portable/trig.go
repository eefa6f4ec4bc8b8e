package portable

import "math"

// mostAngle is the largest magnitude of an angle [rad] whose sine and cosine are computed. Larger ones give NaN: no angle here is
// larger than a few turns, and the reduction of large ones needs hundreds of bits of π.
const mostAngle = 1 << 20

// Sin returns the sine of x [rad]. The error is below 0.8 ulp. x beyond [mostAngle], ±Inf and NaN give NaN; ±0 gives ±0.
func Sin(x float64) float64 {
	if x == 0 {
		return x
	}
	s, _, ok := sinCos(x)
	if !ok {
		return math.NaN()
	}
	return s.hi
}

// Cos returns the cosine of x [rad]. The error is below 0.8 ulp. x beyond [mostAngle], ±Inf and NaN give NaN.
func Cos(x float64) float64 {
	_, c, ok := sinCos(x)
	if !ok {
		return math.NaN()
	}
	return c.hi
}

// Tan returns the tangent of x [rad]. The error is below 0.9 ulp. x beyond [mostAngle], ±Inf and NaN give NaN; ±0 gives ±0.
func Tan(x float64) float64 {
	if x == 0 {
		return x
	}
	s, c, ok := sinCos(x)
	if !ok {
		return math.NaN()
	}
	return s.over(c).hi
}

// sinCos returns sine and cosine with a few more bits than a float64 has.
//
//	x = n π/2 + r, |r| ≤ π/4
//
// Source: Cody and Waite (1980), with π/2 in four parts, of which the first three have 33 bits, so that their multiples are exact.
func sinCos(x float64) (sine, cosine pair, ok bool) {
	if !(math.Abs(x) <= mostAngle) {
		return pair{}, pair{}, false
	}
	n := (float64(x*(2/math.Pi)) + shifter) - shifter
	r := sum(x-float64(n*halfPi1), -float64(n*halfPi2))
	s := sum(r.hi, -float64(n*halfPi3))
	r = ordered(s.hi, s.lo+(r.lo-float64(n*halfPi4)))
	sine, cosine = sinNear(r), cosNear(r)
	switch int(n) & 3 {
	case 1:
		sine, cosine = cosine, sine.negative()
	case 2:
		sine, cosine = sine.negative(), cosine.negative()
	case 3:
		sine, cosine = cosine.negative(), sine
	}
	return sine, cosine, true
}

// sinNear returns sin r for |r| ≤ π/4, by its Taylor series to r¹⁷, whose rest is below 1e-19 r.
func sinNear(r pair) pair {
	z := float64(r.hi * r.hi)
	p := 1.0/6 - float64(z*(1.0/120-float64(z*(1.0/5040-float64(z*(1.0/362880-float64(z*(1.0/39916800-
		float64(z*(1.0/6227020800-float64(z*(1.0/1307674368000-float64(z*(1.0/355687428096000))))))))))))))
	// sin(hi + lo) = sin hi + lo cos hi
	return ordered(r.hi, float64(r.lo*(1-float64(z/2)))-float64(float64(r.hi*z)*p))
}

// cosNear returns cos r for |r| ≤ π/4, by its Taylor series to r¹⁸, whose rest is below 1e-20.
func cosNear(r pair) pair {
	square := product(r.hi, r.hi)
	z := square.hi
	p := 1.0/24 - float64(z*(1.0/720-float64(z*(1.0/40320-float64(z*(1.0/3628800-float64(z*(1.0/479001600-
		float64(z*(1.0/87178291200-float64(z*(1.0/20922789888000-float64(z*(1.0/6402373705728000))))))))))))))
	c := ordered(1, -float64(z/2))
	// cos(hi + lo) = cos hi − lo sin hi, where lo·hi is enough of the second.
	return ordered(c.hi, c.lo+(float64(float64(z*z)*p)-float64(square.lo/2)-float64(r.lo*r.hi)))
}
