// Package money computes with exact decimal numbers: prices, amounts and billed
// volumes. It is the only home of the decimal library.
//
// # Promises
//
// Sums, differences and products are exact; only [Num.Div] and the conversions
// from binary numbers round, at places given here. Amounts are rounded where a
// bill rounds them, by [Num.Cents], and nowhere else.
package money

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"loamledger/weather/quantity"
)

// A Num is an exact decimal number. The zero Num is 0.
type Num struct {
	small
	large *decimal.Decimal // if the number does not fit; else nil
}

// of returns a number of the library as a Num.
func of(d decimal.Decimal) Num {
	if a, ok := ofDecimal(d); ok {
		return Num{small: a}
	}
	return Num{large: &d}
}

// dec returns a as a number of the library.
func (a Num) dec() decimal.Decimal {
	if a.large != nil {
		return *a.large
	}
	return a.decimal()
}

// divPlaces is the number of decimals of a quotient: enough that the error of
// a volume split by days stays far below a cent at any price.
const divPlaces = 24

// maxDigits bounds the digits of a number in a file.
const maxDigits = 24

// Parse reads a plain decimal number: digits with an optional sign and decimal
// point, at most 24 digits. A separator, exponent or currency symbol is an error.
func Parse(text string) (Num, error) {
	digits := strings.TrimLeft(text, "+-")
	if len(text)-len(digits) > 1 || strings.Trim(digits, "0123456789.") != "" || strings.Count(digits, ".") > 1 ||
		strings.Trim(digits, ".") == "" {
		return Num{}, fmt.Errorf("%q is not a number", text)
	}
	if len(digits) > maxDigits {
		return Num{}, fmt.Errorf("%.20s... has too many digits", text)
	}
	d, err := decimal.NewFromString(strings.TrimSuffix(text, "."))
	if err != nil {
		return Num{}, fmt.Errorf("%q is not a number", text)
	}
	return of(d), nil
}

// WhyNot says why a text that [Parse] refuses is not a number.
func WhyNot(text string) string {
	switch {
	case strings.ContainsFunc(text, func(c rune) bool { return unicode.Is(unicode.Sc, c) }):
		return fmt.Sprintf("%q has a currency symbol", text)
	case strings.Contains(text, "/") || strings.Contains(text, " per "):
		return fmt.Sprintf("%q has a unit", text)
	case strings.Contains(text, ","):
		return fmt.Sprintf("%q contains a comma", text)
	}
	return fmt.Sprintf("%q is not a plain number", text)
}

// Int returns n as a Num.
func Int(n int) Num {
	if n < 0 {
		return Num{small: small{lo: -uint64(n), neg: true}}
	}
	return Num{small: small{lo: uint64(n)}}
}

// Float returns v, which must be finite, rounded to the given number of decimals.
func Float(v float64, places int) Num {
	if a, ok := ofFloat(v); ok && places >= 0 && places < maxPlaces {
		return Num{small: a.round(uint8(places))}
	}
	return of(decimal.NewFromFloat(v).Round(int32(places)))
}

// Add returns a + b.
func (a Num) Add(b Num) Num {
	if a.large == nil && b.large == nil {
		if c, ok := a.add(b.small); ok {
			return Num{small: c}
		}
	}
	return of(a.dec().Add(b.dec()))
}

// Sub returns a − b.
func (a Num) Sub(b Num) Num {
	if a.large == nil && b.large == nil {
		if c, ok := a.add(b.negated()); ok {
			return Num{small: c}
		}
	}
	return of(a.dec().Sub(b.dec()))
}

// Mul returns a·b.
func (a Num) Mul(b Num) Num {
	if a.large == nil && b.large == nil {
		if c, ok := a.mul(b.small); ok {
			return Num{small: c}
		}
	}
	return of(a.dec().Mul(b.dec()))
}

// Div returns a/b to 24 decimals; 0 if b is 0.
func (a Num) Div(b Num) Num {
	if b.Sign() == 0 {
		return Num{}
	}
	if a.large == nil && b.large == nil {
		if c, ok := a.div(b.small, divPlaces); ok {
			return Num{small: c}
		}
	}
	return of(a.dec().DivRound(b.dec(), divPlaces))
}

// Share returns a·k/n, and a itself, exactly, if k is n.
func (a Num) Share(k, n int) Num {
	if k == n {
		return a
	}
	return a.Mul(Int(k)).Div(Int(n))
}

// Neg returns −a.
func (a Num) Neg() Num {
	if a.large == nil {
		return Num{small: a.negated()}
	}
	return of(a.large.Neg())
}

// Cmp returns −1, 0 or 1 as a is below, equal to or above b.
func (a Num) Cmp(b Num) int {
	if a.large == nil && b.large == nil {
		if c, ok := a.cmp(b.small); ok {
			return c
		}
	}
	return a.dec().Cmp(b.dec())
}

// Sign returns −1, 0 or 1.
func (a Num) Sign() int {
	if a.large == nil {
		return a.sign()
	}
	return a.large.Sign()
}

// Floor returns the largest whole number that is at most a.
func (a Num) Floor() Num {
	if a.large == nil {
		if c, ok := a.floor(); ok {
			return Num{small: c}
		}
	}
	return of(a.dec().Floor())
}

// Round rounds to the given number of decimals, halves away from zero.
func (a Num) Round(places int) Num {
	if a.large == nil && places >= 0 && places < maxPlaces {
		return Num{small: a.round(uint8(places))}
	}
	return of(a.dec().Round(int32(places)))
}

// Cents rounds to 0.01, halves away from zero, as bills do.
func (a Num) Cents() Num { return a.Round(2) }

// Float64 returns the nearest binary number, for charts and shares only.
func (a Num) Float64() float64 {
	if a.large == nil {
		if v, ok := a.float64(); ok {
			return v
		}
	}
	return a.dec().InexactFloat64()
}

// Fixed writes a with the given number of decimals and no separators.
func (a Num) Fixed(places int) string { return a.dec().StringFixed(int32(places)) }

// String writes a without needless zeros.
func (a Num) String() string {
	text := a.dec().String()
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// Short writes a with at most the given decimals and without needless zeros.
func (a Num) Short(places int) string { return a.Round(places).String() }

// Price writes a with at least two decimals, as prices are printed.
func (a Num) Price() string {
	if text := a.String(); len(text)-strings.IndexByte(text+".", '.') > 3 {
		return text
	}
	return a.Fixed(2)
}

// Text writes a as an amount with two decimals and commas between thousands.
func (a Num) Text() string {
	digits, sign := strings.CutPrefix(a.Fixed(2), "-")
	whole, cents, _ := strings.Cut(digits, ".")
	text := quantity.Thousands(whole) + "." + cents
	if sign {
		return "-" + text
	}
	return text
}

// MarshalJSON writes a as a number with all its decimals.
func (a Num) MarshalJSON() ([]byte, error) { return []byte(a.String()), nil }

// Min returns the smaller of a and b.
func Min(a, b Num) Num {
	if a.Cmp(b) <= 0 {
		return a
	}
	return b
}

// Max returns the larger of a and b.
func Max(a, b Num) Num {
	if a.Cmp(b) >= 0 {
		return a
	}
	return b
}

// Sum returns the sum of all.
func Sum(all ...Num) (sum Num) {
	for _, n := range all {
		sum = sum.Add(n)
	}
	return sum
}
