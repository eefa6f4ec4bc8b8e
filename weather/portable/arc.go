package portable

import "math"

// Asin returns the angle [rad] from -π/2 to π/2 whose sine is x. The error is below 0.6 ulp, for
// results above 1e-280. x beyond ±1 and NaN give NaN;
// ±0 gives ±0.
//
//	asin x = atan(x/√(1 − x²))
func Asin(x float64) float64 {
	if !(math.Abs(x) <= 1) {
		return math.NaN()
	}
	if x == 0 {
		return x
	}
	return math.Copysign(arc(pair{math.Abs(x), 0}, complement(x)).hi, x)
}

// Acos returns the angle [rad] from 0 to π whose cosine is x. The error is below 0.6 ulp. x beyond ±1 and NaN give NaN.
//
//	acos x = atan(√(1 − x²)/x)
func Acos(x float64) float64 {
	if !(math.Abs(x) <= 1) {
		return math.NaN()
	}
	a := arc(complement(x), pair{math.Abs(x), 0})
	if x < 0 {
		a = halfTurn.plus(a.negative())
	}
	return a.hi
}

// complement returns √(1 − x²) for |x| ≤ 1.
func complement(x float64) pair {
	p := product(x, x)
	a := sum(1, -p.hi)
	return root(ordered(a.hi, a.lo-p.lo))
}

// root returns the square root of p, which is not negative, by one step of Newton's method from that of its first part.
func root(p pair) pair {
	if p.hi == 0 {
		return pair{}
	}
	s := math.Sqrt(p.hi)
	m := product(s, s)
	return ordered(s, ((p.hi-m.hi)-m.lo+p.lo)/(2*s))
}

// Atan2 returns the angle [rad] from -π to π of the point (x, y). The error is below 0.6 ulp, for results above 1e-280. A
// zero keeps its sign and counts as close to the axis on that side, as in [math.Atan2]; an infinite argument counts as infinitely
// larger than a finite one and as equal to another infinite one; NaN gives NaN.
func Atan2(y, x float64) float64 {
	if x != x || y != y {
		return math.NaN()
	}
	ay, ax := math.Abs(y), math.Abs(x)
	switch yInf, xInf := math.IsInf(ay, 0), math.IsInf(ax, 0); {
	case yInf && xInf:
		ay, ax = 1, 1
	case yInf:
		ay, ax = 1, 0
	case xInf:
		ay, ax = 0, 1
	}
	// Scaling by a power of two keeps the squares of both parts in range.
	_, e := math.Frexp(max(ay, ax))
	a := arc(pair{math.Ldexp(ay, -e), 0}, pair{math.Ldexp(ax, -e), 0})
	if math.Signbit(x) {
		a = halfTurn.plus(a.negative())
	}
	return math.Copysign(a.hi, y)
}

// arc returns the angle of the point (x, y) in the first quadrant, both parts at most about 1; the origin has 0.
//
//	t = y/x ≤ 1;  c = k/64 close to t;  atan t = atan c + atan((y − c x)/(x + c y))
//
// Beyond 45° it is π/2 less the angle of (y, x). The table is that of Tang's method; the rest is at most 1/127, and its
// arctangent is Gregory's series to the ninth power, whose rest is below 1e-24.
func arc(y, x pair) pair {
	if y.hi == 0 {
		return pair{}
	}
	if y.hi > x.hi {
		return quarterTurn.plus(arcBelow(x, y).negative())
	}
	return arcBelow(y, x)
}

const arcCells = 64 // cells of the table in one unit

func arcBelow(y, x pair) pair {
	k := int(float64(arcCells*(y.hi/x.hi)) + 0.5)
	r := y.over(x)
	if k > 0 {
		c := pair{float64(k) / arcCells, 0}
		r = y.plus(c.times(x).negative()).over(x.plus(c.times(y)))
	}
	t := r.hi
	z := float64(t * t)
	q := 1.0/3 - float64(z*(1.0/5-float64(z*(1.0/7-float64(z*(1.0/9))))))
	r = r.plus(pair{-float64(t * z * q), 0})
	if k == 0 {
		return r
	}
	return arcs[k].plus(r)
}

// Hypot returns √(x² + y²) without overflow on the way. The error is below 0.6 ulp, for results that are not subnormal. An infinite
// argument gives +Inf, even if the other is NaN; otherwise NaN gives NaN.
func Hypot(x, y float64) float64 {
	switch {
	case math.IsInf(x, 0) || math.IsInf(y, 0):
		return math.Inf(1)
	case x != x || y != y:
		return math.NaN()
	}
	_, e := math.Frexp(max(math.Abs(x), math.Abs(y)))
	x, y = math.Ldexp(x, -e), math.Ldexp(y, -e)
	return math.Ldexp(root(product(x, x).plus(product(y, y))).hi, e)
}
