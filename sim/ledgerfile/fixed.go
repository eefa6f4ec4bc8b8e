package ledgerfile

import (
	"math"
	"strconv"
)

// Decimals of a number in CSV, and the number of units of the last decimal in 1.
const (
	decimals = 4
	places   = 1e4
)

// mostFixed is the value from which floats are so far apart (2⁵³/10⁴ and more)
// that four decimals add nothing to the shortest form.
const mostFixed = 9e11

// appendFixed appends the finite v rounded to four decimals, with ties to even as
// in [strconv.FormatFloat], and without trailing zeros. A value that rounds to
// zero is written as 0, without a sign.
func appendFixed(b []byte, v float64) []byte {
	if v == 0 { // most values of a ledger
		return append(b, '0')
	}
	a := math.Abs(v)
	if !(a < mostFixed) {
		return strconv.AppendFloat(b, v, 'g', -1, 64)
	}
	p := float64(a * places)
	n := uint64(p)
	// p is the float nearest to the true product, so only a remainder of exactly
	// one half may be slightly off; the fused product shows in which direction.
	switch rest := p - float64(n); {
	case rest > 0.5:
		n++
	case rest == 0.5:
		if off := math.FMA(a, places, -p); off > 0 || off == 0 && n&1 == 1 {
			n++
		}
	}
	if n == 0 {
		return append(b, '0')
	}
	if v < 0 {
		b = append(b, '-')
	}
	whole, last := n/places, uint32(n%places)
	b = appendWhole(b, whole)
	if last == 0 {
		return b
	}
	high, low := last/100, last%100
	b = append(b, '.', pairs[2*high], pairs[2*high+1])
	if low != 0 {
		b = append(b, pairs[2*low], pairs[2*low+1])
	}
	if b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	return b
}

// appendWhole appends n in decimal.
func appendWhole(b []byte, n uint64) []byte {
	switch {
	case n < 10:
		return append(b, byte('0'+n))
	case n < 100:
		return append(b, pairs[2*n], pairs[2*n+1])
	case n < 1000:
		return append(b, byte('0'+n/100), pairs[2*(n%100)], pairs[2*(n%100)+1])
	}
	return strconv.AppendUint(b, n, 10)
}

// pairs holds the two digits of each number below 100.
const pairs = "0001020304050607080910111213141516171819" +
	"2021222324252627282930313233343536373839" +
	"4041424344454647484950515253545556575859" +
	"6061626364656667686970717273747576777879" +
	"8081828384858687888990919293949596979899"
