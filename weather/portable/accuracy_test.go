package portable

import (
	"math"
	"math/big"
	"math/rand/v2"
	"os"
	"testing"
)

// A trial is a function, its arguments and its bound in ulp.
type trial struct {
	name  string
	bound float64
	of    func(x, y float64) float64
	want  func(x, y float64) *big.Float
	draw  func(r *rand.Rand) (x, y float64)
	edges [][2]float64
}

func between(low, high float64) func(*rand.Rand) (float64, float64) {
	return func(r *rand.Rand) (float64, float64) { return low + float64(r.Float64()*(high-low)), 0 }
}

// anySize draws numbers of all sizes between 2^low and 2^high, half of them within 2^-1 to 2^-40 of 1.
func anySize(low, high int) func(*rand.Rand) (float64, float64) {
	return func(r *rand.Rand) (float64, float64) {
		if r.IntN(2) == 0 {
			return 1 + math.Ldexp(2*r.Float64()-1, -1-r.IntN(40)), 0
		}
		return math.Ldexp(1+r.Float64(), low+r.IntN(high-low)), 0
	}
}

func trials() []trial {
	c := newConstants()
	one := func(f func(float64) float64) func(x, y float64) float64 {
		return func(x, _ float64) float64 { return f(x) }
	}
	angles := func(r *rand.Rand) (float64, float64) {
		switch r.IntN(3) {
		case 0: // next to a multiple of π/4
			return float64(float64(r.IntN(4000)-2000)*(math.Pi/4)) + math.Ldexp(2*r.Float64()-1, -r.IntN(60)), 0
		case 1:
			return (2*r.Float64() - 1) * mostAngle, 0
		}
		return (2*r.Float64() - 1) * 7, 0
	}
	arcs := func(r *rand.Rand) (float64, float64) {
		v := r.Float64()
		switch r.IntN(3) {
		case 0:
			v = math.Ldexp(v, -r.IntN(200))
		case 1:
			v = 1 - math.Ldexp(v, -r.IntN(53))
		}
		if r.IntN(2) == 0 {
			v = -v
		}
		return v, 0
	}
	signed := func(x float64, of func(x *big.Float) *big.Float) *big.Float { // of an odd function
		v := of(number(math.Abs(x)))
		if x < 0 {
			v.Neg(v)
		}
		return v
	}
	across := func(x *big.Float) *big.Float { return sqrt(sub(number(1), mul(x, x))) }
	points := func(r *rand.Rand) (float64, float64) {
		y := math.Ldexp(1+r.Float64(), r.IntN(80)-40)
		x := math.Ldexp(1+r.Float64(), r.IntN(80)-40)
		if r.IntN(2) == 0 {
			x = y + math.Ldexp(y*(2*r.Float64()-1), -r.IntN(50))
		}
		if r.IntN(2) == 0 {
			x = -x
		}
		return y, x
	}
	circle := [][2]float64{{0.25, 0}, {0.5, 0}, {0.75, 0}, {-0.5, 0}, {math.Nextafter(1, 0), 0}, {math.Nextafter(-1, 0), 0}, {0x1p-200, 0}}
	turns := [][2]float64{{math.Pi, 0}, {math.Pi / 2, 0}, {math.Pi / 4, 0}, {-3 * math.Pi / 4, 0}, {0x1p-300, 0}, {mostAngle, 0},
		{355, 0}, {-103993, 0}, {573204, 0}} // close to multiples of π/2
	return []trial{
		{"Exp", 0.6, one(Exp), func(x, _ float64) *big.Float { return c.exp(number(x)) }, between(-708, 709),
			[][2]float64{{709.78, 0}, {-708.3, 0}, {1, 0}, {-1, 0}, {0x1p-60, 0}, {math.Ln2 / 64, 0}, {-math.Ln2 / 64, 0}}},
		{"Exp near 0", 0.6, one(Exp), func(x, _ float64) *big.Float { return c.exp(number(x)) }, between(-3, 3), nil},
		{"Log", 0.6, one(Log), func(x, _ float64) *big.Float { return c.log(number(x)) }, anySize(-1070, 1023),
			[][2]float64{{math.MaxFloat64, 0}, {0x1p-1074, 0}, {math.Nextafter(1, 2), 0}, {math.Nextafter(1, 0), 0}, {math.Sqrt2, 0},
				{math.Sqrt2 / 2, 0}, {256.0 / 257, 0}, {255.0 / 256, 0}}},
		{"Log10", 0.6, one(Log10), func(x, _ float64) *big.Float { return quo(c.log(number(x)), c.log(number(10))) }, anySize(-1070, 1023),
			[][2]float64{{1e-5, 0}, {0.001, 0}, {2, 0}}},
		{"Pow", 0.6, Pow, func(x, y float64) *big.Float { return c.exp(mul(number(y), c.log(number(x)))) },
			func(r *rand.Rand) (float64, float64) {
				x, _ := anySize(-1000, 1000)(r)
				return x, (2*r.Float64() - 1) * 700 / max(math.Abs(math.Log(x)), 1e-15)
			}, [][2]float64{{2, 0.5}, {0.9, 5.26}, {10, -3}, {math.Nextafter(1, 2), 1 << 58}}},
		{"Sin", 0.8, one(Sin), func(x, _ float64) *big.Float { s, _ := c.sinCos(number(x)); return s }, angles, turns},
		{"Cos", 0.8, one(Cos), func(x, _ float64) *big.Float { _, v := c.sinCos(number(x)); return v }, angles, turns},
		{"Tan", 0.9, one(Tan), func(x, _ float64) *big.Float { s, v := c.sinCos(number(x)); return quo(s, v) }, angles, turns},
		{"Asin", 0.6, one(Asin), func(x, _ float64) *big.Float {
			return signed(x, func(v *big.Float) *big.Float { return c.atan2(v, across(v)) })
		}, arcs, circle},
		{"Acos", 0.6, one(Acos), func(x, _ float64) *big.Float { return c.atan2(across(number(x)), number(x)) }, arcs, circle},
		{"Atan2", 0.6, Atan2, func(y, x float64) *big.Float { return c.atan2(number(y), number(x)) }, points,
			[][2]float64{{1, 1}, {1, -1}, {1, 0}, {1e300, 1e-300}, {1, math.Nextafter(1, 2)}}},
		{"Hypot", 0.6, Hypot, func(x, y float64) *big.Float { return sqrt(add(mul(number(x), number(x)), mul(number(y), number(y)))) }, points,
			[][2]float64{{3, 4}, {1e308, 1e308}, {1e-300, 1e-300}, {1, 1e-20}}},
	}
}

// TestAccuracy compares with values of 300 bits and prints the largest error of each function; with LONG=1
// it takes 100,000 arguments of each.
func TestAccuracy(t *testing.T) {
	n := 2000
	switch {
	case os.Getenv("LONG") != "":
		n = 100000
	case testing.Short():
		n = 500
	}
	for _, c := range trials() {
		r := rand.New(rand.NewPCG(1, 2))
		worst, at := 0.0, [2]float64{}
		see := func(x, y float64) {
			if off := ulps(c.of(x, y), c.want(x, y)); !(off <= worst) {
				worst, at = off, [2]float64{x, y}
			}
		}
		for _, e := range c.edges {
			see(e[0], e[1])
		}
		for range n {
			see(c.draw(r))
		}
		t.Logf("%-10s %d arguments, largest error %.4f ulp, at %v", c.name, n+len(c.edges), worst, at)
		if !(worst <= c.bound) {
			t.Errorf("%s: the error at %v is %g ulp, above %g", c.name, at, worst, c.bound)
		}
	}
}
