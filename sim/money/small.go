package money

import (
	"math"
	"math/bits"
	"strconv"

	"github.com/shopspring/decimal"
)

// A small is a number as sign, coefficient and decimals: coefficient·10^−places. It is exact,
// as the library's numbers are, but takes no memory of its own; what does not fit is left to
// the library. The zero small is 0.
type small struct {
	hi, lo uint64
	neg    bool // false if the coefficient is 0
	places uint8
}

// maxPlaces is the most decimals of a small number.
const maxPlaces = 36

// pow10 are the powers of ten that fit 64 bits.
var pow10 = [20]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19}

// mul64 returns the coefficient times m; false if it does not fit.
func mul64(hi, lo, m uint64) (h, l uint64, ok bool) {
	over, h1 := bits.Mul64(hi, m)
	c, l := bits.Mul64(lo, m)
	h, carry := bits.Add64(h1, c, 0)
	return h, l, over == 0 && carry == 0
}

// div64 returns the coefficient divided by d, which is above 0, cut to whole numbers, and
// the rest.
func div64(hi, lo, d uint64) (h, l, rest uint64) {
	h, rest = hi/d, hi%d
	l, rest = bits.Div64(rest, lo, d)
	return h, l, rest
}

// at returns a with so many decimals, at least as many as it has; false if it does not fit.
func (a small) at(places uint8) (small, bool) {
	ok := true
	for a.places < places && ok {
		step := min(places-a.places, 19)
		a.hi, a.lo, ok = mul64(a.hi, a.lo, pow10[step])
		a.places += step
	}
	return a, ok
}

func (a small) isZero() bool { return a.hi|a.lo == 0 }

func (a small) sign() int {
	switch {
	case a.isZero():
		return 0
	case a.neg:
		return -1
	}
	return 1
}

func (a small) negated() small {
	a.neg = !a.neg && !a.isZero()
	return a
}

// order compares coefficients.
func order(a, b small) int {
	switch {
	case a.hi != b.hi:
		if a.hi < b.hi {
			return -1
		}
		return 1
	case a.lo != b.lo:
		if a.lo < b.lo {
			return -1
		}
		return 1
	}
	return 0
}

// both returns a and b with the same number of decimals; false if one does not fit.
func both(a, b small) (x, y small, ok bool) {
	switch {
	case a.places < b.places:
		a, ok = a.at(b.places)
		return a, b, ok
	case a.places > b.places:
		b, ok = b.at(a.places)
		return a, b, ok
	}
	return a, b, true
}

func (a small) add(b small) (small, bool) {
	a, b, ok := both(a, b)
	if !ok {
		return a, false
	}
	if a.neg == b.neg {
		var carry uint64
		a.lo, carry = bits.Add64(a.lo, b.lo, 0)
		a.hi, carry = bits.Add64(a.hi, b.hi, carry)
		return a, carry == 0
	}
	if order(a, b) < 0 {
		a, b = b, a
	}
	var borrow uint64
	a.lo, borrow = bits.Sub64(a.lo, b.lo, 0)
	a.hi, _ = bits.Sub64(a.hi, b.hi, borrow)
	a.neg = a.neg && !a.isZero()
	return a, true
}

func (a small) mul(b small) (small, bool) {
	if a.hi != 0 {
		a, b = b, a
	}
	places := a.places + b.places
	if a.hi != 0 || places > maxPlaces {
		return a, false
	}
	neg := a.neg != b.neg
	m := a.lo
	hi, lo, ok := mul64(b.hi, b.lo, m)
	return small{hi, lo, neg && hi|lo != 0, places}, ok
}

func (a small) cmp(b small) (int, bool) {
	if s, t := a.sign(), b.sign(); s != t {
		if s < t {
			return -1, true
		}
		return 1, true
	}
	a, b, ok := both(a, b)
	if a.neg {
		a, b = b, a
	}
	return order(a, b), ok
}

// cut drops decimals beyond a number of them, and reports whether what it drops is not 0.
func (a small) cut(places uint8) (_ small, lost bool) {
	for a.places > places {
		step := min(a.places-places, 19)
		var rest uint64
		a.hi, a.lo, rest = div64(a.hi, a.lo, pow10[step])
		a.places -= step
		lost = lost || rest != 0
	}
	a.neg = a.neg && !a.isZero()
	return a, lost
}

