package sample

import (
	"math"
	"math/rand/v2"
	"testing"
)

// By hand, n = (z × CV ÷ e)² rounded up, with z 1.645 for 90% and 1.282 for 80%; for CV 0.5:
// 8.225² = 67.65, 4.1125² = 16.91, 3.205² = 10.27. The row of CV 0.5 is printed as 68, 17 and 11 in
// guidelines for measurement and verification of federal energy projects (from memory).
func TestNeededIsThePrintedTable(t *testing.T) {
	for _, tt := range []struct {
		cv                     float64
		of9010, of9020, of8020 int
	}{{0.5, 68, 17, 11}, {1, 271, 68, 42}, {2, 1083, 271, 165}, {3, 2436, 609, 370}} {
		for _, c := range []struct {
			confidence, precision float64
			want                  int
		}{{0.9, 0.1, tt.of9010}, {0.9, 0.2, tt.of9020}, {0.8, 0.2, tt.of8020}} {
			if n, err := Needed(tt.cv, c.precision, c.confidence, 0); err != nil || n.Samples != c.want {
				t.Errorf("CV %g, %g/%g: %+v, %v; printed %d", tt.cv, c.confidence, c.precision, n, err, c.want)
			}
		}
	}
}

// For CV 2, 90% and 10%, of 3,000 accounts, 795 is also printed. By hand: (1.645 × 2 ÷ 0.1)² =
// 32.9² = 1082.41; 1082.41 ÷ (1 + 1082.41 ÷ 3000) = 1082.41 ÷ 1.3608033 = 795.42, which rounds to
// the printed 795. A sample of 795 is a little short of the precision, so the answer is 796.
func TestNeededOfAPopulation(t *testing.T) {
	n, err := Needed(2, 0.1, 0.9, 3000)
	if err != nil || math.Round(n.Exact) != 795 || math.Abs(n.Exact-795.42) > 0.005 || n.Samples != 796 {
		t.Errorf("%+v, %v", n, err)
	}
	// More than there are is never needed: 1082.41 ÷ (1 + 1082.41 ÷ 3) = 2.99.
	if n, _ := Needed(2, 0.1, 0.9, 3); n.Samples != 3 {
		t.Errorf("of 3 accounts %+v", n)
	}
	for _, bad := range [][3]float64{{0, 0.1, 0.9}, {1, 0, 0.9}, {1, 0.1, 1}, {math.NaN(), 0.1, 0.9}, {1, 1e-9, 0.9}} {
		if _, err := Needed(bad[0], bad[1], bad[2], 0); err == nil {
			t.Errorf("%v is accepted", bad)
		}
	}
}

// Published: quantiles of Student's t for 90%, to three decimals, in every statistics table:
// 2.353 for 3 degrees of freedom, 1.833 for 9, 1.796 for 11, 1.699 for 29.
func TestAroundUsesStudent(t *testing.T) {
	for df, want := range map[int]float64{3: 2.353, 9: 1.833, 11: 1.796, 29: 1.699} {
		i, err := Around(10, 4, df+1, 0.9, 0)
		if err != nil || math.Abs(i.T-want) > 0.0005 {
			t.Errorf("%d degrees of freedom: %+v, %v", df, i, err)
		}
	}
	// By hand: 16 accounts, mean 20, sd 8: error 8 ÷ 4 = 2; t of 15 is 1.7531; 20 ± 3.506.
	i, err := Around(20, 8, 16, 0.9, 0)
	if err != nil || i.Error != 2 || math.Abs(i.Low-16.494) > 0.001 || math.Abs(i.High-23.506) > 0.001 ||
		math.Abs(i.Precision-0.1753) > 1e-4 {
		t.Errorf("%+v, %v", i, err)
	}
	// By hand: of 26 accounts, × √(10 ÷ 25) = 0.632456.
	if i, err := Around(20, 8, 16, 0.9, 26); err != nil || math.Abs(i.Error-1.264911) > 1e-6 {
		t.Errorf("of 26: %+v, %v", i, err)
	}
	if i, err := Around(20, 8, 16, 0.9, 16); err != nil || i.Low != 20 || i.High != 20 {
		t.Errorf("all accounts: %+v, %v", i, err)
	}
	if _, err := Around(20, 8, 16, 0.9, 15); err == nil {
		t.Error("a sample larger than its population is accepted")
	}
}

// The interval has the true mean as often as it says: 20,000 samples of 12 normal numbers, whose
// share has a standard error of √(0.9 × 0.1 ÷ 20,000) = 0.0021.
func TestAroundCovers(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	const samples, n = 20000, 12
	hits := 0
	for range samples {
		sum, squares := 0.0, 0.0
		for range n {
			v := 50 + float64(30*r.NormFloat64())
			sum, squares = sum+v, squares+float64(v*v)
		}
		mean := sum / n
		i, err := Around(mean, math.Sqrt((squares-float64(n*mean*mean))/(n-1)), n, 0.9, 0)
		if err != nil {
			t.Fatal(err)
		}
		if i.Low <= 50 && 50 <= i.High {
			hits++
		}
	}
	if share := float64(hits) / samples; math.Abs(share-0.9) > 4*0.0021 {
		t.Errorf("%g of the intervals have the mean", share)
	}
}
