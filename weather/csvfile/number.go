package csvfile

import "strconv"

// pow10 holds the powers of ten that are exact in a float64.
var pow10 = [23]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20,
	1e21, 1e22}

// number reads a finite decimal number such as -12.5 or 5.59E-08 exactly, that
// is, to the nearest float64. Words, hexadecimal and digit grouping are
// rejected.
//
// A short decimal is its digits divided by a power of ten: both are exact, so
// the single division rounds correctly.
func number(b []byte) (float64, bool) {
	i, neg := 0, false
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		neg = b[0] == '-'
		i = 1
	}
	var mant uint64
	digits, frac, dot := 0, 0, false
	for ; i < len(b); i++ {
		c := b[i]
		if c-'0' <= 9 {
			if digits >= 18 {
				return slowNumber(b)
			}
			mant = 10*mant + uint64(c-'0')
			digits++
			if dot {
				frac++
			}
			continue
		}
		if c == '.' && !dot {
			dot = true
			continue
		}
		if (c == 'e' || c == 'E') && digits > 0 {
			return slowNumber(b)
		}
		return 0, false
	}
	if digits == 0 {
		return 0, false
	}
	if mant > 1<<53 || frac > 22 {
		return slowNumber(b)
	}
	v := float64(mant) / pow10[frac]
	if neg {
		v = -v
	}
	return v, true
}

func slowNumber(b []byte) (float64, bool) {
	if len(b) > 64 {
		return 0, false
	}
	for _, c := range b {
		if c-'0' > 9 && c != '.' && c != '-' && c != '+' && c != 'e' && c != 'E' {
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(string(b), 64)
	return v, err == nil
}

// natural reads an unsigned whole number of at most nine digits.
func natural(b []byte) (int, bool) {
	if len(b) == 0 || len(b) > 9 {
		return 0, false
	}
	n := 0
	for _, c := range b {
		if c-'0' > 9 {
			return 0, false
		}
		n = 10*n + int(c-'0')
	}
	return n, true
}