// round rounds to a number of decimals, at least 0 and halves away from zero. It always fits.
func (a small) round(places uint8) small {
	if a.places <= places {
		return a
	}
	neg := a.neg
	a, _ = a.cut(places + 1)
	h, l, rest := div64(a.hi, a.lo, 10)
	if rest >= 5 {
		var carry uint64
		l, carry = bits.Add64(l, 1, 0)
		h += carry
	}
	return small{h, l, neg && h|l != 0, places}
}

// floor returns the largest whole number that is at most a; false if it does not fit.
func (a small) floor() (small, bool) {
	neg := a.neg
	whole, lost := a.cut(0)
	if neg && lost {
		return whole.add(small{lo: 1, neg: true})
	}
	return whole, true
}

// div returns a/b, b not 0, to a number of decimals, halves away from zero; false if it does
// not fit.
func (a small) div(b small, places uint8) (small, bool) {
	more := int(places) + int(b.places) - int(a.places)
	if a.hi|b.hi != 0 || more < 0 {
		return a, false
	}
	top, high, low := uint64(0), uint64(0), a.lo
	for more > 0 {
		step := min(more, 19)
		m := pow10[step]
		over, t := bits.Mul64(top, m)
		c2, h := bits.Mul64(high, m)
		c1, l := bits.Mul64(low, m)
		h, carry := bits.Add64(h, c1, 0)
		t, carry = bits.Add64(t, c2, carry)
		if over|carry != 0 {
			return a, false
		}
		top, high, low = t, h, l
		more -= step
	}
	d := b.lo
	if top >= d {
		return a, false
	}
	var rest uint64
	high, rest = bits.Div64(top, high, d)
	low, rest = bits.Div64(rest, low, d)
	if rest >= d-rest {
		var carry uint64
		low, carry = bits.Add64(low, 1, 0)
		if high, carry = bits.Add64(high, 0, carry); carry != 0 {
			return a, false
		}
	}
	return small{high, low, a.neg != b.neg && high|low != 0, places}, true
}

// float64 returns the nearest binary number; false if that takes more than one division of
// exact numbers.
func (a small) float64() (float64, bool) {
	const exact, places = 1 << 53, 22 // 10^22 is the highest power of ten that is exact
	if a.hi != 0 || a.lo > exact || a.places > places {
		return 0, false
	}
	v := float64(a.lo) / math.Pow10(int(a.places))
	if a.neg {
		v = -v
	}
	return v, true
}

// ofFloat returns the shortest decimal number that reads as v; false if it does not fit.
func ofFloat(v float64) (small, bool) {
	var buffer [32]byte
	text := strconv.AppendFloat(buffer[:0], v, 'e', -1, 64)
	a, i, places := small{}, 0, 0
	if text[0] == '-' {
		a.neg, i = true, 1
	}
	for point := false; i < len(text) && text[i] != 'e'; i++ {
		switch c := text[i]; {
		case c == '.':
			point = true
		case c < '0' || c > '9':
			return a, false
		default:
			a.lo = 10*a.lo + uint64(c-'0') // 17 digits at most
			if point {
				places++
			}
		}
	}
	if i == len(text) {
		return a, false
	}
	exponent, err := strconv.Atoi(string(text[i+1:]))
	if places -= exponent; err != nil || places > maxPlaces {
		return a, false
	}
	a.neg = a.neg && a.lo != 0
	if places >= 0 {
		a.places = uint8(places)
		return a, true
	}
	if places < -19 {
		return a, false
	}
	var ok bool
	a.hi, a.lo, ok = mul64(0, a.lo, pow10[-places])
	return a, ok
}

// ofDecimal returns a number of the library; false if it does not fit.
func ofDecimal(d decimal.Decimal) (small, bool) {
	exponent, c := d.Exponent(), d.Coefficient()
	if exponent > 0 || exponent < -maxPlaces || c.BitLen() > 128 {
		return small{}, false
	}
	a := small{places: uint8(-exponent), neg: c.Sign() < 0}
	words := c.Bits()
	for i, w := range words { // of 32 or 64 bits
		switch at := uint(i) * bits.UintSize; {
		case at < 64:
			a.lo |= uint64(w) << at
		default:
			a.hi |= uint64(w) << (at - 64)
		}
	}
	return a, true
}

// decimal returns a as a number of the library.
func (a small) decimal() decimal.Decimal {
	d := decimal.NewFromUint64(a.hi).Mul(decimal.NewFromUint64(1 << 63)).Mul(decimal.NewFromInt(2)).Add(decimal.NewFromUint64(a.lo))
	if a.neg {
		d = d.Neg()
	}
	return d.Shift(-int32(a.places))
}
