package generate

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestCarryGivesThePublishedMatrices checks A and B against those printed by
// Richardson and Wright (1984), from memory. m0 and m1 are printed to 0.001,
// and the entries of the inverse of m0 reach 2: three half units times some 2
// are 0.003.
func TestCarryGivesThePublishedMatrices(t *testing.T) {
	wantA := matrix{{0.567, 0.086, -0.002}, {0.253, 0.504, -0.050}, {-0.006, -0.039, 0.244}}
	wantB := matrix{{0.781, 0, 0}, {0.328, 0.637, 0}, {0.238, -0.341, 0.873}}
	a, b, err := carry(publishedM0(), publishedM1())
	if err != nil {
		t.Fatal(err)
	}
	const tol = 0.003
	for i := range 3 {
		for j := range 3 {
			if math.Abs(a[i][j]-wantA[i][j]) > tol || math.Abs(b[i][j]-wantB[i][j]) > tol {
				t.Errorf("row %d column %d: A %.4f and B %.4f; printed are %.3f and %.3f", i, j, a[i][j], b[i][j], wantA[i][j], wantB[i][j])
			}
		}
	}
}

func TestCarryRefusesWhatIsNoCorrelation(t *testing.T) {
	if _, _, err := carry(matrix{{1, 1, 0}, {1, 1, 0}, {0, 0, 1}}, matrix{}); err == nil {
		t.Error("two columns that are one gave no error")
	}
	if _, _, err := carry(matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, matrix{{1.2}}); err == nil {
		t.Error("a carry-over above 1 gave no error")
	}
}

func TestCurveKeepsMonthlyMeans(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 50 {
		var month [12]float64
		for m := range month {
			month[m] = 60*r.Float64() - 20
		}
		days := curve(month)
		for m := range month {
			sum := 0.0
			for i := monthStart[m]; i < monthStart[m+1]; i++ {
				sum += days[i]
			}
			if got := sum / float64(monthStart[m+1]-monthStart[m]); math.Abs(got-month[m]) > 1e-6 {
				t.Fatalf("month %d: the mean of the line is %g, given was %g", m+1, got, month[m])
			}
		}
	}
}

// TestGammaMoments checks mean and variance, which are both the shape for
// scale 1, and the share below the scale, which for shape 1 is 1 - 1/e.
func TestGammaMoments(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	const n = 200_000
	for _, shape := range []float64{0.3, 0.8, 1, 2.5, 9} {
		var m sums
		below := 0.0
		for range n {
			v := gamma(r, shape)
			if !(v >= 0) {
				t.Fatalf("shape %g drew %g", shape, v)
			}
			m.add(v)
			if v < 1 {
				below++
			}
		}
		if off := math.Abs(m.mean() - shape); off > 4*math.Sqrt(shape/n) {
			t.Errorf("shape %g: mean %g", shape, m.mean())
		}
		// The variance of a sample variance is (μ4 - σ⁴)/n; for gamma μ4 = 3k² + 6k.
		if off := math.Abs(m.variance() - shape); off > 4*math.Sqrt((2*shape*shape+6*shape)/n) {
			t.Errorf("shape %g: variance %g", shape, m.variance())
		}
		if want := 1 - math.Exp(-1); shape == 1 && math.Abs(below/n-want) > 4*math.Sqrt(want*(1-want)/n) {
			t.Errorf("shape 1: share below 1 is %g, want %g", below/n, want)
		}
	}
}

func TestCappedMeanAgainstDraws(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	const n = 200_000
	for _, c := range []struct{ mu, s, most float64 }{{0, 1, 2}, {1, 0.5, 28}, {2.5, 0.8, 15}} {
		var m sums
		for range n {
			m.add(min(math.Exp(c.mu+c.s*r.NormFloat64()), c.most))
		}
		if got := cappedMean(c.mu, c.s, c.most); math.Abs(got-m.mean()) > 4*m.sd()/math.Sqrt(n) {
			t.Errorf("%+v: worked out %.4f, drawn %.4f", c, got, m.mean())
		}
	}
}

func TestLognormalKeepsTheMean(t *testing.T) {
	for _, c := range []struct{ mean, dev, most float64 }{{4, 5, 27}, {0.9, 5, 27}, {7, 3, 10.4}, {9.8, 2, 10.4}, {5, 0, 10}} {
		mu, s := lognormal(c.mean, c.dev, c.most)
		got := math.Exp(mu)
		if s > 0 {
			got = cappedMean(mu, s, c.most)
		}
		if math.Abs(got-c.mean) > 0.001*c.mean {
			t.Errorf("%+v: the mean is %.4f after holding", c, got)
		}
	}
}
