package money

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Hand: halves round away from zero, and nothing else is rounded.
func TestCents(t *testing.T) {
	for text, want := range map[string]string{"19.355": "19.36", "-19.355": "-19.36", "1.004999": "1.00", "2": "2.00",
		"1234567.895": "1,234,567.90", "-0.004": "0.00"} {
		n, err := Parse(text)
		if err != nil || n.Cents().Text() != want {
			t.Errorf("%s: %s, %v; by hand %s", text, n.Cents().Text(), err, want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, text := range []string{"", ".", "-", "$2.61", "2,61", "1e5", "1.2.3", "+-1", "0x1", "NaN", "Inf", "2.61/HCF",
		"1234567890123456789012345"} {
		if n, err := Parse(text); err == nil {
			t.Errorf("Parse(%q) = %v, want an error", text, n)
		}
	}
}

// Hand: a third of 10, three times, is 10 again to 23 decimals; a whole share is exact.
func TestShare(t *testing.T) {
	ten := Int(10)
	if third := ten.Share(1, 3); third.Mul(Int(3)).Round(23).Cmp(ten) != 0 || ten.Share(7, 7).Cmp(ten) != 0 {
		t.Errorf("a third of 10 is %v", third)
	}
}

// Decimal fractions add up exactly, unlike binary ones.
func TestSumsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cents := rapid.SliceOf(rapid.IntRange(-1e9, 1e9)).Draw(t, "cents")
		var sum Num
		total := 0
		for _, c := range cents {
			sum = sum.Add(Int(c).Mul(Float(0.01, 2)))
			total += c
		}
		if sum.Mul(Int(100)).Cmp(Int(total)) != 0 {
			t.Fatalf("sum %v of %d cents", sum, total)
		}
	})
}

// Hand: prices have two decimals or more.
func TestPrice(t *testing.T) {
	for text, want := range map[string]string{"11.2": "11.20", "5": "5.00", "0.00375": "0.00375", "2.61": "2.61", "1.234": "1.234"} {
		if n, err := Parse(text); err != nil || n.Price() != want {
			t.Errorf("%s: %s, %v; want %s", text, n.Price(), err, want)
		}
	}
}

// drawNum draws a number, among them some that do not fit and those of long divisions.
func drawNum(t *rapid.T, label string) Num {
	n := of(decimal.NewFromInt(rapid.Int64().Draw(t, label)).Shift(-rapid.Int32Range(-3, 30).Draw(t, label+" decimals")))
	switch rapid.IntRange(0, 6).Draw(t, label+" kind") {
	case 0:
		n = Int(rapid.IntRange(-1000, 1000).Draw(t, label+" whole"))
	case 1:
		n = n.Div(Int(rapid.IntRange(1, 99).Draw(t, label+" divisor")))
	case 2:
		n = n.Mul(n)
	case 3:
		n = Int(rapid.IntRange(-30000, 30000).Draw(t, label+" in cents")).Mul(Float(0.005, 3))
	case 4: // any two words, so that sums, products and quotients are on either side of the limit
		word := rapid.OneOf(rapid.Uint64(), rapid.SampledFrom([]uint64{0, 1, 1<<53 - 1, 1<<53 + 1, 1 << 63, math.MaxUint64}))
		places := rapid.Uint8Range(0, maxPlaces).Draw(t, label+" places")
		n = Num{small: small{hi: word.Draw(t, label+" high"), lo: word.Draw(t, label+" low"), places: places}}
		if rapid.Bool().Draw(t, label+" below 0") {
			n = n.Neg()
		}
	}
	return n
}

// Numbers that fit are computed without the library; every result is that of the library.
func TestSmallNumbersAreTheLibrarys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawNum(t, "a"), drawNum(t, "b")
		x, y := a.dec(), b.dec()
		same := func(what string, got Num, want decimal.Decimal) {
			t.Helper()
			if !got.dec().Equal(want) || got.String() != of(want).String() || got.Sign() != want.Sign() {
				t.Fatalf("%s of %v and %v: %v, want %v", what, a, b, got, want)
			}
			if got.Float64() != want.InexactFloat64() {
				t.Fatalf("%v as a binary number: %v, want %v", got, got.Float64(), want.InexactFloat64())
			}
		}
		same("sum", a.Add(b), x.Add(y))
		same("difference", a.Sub(b), x.Sub(y))
		same("product", a.Mul(b), x.Mul(y))
		same("negative", a.Neg(), x.Neg())
		same("floor", a.Floor(), x.Floor())
		places := rapid.IntRange(-2, 40).Draw(t, "places")
		same("rounded", a.Round(places), x.Round(int32(places)))
		if !y.IsZero() {
			same("quotient", a.Div(b), x.DivRound(y, divPlaces))
		}
		if a.Cmp(b) != x.Cmp(y) || a.Cmp(a) != 0 {
			t.Fatalf("%v and %v compare as %d", a, b, a.Cmp(b))
		}
		v := rapid.OneOf(rapid.Float64Range(-1e6, 1e6), rapid.Float64Range(-1e300, 1e300), rapid.Float64Range(-1e-9, 1e-9)).Draw(t, "v")
		same("binary", Float(v, max(places, 0)), decimal.NewFromFloat(v).Round(int32(max(places, 0))))
	})
}
