package portable

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// off returns the relative error of got.
func off(got float64, want *big.Float) float64 {
	d, _ := quo(sub(number(got), want), want).Float64()
	return math.Abs(d)
}

// TestNormalAgainstBits compares with the series of Φ with 300 bits.
func TestNormalAgainstBits(t *testing.T) {
	c := newConstants()
	r := rand.New(rand.NewPCG(7, 8))
	worst := 0.0
	for range 500 {
		x := float64(16*r.Float64()) - 8
		v := number(math.Abs(x))
		square := mul(v, v)
		term, sum := v, number(0)
		for n := int64(3); !small(term, sum); n += 2 {
			sum = add(sum, term)
			term = mul(term, mul(square, fraction(1, n)))
		}
		half := quo(mul(c.exp(times2(sub(number(0), square), -1)), sum), sqrt(times2(c.pi, 1)))
		if x < 0 {
			half = sub(number(0), half)
		}
		e := off(NormalCDF(x), add(number(0.5), half))
		if worst = max(worst, e); e > 4e-15 {
			t.Errorf("NormalCDF(%g) = %g is off by %.2g", x, NormalCDF(x), e)
		}
		if p := NormalCDF(x); x < 0 && math.Abs(NormalQuantile(p)-x) > 1e-15*(1-x) {
			t.Errorf("NormalQuantile(%g) = %.17g, want %.17g", p, NormalQuantile(p), x)
		}
	}
	t.Logf("largest relative error %.2g", worst)
}

// TestGammaAgainstBits compares with the series of the incomplete gamma function with 300 bits, for shapes whose Γ is known.
func TestGammaAgainstBits(t *testing.T) {
	c := newConstants()
	r := rand.New(rand.NewPCG(9, 10))
	worst := 0.0
	for range 500 {
		halves := 1 + r.IntN(200)
		shape := float64(halves) / 2
		x := shape * math.Pow(10, float64(2*r.Float64())-1)
		whole := number(1) // Γ(shape)
		from := 1.0
		if halves%2 == 1 {
			whole, from = sqrt(c.pi), 0.5
		}
		for k := from; k < shape; k++ {
			whole = mul(whole, number(k))
		}
		term, sum := quo(number(1), number(shape)), number(0)
		for k := shape + 1; !small(term, sum); k++ {
			sum = add(sum, term)
			term = mul(term, quo(number(x), number(k)))
		}
		below := quo(mul(mul(sum, c.exp(sub(number(0), number(x)))), c.exp(mul(number(shape), c.log(number(x))))), whole)
		p, q := GammaCDF(shape, x), GammaTail(shape, x)
		e := off(p, below)
		if v, _ := sub(number(1), below).Float64(); v > 1e-60 && q > 1e-60 {
			e = max(e, off(q, sub(number(1), below)))
		}
		if worst = max(worst, e); e > 3e-13 {
			t.Errorf("shape %g, x %g: %g below, %g above, off by %.2g", shape, x, p, q, e)
		}
		if p > 1e-200 && p < 0.999 {
			if back := GammaQuantile(shape, p); math.Abs(back/x-1) > 3e-13*max(1, p*shape/x/math.Exp(shape*math.Log(x)-x-logGamma(shape))) {
				t.Errorf("shape %g: the %g-quantile is %.17g, want %.17g", shape, p, back, x)
			}
		}
	}
	t.Logf("largest relative error %.2g", worst)
}

// TestPublishedQuantiles has the digits that tables print: Abramowitz and Stegun (1964), tables 26.1, 26.8 and 26.10, from memory.
// Student's quantiles for 1, 2 and 4 degrees of freedom are closed forms.
func TestPublishedQuantiles(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
		digits    float64
	}{
		{"z 0.975", NormalQuantile(0.975), 1.959963985, 1e-9},
		{"z 0.95", NormalQuantile(0.95), 1.644853627, 1e-9},
		{"χ² 0.95, 6", 2 * GammaQuantile(3, 0.95), 12.5916, 1e-4},
		{"χ² 0.99, 10", 2 * GammaQuantile(5, 0.99), 23.2093, 1e-4},
		{"t 0.975, 10", StudentQuantile(10, 0.975), 2.228, 1e-3},
		{"t 0.95, 30", StudentQuantile(30, 0.95), 1.697, 1e-3},
		{"t 0.995, 5", StudentQuantile(5, 0.995), 4.032, 1e-3},
	} {
		if math.Abs(c.got-c.want) > c.digits/2*1.001 {
			t.Errorf("%s: %.10g, want %.10g", c.name, c.got, c.want)
		}
	}
	for _, p := range []float64{0.001, 0.01, 0.1, 0.3, 0.49, 0.6, 0.9, 0.95, 0.975, 0.995, 0.999} {
		share := 4 * p * (1 - p)
		four := 2 * math.Sqrt(math.Cos(math.Acos(math.Sqrt(share))/3)/math.Sqrt(share)-1)
		if p < 0.5 {
			four = -four
		}
		for _, c := range []struct{ free, want float64 }{
			{1, math.Tan(math.Pi * (p - 0.5))}, {2, (2*p - 1) * math.Sqrt(2/share)}, {4, four},
		} {
			if got := StudentQuantile(c.free, p); math.Abs(got/c.want-1) > 1e-12 {
				t.Errorf("t %g, %g: %.17g, want %.17g", p, c.free, got, c.want)
			}
		}
	}
}

