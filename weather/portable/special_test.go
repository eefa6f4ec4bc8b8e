package portable

import (
	"math"
	"testing"
)

// Values are published, to the digits that tables print: Abramowitz and Stegun (1964), Handbook of mathematical functions, table 1.1
// and sections 4.1 to 4.4. From memory.
func TestPublishedValues(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"e", Exp(1), 2.71828182845904523536},
		{"1/e", Exp(-1), 0.36787944117144232160},
		{"e^π", Exp(math.Pi), 23.14069263277926900573},
		{"ln 2", Log(2), 0.69314718055994530942},
		{"ln 3", Log(3), 1.09861228866810969140},
		{"ln 10", Log(10), 2.30258509299404568402},
		{"log e", Log10(math.E), 0.43429448190325182765},
		{"log 2", Log10(2), 0.30102999566398119521},
		{"√2", Pow(2, 0.5), 1.41421356237309504880},
		{"³√2", Pow(2, 1.0/3), 1.25992104989487316477},
		{"√10", Pow(10, 0.5), 3.16227766016837933200},
		{"sin 1", Sin(1), 0.84147098480789650665},
		{"cos 1", Cos(1), 0.54030230586813971740},
		{"tan 1", Tan(1), 1.55740772465490223051},
		{"asin ½", Asin(0.5), math.Pi / 6},
		{"acos ½", Acos(0.5), math.Pi / 3},
		{"atan ½", Atan2(1, 2), 0.46364760900080611621},
		{"atan 1", Atan2(1, 1), math.Pi / 4},
	} {
		if math.Abs(c.got-c.want) > 2.3e-16*math.Abs(c.want) { // one ulp
			t.Errorf("%s = %.17g, want %.17g", c.name, c.got, c.want)
		}
	}
}

