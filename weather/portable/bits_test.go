package portable

import (
	"math"
	"math/big"
)

// The functions below compute with 300 bits, by series alone, so they share nothing with the package.

const bits = 300

func number(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }
func fraction(a, b int64) *big.Float {
	return new(big.Float).SetPrec(bits).Quo(new(big.Float).SetInt64(a), new(big.Float).SetInt64(b))
}
func add(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(bits).Add(a, b) }
func sub(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(bits).Sub(a, b) }
func mul(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(bits).Mul(a, b) }
func quo(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(bits).Quo(a, b) }
func sqrt(a *big.Float) *big.Float   { return new(big.Float).SetPrec(bits).Sqrt(a) }
func times2(a *big.Float, n int) *big.Float {
	return new(big.Float).SetPrec(bits).SetMantExp(a, n)
}

// small reports whether a term no longer changes a sum.
func small(term, sum *big.Float) bool {
	return term.Sign() == 0 || sum.Sign() != 0 && term.MantExp(nil) < sum.MantExp(nil)-bits
}

// areaTan returns artanh x for |x| ≤ ½: x + x³/3 + x⁵/5 + …
func areaTan(x *big.Float) *big.Float {
	sum, power, square := number(0), x, mul(x, x)
	for n := int64(1); ; n += 2 {
		term := mul(power, fraction(1, n))
		if small(term, sum) {
			return sum
		}
		sum, power = add(sum, term), mul(power, square)
	}
}

// bigLn2 is 2 artanh(1/3).
func bigLn2() *big.Float { return times2(areaTan(fraction(1, 3)), 1) }

// bigPi is 16 atan(1/5) − 4 atan(1/239), after Machin.
func bigPi() *big.Float {
	return sub(times2(atanSeries(fraction(1, 5)), 4), times2(atanSeries(fraction(1, 239)), 2))
}

// A precise value of a function needs these two, computed once.
type constants struct{ ln2, pi *big.Float }

func newConstants() constants { return constants{bigLn2(), bigPi()} }

// log is e ln 2 + 2 artanh((m − 1)/(m + 1)).
func (c constants) log(x *big.Float) *big.Float {
	m := new(big.Float)
	e := x.MantExp(m) // from ½ to 1
	if v, _ := m.Float64(); v < math.Sqrt2/2 {
		m, e = times2(m, 1), e-1
	}
	one := number(1)
	return add(mul(number(float64(e)), c.ln2), times2(areaTan(quo(sub(m, one), add(m, one))), 1))
}

// exp is the Taylor series at a 2^-20 of the argument, squared 20 times.
func (c constants) exp(x *big.Float) *big.Float {
	v, _ := x.Float64()
	n := math.Round(v / math.Ln2)
	const halvings = 20
	r := times2(sub(x, mul(number(n), c.ln2)), -halvings)
	sum, term := number(1), number(1)
	for k := int64(1); !small(term, sum); k++ {
		term = mul(term, mul(r, fraction(1, k)))
		sum = add(sum, term)
	}
	for range halvings {
		sum = mul(sum, sum)
	}
	return times2(sum, int(n))
}

// sinCos is the Taylor series of x less a multiple of π/2.
func (c constants) sinCos(x *big.Float) (sine, cosine *big.Float) {
	v, _ := x.Float64()
	n := math.Round(v / (math.Pi / 2))
	r := sub(x, mul(number(n), times2(c.pi, -1)))
	sums, term := [4]*big.Float{number(0), number(0), number(0), number(0)}, number(1)
	for k := int64(0); k < 80; k++ {
		sums[k%4] = add(sums[k%4], term)
		term = mul(term, mul(r, fraction(1, k+1)))
	}
	s, co := sub(sums[1], sums[3]), sub(sums[0], sums[2])
	for range ((int(n) % 4) + 4) % 4 {
		s, co = co, new(big.Float).Neg(s)
	}
	return s, co
}

func atanSeries(x *big.Float) *big.Float {
	sum, power, square := number(0), x, mul(x, x)
	for n := int64(1); ; n += 2 {
		term := mul(power, fraction(1, n))
		if small(term, sum) {
			return sum
		}
		if n%4 == 3 {
			term.Neg(term)
		}
		sum, power = add(sum, term), mul(power, square)
	}
}

// atan2 halves the angle three times, tan(a/2) = t/(1 + √(1 + t²)), for y above 0.
func (c constants) atan2(y, x *big.Float) *big.Float {
	if x.Sign() == 0 {
		return times2(c.pi, -1)
	}
	t := quo(y, new(big.Float).Abs(x))
	for range 3 {
		one := number(1)
		t = quo(t, add(one, sqrt(add(one, mul(t, t)))))
	}
	a := times2(atanSeries(t), 3)
	if x.Sign() < 0 {
		return sub(c.pi, a)
	}
	return a
}

// ulps returns the distance of got from want in units of the last place of want.
func ulps(got float64, want *big.Float) float64 {
	if want.Sign() == 0 {
		if got == 0 {
			return 0
		}
		return math.Inf(1)
	}
	d := new(big.Float).Abs(sub(number(got), want))
	off, _ := times2(d, 53-max(want.MantExp(nil), -1021)).Float64()
	return off
}
