package ledgerfile

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestFixedByHand(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {1, "1"}, {10, "10"}, {-3, "-3"}, {0.5, "0.5"}, {12.34, "12.34"},
		{0.0001, "0.0001"}, {0.001, "0.001"},
		{0.00004, "0"}, {-0.00004, "0"}, {-0.00006, "-0.0001"}, {0.99996, "1"}, {9.99995001, "10"}, {999.99999, "1000"}, {123456.78, "123456.78"},
		{1.0203, "1.0203"}, {7.1, "7.1"}, {7.01, "7.01"},
		// 1/32 = 0.03125 and 3/32 = 0.09375 are ties that a float holds exactly.
		{0.03125, "0.0312"}, {0.09375, "0.0938"}, {-0.09375, "-0.0938"},
		// 3.00005 lies below the tie as a float (3.00004999999999988) and 2.00015 above
		// (2.00015000000000009), though the products of both are a half to the last bit.
		{3.00005, "3"}, {2.00015, "2.0002"},
		{899999999999.5, "899999999999.5"}, {9e11, "9e+11"}, {1e300, "1e+300"}, {-math.MaxFloat64, "-1.7976931348623157e+308"}, {5e-324, "0"},
	} {
		if got := string(appendFixed(nil, tt.v)); got != tt.want {
			t.Errorf("%v: %s, want %s", tt.v, got, tt.want)
		}
	}
}

// Below the limit the digits are those of the standard library, which rounds
// the exact value.
func TestFixedIsCorrectlyRounded(t *testing.T) {
	check := func(rt interface{ Fatalf(string, ...any) }, v float64) {
		want := strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', decimals, 64), "0"), ".")
		if want == "-0" {
			want = "0"
		}
		if got := string(appendFixed(nil, v)); got != want {
			rt.Fatalf("%v: %s, want %s", v, got, want)
		}
	}
	for n := range 400_000 { // every tie up to 20, and the floats beside it
		v := (float64(n) + 0.5) / places
		for _, x := range []float64{v, math.Nextafter(v, 0), math.Nextafter(v, 100), -v} {
			check(t, x)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		check(rt, rapid.OneOf(rapid.Float64Range(-100, 100), rapid.Float64Range(-mostFixed+1, mostFixed-1)).Draw(rt, "v"))
		check(rt, (float64(rapid.Int64Range(0, mostFixed*places/2).Draw(rt, "n"))+0.5)/places)
	})
}
