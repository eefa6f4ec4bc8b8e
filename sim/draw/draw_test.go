package draw

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/samplemv"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

// TestRangeByHand: of a flat range 2 to 6, a share u lies below 2 + 4u. Of a triangle 0,
// 1, 4 the density rises to 1/2 at 1: below 1 lies 1/4, and above 4 − sqrt(12(1 − u))
// the share 1 − u. All expected numbers are worked out so.
func TestRangeByHand(t *testing.T) {
	flat, triangle := Between(2, 6), Around(0, 1, 4)
	for _, c := range []struct {
		r       Range
		u, want float64
	}{
		{flat, 0, 2}, {flat, 0.25, 3}, {flat, 1, 6},
		{triangle, 0, 0}, {triangle, 0.25, 1}, {triangle, 0.0625, 0.5}, // 4·0.0625 = 0.5²
		{triangle, 1, 4}, {triangle, 2.0 / 3, 2}, // 4 − sqrt(12/3)
		{Around(1, 1, 3), 0, 1}, {Around(1, 3, 3), 1, 3},
		{Range{Mode: 7}, 0.9, 7}, // not a range
	} {
		if got := c.r.At(c.u); !near(got, c.want, 1e-12) {
			t.Errorf("%+v at %v: %v, want %v", c.r, c.u, got, c.want)
		}
	}
	// 16/12; (0 + 1 + 16 − 0 − 0 − 4)/18.
	if !near(flat.variance(), 4.0/3, 1e-12) || !near(triangle.variance(), 13.0/18, 1e-12) {
		t.Errorf("variances %v and %v", flat.variance(), triangle.variance())
	}
	if !near(flat.Mean(), 4, 1e-12) || !near(triangle.Mean(), 5.0/3, 1e-12) {
		t.Errorf("means %v and %v", flat.Mean(), triangle.Mean())
	}
}

// TestWholeNumbersByHand: of 1 to 4 each is drawn with a chance of 1/4, so that below 0.5 lie
// 1 and 2, and the lower of the middle two is the value. Of 0, 1, 2 with 1 most likely, the
// triangle from -0.5 to 2.5 has below 0.5 the share (1 − 0)²/(3·1.5) = 2/9, and above 1.5
// as much.
func TestWholeNumbersByHand(t *testing.T) {
	flat, triangle := Counted(Between(1, 4)), Counted(Around(0, 1, 2))
	for _, c := range []struct {
		r       Range
		u, want float64
	}{
		{flat, 0, 1}, {flat, 0.249, 1}, {flat, 0.25, 2}, {flat, 0.499, 2}, {flat, 0.5, 3}, {flat, 0.75, 4}, {flat, 1, 4},
		{triangle, 0, 0}, {triangle, 2.0/9 - 1e-6, 0}, {triangle, 2.0/9 + 1e-6, 1}, {triangle, 7.0/9 - 1e-6, 1}, {triangle, 7.0/9 + 1e-6, 2},
		{triangle, 1, 2},
	} {
		if got := c.r.At(c.u); got != c.want {
			t.Errorf("%+v at %v: %v, want %v", c.r, c.u, got, c.want)
		}
	}
	if flat.Mode != 2 || Counted(Between(2, 6)).Mode != 4 {
		t.Errorf("values %v and %v", flat.Mode, Counted(Between(2, 6)).Mode)
	}
}

// TestLinearCaseAgainstItsClosedForm: of a result 3 + 2a − b + 0.5c with independent a
// flat on 0..1, b a triangle on 0, 1, 4 and c flat on 2..6, mean, variance and the share
// that each input explains are known in closed form. By hand: the mean is
// 3 + 2/2 − 5/3 + 0.5·4 = 13/3; the variances are 4/12, 13/18 and 0.25·4/3 = 1/3, in
// all 25/18; the shares are 6/25, 13/25 and 6/25.
func TestLinearCaseAgainstItsClosedForm(t *testing.T) {
	const n = 1000
	ranges := []Range{Between(0, 1), Around(0, 1, 4), Between(2, 6)}
	columns, result := make([][]float64, len(ranges)), make([]float64, n)
	for i, p := range Points(n, len(ranges), 1) {
		a, b, c := ranges[0].At(p[0]), ranges[1].At(p[1]), ranges[2].At(p[2])
		result[i] = 3 + 2*a - b + 0.5*c
		for k := range columns {
			columns[k] = append(columns[k], p[k])
		}
	}
	if m, v := Mean(result), Variance(result); !near(m, 13.0/3, 0.005) || !near(v, 25.0/18, 0.02) {
		t.Errorf("mean %v and variance %v, want %v and %v", m, v, 13.0/3, 25.0/18)
	}
	for k, want := range []float64{6.0 / 25, 13.0 / 25, 6.0 / 25} {
		if got := Explained(columns[k], result); !near(got, want, 0.02) {
			t.Errorf("input %d explains %v, want %v", k, got, want)
		}
	}
}