// TestBinomial adds the terms as fractions.
func TestBinomial(t *testing.T) {
	for _, n := range []int64{1, 7, 40, 300} {
		for _, p := range []float64{0.02, 0.25, 0.5, 0.9} {
			sum := number(0)
			for k := range n {
				ways := new(big.Float).SetPrec(bits).SetInt(new(big.Int).Binomial(n, k))
				term := ways
				for range k {
					term = mul(term, number(p))
				}
				for range n - k {
					term = mul(term, number(1-p))
				}
				sum = add(sum, term)
				if got := BinomialCDF(float64(k), float64(n), p); got > 1e-250 && off(got, sum) > 1e-11 {
					t.Errorf("at most %d of %d at %g: %g, off by %.2g", k, n, p, got, off(got, sum))
				}
			}
		}
	}
}

// TestChanceAgainstLibrary compares with another implementation, and the moments with one that adds in another order.
func TestChanceAgainstLibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	near := func(name string, got, want, within float64, args ...any) {
		t.Helper()
		if math.Abs(got-want) > within*math.Abs(want) {
			t.Errorf("%s%v = %.17g, the library has %.17g", name, args, got, want)
		}
	}
	for range 2000 {
		shape, p := math.Exp(float64(6*r.Float64())-1.5), r.Float64()
		near("GammaQuantile", GammaQuantile(shape, p), distuv.Gamma{Alpha: shape, Beta: 1}.Quantile(p), 1e-7, shape, p)
		free := 1 + float64(400*r.Float64())
		near("StudentQuantile", StudentQuantile(free, p), distuv.StudentsT{Mu: 0, Sigma: 1, Nu: free}.Quantile(p), 1e-7, free, p)
		n := float64(1 + r.IntN(20000))
		k := math.Floor(n * p)
		q := min(max(p+0.02*r.NormFloat64(), 0.001), 0.999)
		if want := (distuv.Binomial{N: n, P: q}).CDF(k); want > 1e-200 {
			near("BinomialCDF", BinomialCDF(k, n, q), want, 1e-8, k, n, q)
		}
		x, y := make([]float64, 2+r.IntN(60)), []float64(nil)
		for i := range x {
			x[i] = 1000 + Normal(r)
			y = append(y, x[i]+Normal(r))
		}
		near("Mean", Mean(x), stat.Mean(x, nil), 1e-14)
		near("Variance", Variance(x), stat.Variance(x, nil), 1e-12)
		if got, want := Correlation(x, y), stat.Correlation(x, y, nil); math.Abs(got-want) > 1e-12 {
			t.Errorf("Correlation = %.17g, the library has %.17g", got, want)
		}
		slices.Sort(x)
		if got, want := Quantile(p, x), stat.Quantile(p, stat.Empirical, x, nil); got != want {
			t.Errorf("Quantile(%g) of %d = %g, the library has %g", p, len(x), got, want)
		}
	}
}

// TestNormalIsTheStream checks that seeds keep their numbers: those of the standard library, except for the last digit of tails.
func TestNormalIsTheStream(t *testing.T) {
	a, b := rand.New(rand.NewPCG(1, 2)), rand.New(rand.NewPCG(1, 2))
	tails := 0
	for i := range 3000000 {
		got, want := Normal(a), b.NormFloat64()
		if math.Abs(got) > lastLayer {
			tails++
		}
		if got != want && !(math.Abs(got) > lastLayer && math.Abs(got-want) < 1e-15*math.Abs(want)) {
			t.Fatalf("number %d is %g, the library has %g", i, got, want)
		}
	}
	if tails < 500 {
		t.Errorf("only %d numbers in the tails", tails)
	}
}

func TestEndsOfChance(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"NormalCDF(-Inf)", NormalCDF(-inf), 0}, {"NormalCDF(+Inf)", NormalCDF(inf), 1}, {"NormalCDF(0)", NormalCDF(0), 0.5},
		{"NormalQuantile(0)", NormalQuantile(0), -inf}, {"NormalQuantile(1)", NormalQuantile(1), inf},
		{"NormalQuantile(½)", NormalQuantile(0.5), 0},
		{"GammaCDF(2, 0)", GammaCDF(2, 0), 0}, {"GammaCDF(2, Inf)", GammaCDF(2, inf), 1}, {"GammaCDF(2, 5000)", GammaCDF(2, 5000), 1},
		{"GammaTail(2, 0)", GammaTail(2, 0), 1}, {"GammaTail(2, Inf)", GammaTail(2, inf), 0}, {"GammaTail(3000, 1)", GammaTail(3000, 1), 1},
		{"GammaQuantile(2, 0)", GammaQuantile(2, 0), 0}, {"GammaQuantile(2, 1)", GammaQuantile(2, 1), inf},
		{"StudentQuantile(3, 0)", StudentQuantile(3, 0), -inf}, {"StudentQuantile(3, 1)", StudentQuantile(3, 1), inf},
		{"StudentQuantile(3, ½)", StudentQuantile(3, 0.5), 0},
		{"BinomialCDF(-1, 3, ½)", BinomialCDF(-1, 3, 0.5), 0}, {"BinomialCDF(3, 3, ½)", BinomialCDF(3, 3, 0.5), 1},
		{"BinomialCDF(1, 3, 0)", BinomialCDF(1, 3, 0), 1}, {"BinomialCDF(1, 3, 1)", BinomialCDF(1, 3, 1), 0},
	} {
		if c.got != c.want {
			t.Errorf("%s = %g, want %g", c.name, c.got, c.want)
		}
	}
	for _, v := range []float64{NormalCDF(math.NaN()), NormalQuantile(-1), NormalQuantile(math.NaN()), GammaQuantile(2, 2),
		StudentQuantile(0, 0.7)} {
		if v == v {
			t.Errorf("%g where NaN is due", v)
		}
	}
}