func TestSpecialValues(t *testing.T) {
	inf, nan, zero := math.Inf(1), math.NaN(), math.Copysign(0, -1)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"Exp(0)", Exp(0), 1}, {"Exp(-0)", Exp(zero), 1}, {"Exp(+Inf)", Exp(inf), inf}, {"Exp(-Inf)", Exp(-inf), 0}, {"Exp(NaN)", Exp(nan), nan},
		{"Exp(709.79)", Exp(709.79), inf}, {"Exp(-745.14)", Exp(-745.14), 0}, {"Exp(-745.13)", Exp(-745.13), 0x1p-1074},
		{"Exp(-max)", Exp(-math.MaxFloat64), 0},
		{"Log(0)", Log(0), -inf}, {"Log(-0)", Log(zero), -inf}, {"Log(-1)", Log(-1), nan}, {"Log(+Inf)", Log(inf), inf},
		{"Log(-Inf)", Log(-inf), nan}, {"Log(NaN)", Log(nan), nan}, {"Log(1)", Log(1), 0},
		{"Log10(0)", Log10(0), -inf}, {"Log10(-1)", Log10(-1), nan}, {"Log10(+Inf)", Log10(inf), inf}, {"Log10(NaN)", Log10(nan), nan},
		{"Log10(1)", Log10(1), 0},
		{"Pow(0, 2)", Pow(0, 2), 0}, {"Pow(0, -2)", Pow(0, -2), inf}, {"Pow(0, 0)", Pow(0, 0), 1}, {"Pow(NaN, 0)", Pow(nan, 0), 1},
		{"Pow(1, NaN)", Pow(1, nan), 1}, {"Pow(2, NaN)", Pow(2, nan), nan}, {"Pow(NaN, 2)", Pow(nan, 2), nan}, {"Pow(-2, 2)", Pow(-2, 2), nan},
		{"Pow(+Inf, 1)", Pow(inf, 1), inf}, {"Pow(+Inf, -1)", Pow(inf, -1), 0}, {"Pow(2, +Inf)", Pow(2, inf), inf},
		{"Pow(2, -Inf)", Pow(2, -inf), 0}, {"Pow(0.5, +Inf)", Pow(0.5, inf), 0}, {"Pow(0.5, -Inf)", Pow(0.5, -inf), inf},
		{"Pow(10, 400)", Pow(10, 400), inf}, {"Pow(10, -400)", Pow(10, -400), 0}, {"Pow(2, -1074)", Pow(2, -1074), 0x1p-1074},
		{"Pow(2, 1023)", Pow(2, 1023), 0x1p1023}, {"Pow(2, 1024)", Pow(2, 1024), inf},
		{"Sin(-0)", Sin(zero), zero}, {"Sin(+Inf)", Sin(inf), nan}, {"Sin(NaN)", Sin(nan), nan}, {"Sin(far)", Sin(mostAngle + 1), nan},
		{"Cos(0)", Cos(0), 1}, {"Cos(-Inf)", Cos(-inf), nan}, {"Cos(far)", Cos(-mostAngle - 1), nan},
		{"Tan(-0)", Tan(zero), zero}, {"Tan(far)", Tan(mostAngle + 1), nan},
		{"Asin(-0)", Asin(zero), zero}, {"Asin(1)", Asin(1), math.Pi / 2}, {"Asin(-1)", Asin(-1), -math.Pi / 2},
		{"Asin(1.1)", Asin(1.1), nan}, {"Asin(NaN)", Asin(nan), nan},
		{"Acos(1)", Acos(1), 0}, {"Acos(-1)", Acos(-1), math.Pi}, {"Acos(0)", Acos(0), math.Pi / 2}, {"Acos(-1.1)", Acos(-1.1), nan},
		{"Hypot(0, 0)", Hypot(0, 0), 0}, {"Hypot(-3, 4)", Hypot(-3, 4), 5}, {"Hypot(NaN, -Inf)", Hypot(nan, -inf), inf},
		{"Hypot(NaN, 1)", Hypot(nan, 1), nan}, {"Hypot(max, max)", Hypot(math.MaxFloat64, math.MaxFloat64), inf},
	} {
		same := c.got == c.want && math.Signbit(c.got) == math.Signbit(c.want) || c.got != c.got && c.want != c.want
		if !same {
			t.Errorf("%s = %g, want %g", c.name, c.got, c.want)
		}
	}
	// Atan2 has the special values of the standard library.
	values := []float64{0, zero, 1, -1, inf, -inf, nan}
	for _, y := range values {
		for _, x := range values {
			got, want := Atan2(y, x), math.Atan2(y, x)
			if got != want && (got == got || want == want) || got == got && math.Signbit(got) != math.Signbit(want) {
				t.Errorf("Atan2(%g, %g) = %g, want %g", y, x, got, want)
			}
		}
	}
}

// Results that a float64 holds exactly come out exactly.
func TestExactResults(t *testing.T) {
	for n := -22; n <= 22; n++ {
		p := Pow(10, float64(n))
		if n >= 0 {
			if want := math.Pow10(n); p != want {
				t.Errorf("10^%d = %g", n, p)
			}
		}
		if got := Log10(math.Pow10(n)); n >= 0 && got != float64(n) || math.Abs(got-float64(n)) > 1e-14 {
			t.Errorf("log10 of 10^%d = %g", n, got)
		}
	}
	for n := 1.0; n < 200; n++ {
		if Pow(n, 2) != n*n || Pow(n*n, 0.5) != n || Pow(n, 1) != n {
			t.Errorf("squares and roots of %g are not exact", n)
		}
	}
}

func BenchmarkFunctions(b *testing.B) {
	for _, c := range []struct {
		name string
		of   func(float64) float64
		x    float64
	}{
		{"Exp", Exp, 0.1}, {"math.Exp", math.Exp, 0.1}, {"Log", Log, 3}, {"math.Log", math.Log, 3}, {"Sin", Sin, 1.3},
		{"math.Sin", math.Sin, 1.3},
		{"Acos", Acos, 0.3}, {"math.Acos", math.Acos, 0.3},
	} {
		b.Run(c.name, func(b *testing.B) {
			x := c.x
			for b.Loop() {
				x = c.x + float64(1e-30*c.of(x))
			}
		})
	}
}
