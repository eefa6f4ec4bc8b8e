package money

import (
	"testing"

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