// TestSumOfTwoFlatRanges: the sum of two flat ranges 0..1 is a triangle 0, 1, 2, whose
// tenth is sqrt(0.2), whose middle is 1 and whose nine tenths are 2 − sqrt(0.2).
func TestSumOfTwoFlatRanges(t *testing.T) {
	var sums []float64
	for _, p := range Points(2000, 2, 3) {
		sums = append(sums, p[0]+p[1])
	}
	s := SpreadOf(sums)
	if !near(s.P10, math.Sqrt(0.2), 0.005) || !near(s.P50, 1, 0.005) || !near(s.P90, 2-math.Sqrt(0.2), 0.005) {
		t.Errorf("%+v", s)
	}
}

// TestExplainsAnyShape: an input whose effect is a full wave has no correlation with the
// result, and still explains it; one that only acts together with another explains
// nothing by itself, and neither does noise.
func TestExplainsAnyShape(t *testing.T) {
	const n = 2000
	var wave, left, noise, result, product []float64
	for _, p := range Points(n, 4, 5) {
		wave, left, noise = append(wave, p[0]), append(left, p[1]), append(noise, p[3])
		result = append(result, math.Sin(2*math.Pi*p[0]))
		product = append(product, (p[1]-0.5)*(p[2]-0.5))
	}
	if got := Explained(wave, result); got < 0.97 {
		t.Errorf("a wave explains %v of itself", got)
	}
	for _, got := range []float64{Explained(noise, result), Explained(left, product)} {
		if got > ChanceShare(n) {
			t.Errorf("nothing explains %v, above %v", got, ChanceShare(n))
		}
	}
	if Explained(wave[:40], result[:40]) != 0 || Explained(wave, make([]float64, n)) != 0 {
		t.Error("too few draws, or a result that does not vary, explain something")
	}
}

// TestChanceShareIsKept: of inputs that explain nothing, about one in twenty passes the
// mark for chance.
func TestChanceShareIsKept(t *testing.T) {
	r, n, tries := rand.New(rand.NewPCG(1, 1)), 500, 2000
	passed := 0
	input, result := make([]float64, n), make([]float64, n)
	for range tries {
		for i := range n {
			input[i], result[i] = r.Float64(), r.NormFloat64()
		}
		if Explained(input, result) > ChanceShare(n) {
			passed++
		}
	}
	if share := float64(passed) / float64(tries); share < 0.02 || share > 0.08 {
		t.Errorf("%v of them pass", share)
	}
}

// vanDerCorput are the first numbers of the sequence in base 2 and base 3. Source:
// published: Burkardt (2003), HALTON_DATASET, file halton_02_00010.txt, bases 2 and 3,
// printed to six decimals.
var vanDerCorput = map[int][]float64{
	2: {0, 0.5, 0.25, 0.75, 0.125, 0.625, 0.375, 0.875},
	3: {0, 0.333333, 0.666667, 0.111111, 0.444444, 0.777778, 0.222222, 0.555556, 0.888889},
}

// TestPointsAreTheHaltonSequence: the digits of the points are those of the published
// sequence, each place with its own exchange of digits: undoing the exchange gives the
// published numbers.
func TestPointsAreTheHaltonSequence(t *testing.T) {
	for _, seed := range []uint64{1, 2, 77} {
		points := Points(9, 2, seed)
		for k, base := range []int{2, 3} {
			want := vanDerCorput[base]
			places := int(math.Round(math.Log(float64(len(want))) / math.Log(float64(base))))
			digit := func(v float64, place int) int {
				return int(math.Floor(v*math.Pow(float64(base), float64(place))+1e-4)) % base
			}
			for place := 1; place <= places; place++ {
				exchange := map[int]int{}
				for i, w := range want {
					of, is := digit(points[i][k], place), digit(w, place)
					if was, known := exchange[of]; known && was != is {
						t.Errorf("seed %d, base %d: digit %d of point %d is %d, and not that of %v", seed, base, place, i, of, w)
					}
					exchange[of] = is
				}
				if len(exchange) != base {
					t.Errorf("seed %d, base %d, place %d: digits %v", seed, base, place, exchange)
				}
			}
		}
	}
}

