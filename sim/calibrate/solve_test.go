package calibrate

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

var wide = box{constant: true, low: [2]float64{-1e9, -1e9}, high: [2]float64{1e9, 1e9}, ratioLow: -1e9, ratioHigh: 1e9}

// Hand: y = 2·days + 3·use exactly.
func TestExactFit(t *testing.T) {
	days, use := []float64{30, 31, 30, 31}, []float64{0, 10, 20, 5}
	y := []float64{60, 92, 120, 77}
	q := normalOf(y, [][]float64{days, use})
	f := q.within(&wide, face{})
	if !f.ok || math.Abs(f.coef[0]-2) > 1e-12 || math.Abs(f.coef[1]-3) > 1e-12 || f.sse > 1e-9 {
		t.Errorf("%+v", f)
	}
}

// Hand: with the constant at most 1, the rest y − days is fitted by use alone:
// Σ use·rest / Σ use² = (10·61 + 20·90 + 5·46)/(100 + 400 + 25) = 2640/525 = 5.02857.
func TestFitAtABound(t *testing.T) {
	days, use := []float64{30, 31, 30, 31}, []float64{0, 10, 20, 5}
	y := []float64{60, 92, 120, 77}
	b := wide
	b.high[0] = 1
	q := normalOf(y, [][]float64{days, use})
	f := q.within(&b, face{})
	if !f.ok || f.coef[0] != 1 || math.Abs(f.coef[1]-2640.0/525) > 1e-12 {
		t.Errorf("%+v", f)
	}
}

// Hand: 1·use before the change and 5·use after it, but the ratio is at most 3. With
// use 1 on each side, c and 3c fit 1 and 5 best at c = (1 + 15)/(1 + 9) = 1.6.
func TestRatioAtABound(t *testing.T) {
	b := wide
	b.constant, b.ratioHigh = false, 3
	q := normalOf([]float64{1, 5}, [][]float64{{1, 0}, {0, 1}})
	f := q.within(&b, face{})
	if !f.ok || math.Abs(f.coef[0]-1.6) > 1e-12 || math.Abs(f.coef[1]-4.8) > 1e-12 {
		t.Errorf("%+v", f)
	}
}

// A column twice has no solution.
func TestSameColumnTwice(t *testing.T) {
	c := []float64{1, 2, 3}
	q := normalOf([]float64{1, 2, 3}, [][]float64{c, c})
	if f := q.within(&wide, face{}); f.ok {
		t.Errorf("%+v", f)
	}
}

// On drawn problems the free fit is gonum's, and no point of a fine grid of the box is
// better than the bounded one.
func TestFitsOnDrawnProblems(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		const n = 12
		days, before, after, y := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		all := mat.NewDense(n, 3, nil)
		for i := range n {
			days[i] = 28 + 4*rng.Float64()
			u := 60 * rng.Float64()
			if i < n/2 {
				before[i] = u
			} else {
				after[i] = u
			}
			y[i] = 0.5*days[i] + 1.2*before[i] + 1.6*after[i] + 10*rng.NormFloat64()
			all.SetRow(i, []float64{days[i], before[i], after[i]})
		}
		columns := [][]float64{days, before, after}
		q := normalOf(y, columns)
		free := q.within(&wide, face{})
		var want mat.VecDense
		if err := want.SolveVec(all, mat.NewVecDense(n, y)); err != nil {
			t.Fatal(err)
		}
		for j := range 3 {
			if math.Abs(free.coef[j]-want.AtVec(j)) > 1e-8 {
				t.Fatalf("%v, gonum %v", free.coef, want.RawVector().Data)
			}
		}
		b := box{constant: true, low: [2]float64{0, 0.9}, high: [2]float64{0.5, 1.1}, ratioLow: 0.8, ratioHigh: 1.3}
		f := q.within(&b, face{})
		if !f.ok {
			t.Fatal("no fit in the box")
		}
		const steps = 20
		for i := range steps + 1 {
			for j := range steps + 1 {
				for k := range steps + 1 {
					at := func(low, high float64, i int) float64 { return low + (high-low)*float64(i)/steps }
					scale := at(0.9, 1.1, j)
					coef := []float64{at(0, 0.5, i), scale, scale * at(0.8, 1.3, k)}
					if sse := residual(y, columns, coef); sse < f.sse-1e-6 {
						t.Fatalf("%v leaves %g, less than %v with %g", coef, sse, f.coef, f.sse)
					}
				}
			}
		}
	}
}

// The moments give the same sum of squares as the columns.
func TestMomentsAgreeWithColumns(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	const n = 24
	use := make([]float64, n)
	w := &work{}
	y := make([]float64, n)
	for k := range n {
		use[k] = 50 * rng.Float64()
		w.fitted, w.days, w.weight = append(w.fitted, k), append(w.days, 30+rng.Float64()), append(w.weight, 0.5+rng.Float64())
		y[k] = use[k] + 10*rng.NormFloat64()
	}
	w.cache = map[Altered][]float64{{K: 1}: use}
	w.sums.prepare(use, w, y)
	for _, s := range []shape{{constant: true, k: 1}, {k: 1, n: 1, changes: [2]int{7}}, {constant: true, k: 1, n: 2, changes: [2]int{5, 15}}} {
		columns, err := w.columns(s)
		if err != nil {
			t.Fatal(err)
		}
		a, b := w.sums.normal(&s), normalOf(y, columns)
		fa, fb := a.within(&wide, face{}), b.within(&wide, face{})
		for j := range columns {
			if math.Abs(fa.coef[j]-fb.coef[j]) > 1e-9 {
				t.Errorf("%+v: %v by moments, %v by columns", s, fa.coef, fb.coef)
			}
		}
	}
}

// Hand: the levels of EBIC: C(12, 2) = 66, C(5, 0) = 1.
func TestLogChoose(t *testing.T) {
	if got := logChoose(12, 2); math.Abs(got-math.Log(66)) > 1e-12 {
		t.Error(got)
	}
	if got := logChoose(5, 0); got != 0 {
		t.Error(got)
	}
}