// TestPointsAreEven: every input of a thousand points fills a hundred classes about
// evenly, however many inputs there are, and no two inputs go together.
func TestPointsAreEven(t *testing.T) {
	const n, inputs = 1000, 120
	points := Points(n, inputs, 1)
	column := func(k int) (out []float64) {
		for i := range points {
			out = append(out, points[i][k])
		}
		return out
	}
	worst := 0.0
	for k := range inputs {
		c := column(k)
		if m, v := Mean(c), Variance(c); !near(m, 0.5, 0.02) || !near(v, 1.0/12, 0.006) {
			t.Errorf("input %d: mean %v, variance %v", k, m, v)
		}
		for j := range k {
			o, sum := column(j), 0.0
			for i := range c {
				sum += (c[i] - 0.5) * (o[i] - 0.5)
			}
			worst = max(worst, math.Abs(sum/n*12))
		}
	}
	// Of 7,140 pairs of independent random columns, the largest would be about
	// 3.9/sqrt(1000) = 0.12.
	if worst > 0.15 {
		t.Errorf("two inputs have a correlation of %v", worst)
	}
	if p := Points(3, MostInputs, 1); len(p[0]) != MostInputs {
		t.Error("not as many inputs as promised")
	}
}

// TestFewerPointsAreTheFirst: with more points or more inputs, those there were stay.
func TestFewerPointsAreTheFirst(t *testing.T) {
	few, many := Points(10, 3, 9), Points(25, 5, 9)
	for i := range few {
		if !slices.Equal(few[i], many[i][:3]) {
			t.Fatalf("point %d: %v and %v", i, few[i], many[i])
		}
	}
	if slices.Equal(Points(1, 3, 9)[0], Points(1, 3, 10)[0]) {
		t.Error("another seed gives the same point")
	}
}

// TestQuantilesByHand: of 1, 2, 3, 4 the tenth lies at 1 + 0.1·3 = 1.3, the half at 2.5
// and nine tenths at 3.7.
func TestQuantilesByHand(t *testing.T) {
	s := SpreadOf([]float64{3, 1, 4, 2})
	if !near(s.P10, 1.3, 1e-12) || !near(s.P50, 2.5, 1e-12) || !near(s.P90, 3.7, 1e-12) || !near(s.Width(), 2.4, 1e-12) {
		t.Errorf("%+v", s)
	}
	if one := SpreadOf([]float64{5}); one.P10 != 5 || one.P90 != 5 {
		t.Errorf("%+v", one)
	}
	for _, none := range [][]float64{nil, {1, math.NaN()}} {
		if s := SpreadOf(none); !math.IsNaN(s.P50) {
			t.Errorf("%v: %+v", none, s)
		}
	}
	// Below in two of four draws, equal in one: 2.5 of 4.
	if got := Less([]float64{1, 2, 3, 4}, []float64{2, 3, 3, 0}); got != 0.625 {
		t.Errorf("less: %v", got)
	}
}

// TestIntervalsCover: of a true value drawn from the same ranges, the interval from P10
// to P90 contains eight in ten.
func TestIntervalsCover(t *testing.T) {
	ranges := []Range{Between(0.4, 0.7), Around(0.5, 0.8, 1), Around(20, 40, 90), Between(0.9, 1.1)}
	result := func(p []float64) float64 {
		a, b, c, d := ranges[0].At(p[0]), ranges[1].At(p[1]), ranges[2].At(p[2]), ranges[3].At(p[3])
		return math.Max(b*d*800-c, 0) / (0.4 + 0.6*a) // about the water of a season
	}
	const truths = 400
	r, inside := rand.New(rand.NewPCG(8, 8)), 0
	for k := range truths {
		var draws []float64
		for _, p := range Points(250, len(ranges), uint64(k)) {
			draws = append(draws, result(p))
		}
		s, truth := SpreadOf(draws), result([]float64{r.Float64(), r.Float64(), r.Float64(), r.Float64()})
		if s.P10 <= truth && truth <= s.P90 {
			inside++
		}
	}
	// Binomial: 0.8 ± 3·sqrt(0.8·0.2/400) = 0.8 ± 0.06.
	if share := float64(inside) / truths; !near(share, 0.8, 0.06) {
		t.Errorf("%v of them are inside", share)
	}
}

// TestBlockMeansCover: of series in which a dry year follows a dry year, the middle nine
// tenths of the means of blocks contain the true mean about nine times in ten, and those
// of single values drawn alone clearly less often.
func TestBlockMeansCover(t *testing.T) {
	const n, tries, carry = 60, 300, 0.5
	cover := func(means func(series []float64, seed uint64) []float64) float64 {
		r, inside := rand.New(rand.NewPCG(4, 4)), 0
		for k := range tries {
			series, last := make([]float64, n), r.NormFloat64()/math.Sqrt(1-carry*carry)
			for i := range series {
				last = carry*last + r.NormFloat64() // its mean is 0
				series[i] = last
			}
			sorted := slices.Sorted(slices.Values(means(series, uint64(k))))
			if Quantile(sorted, 0.05) <= 0 && 0 <= Quantile(sorted, 0.95) {
				inside++
			}
		}
		return float64(inside) / tries
	}
	blocks := cover(func(s []float64, seed uint64) []float64 { return BlockMeans(s, 300, seed) })
	single := cover(func(s []float64, seed uint64) []float64 {
		r, out := rand.New(rand.NewPCG(seed, 1)), make([]float64, 300)
		for t := range out {
			for range s {
				out[t] += s[r.IntN(n)] / n
			}
		}
		return out
	})
	// A block of 4 of 60 keeps most of the carry; the rest and the short series cost some
	// of the nine tenths.
	if blocks < 0.78 || blocks > 0.95 || single > blocks-0.05 {
		t.Errorf("blocks cover %v, single values %v", blocks, single)
	}
}

// TestBlockMeansByHand: the means of a constant series are that constant; a series of
// one value has blocks of one, and none has no means.
func TestBlockMeansByHand(t *testing.T) {
	for _, m := range BlockMeans([]float64{4, 4, 4, 4, 4}, 20, 1) {
		if m != 4 {
			t.Errorf("mean %v", m)
		}
	}
	if BlockMeans(nil, 5, 1) != nil || BlockMeans([]float64{2}, 1, 1)[0] != 2 {
		t.Error("a short series")
	}
	for n, want := range map[int]int{1: 1, 8: 2, 12: 2, 27: 3, 30: 3} { // cube roots 1, 2, 2.3, 3, 3.1
		if got := BlockLength(n); got != want {
			t.Errorf("length of blocks of %d values: %d", n, got)
		}
	}
}

// TestDecideAtItsBounds: exactly nine tenths are likely and one draw less is too close
// to call; exactly a tenth is unlikely and one draw more is too close.
func TestDecideAtItsBounds(t *testing.T) {
	for _, c := range []struct {
		holds, n int
		want     Decision
	}{
		{1000, 1000, Always}, {999, 1000, Likely}, {900, 1000, Likely}, {899, 1000, TooClose}, {500, 1000, TooClose},
		{101, 1000, TooClose}, {100, 1000, Unlikely}, {1, 1000, Unlikely}, {0, 1000, Never},
		{9, 10, Likely}, {1, 10, Unlikely}, {1, 1, Always}, {0, 1, Never}, {0, 0, TooClose}, {6, 7, TooClose},
	} {
		if got := Decide(c.holds, c.n); got != c.want {
			t.Errorf("%d of %d: %v, want %v", c.holds, c.n, got, c.want)
		}
	}
}

// TestPointsAreTheLibrarys compares with another implementation of the sequence: the last digits of sums aside, they are the same.
func TestPointsAreTheLibrarys(t *testing.T) {
	for _, c := range []struct{ n, inputs int }{{1, 1}, {7, 3}, {300, 40}, {20, MostInputs}} {
		got, want := Points(c.n, c.inputs, 9), mat.NewDense(c.n, c.inputs, nil)
		source := rand.NewPCG(9, stream)
		samplemv.Halton{Kind: samplemv.Owen, Q: distmv.NewUnitUniform(c.inputs, source), Src: source}.Sample(want)
		for i, row := range got {
			for j, v := range row {
				if math.Abs(v-want.At(i, j)) > 1e-15 {
					t.Fatalf("point %d, input %d of %v: %g, the library has %g", i, j, c, v, want.At(i, j))
				}
			}
		}
	}
}
