package meter_test

import (
	"math"
	"testing"

	"loamledger/sim/meter"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

// Hand: m − s is 1, 2, −3 and 4, its sum 4 and the sum of its squares 30; the mean of
// m is 25. Without a fitted number NMBE = 100·4/(4·25) = 4 and CV = 100·√(30/4)/25 =
// 10.954; with one, 100·4/(3·25) = 5.333 and 100·√(30/3)/25 = 12.649.
func TestScore(t *testing.T) {
	m, s := []float64{10, 20, 30, 40}, []float64{9, 18, 33, 36}
	got, ok := meter.ScoreOf(m, s, 0)
	if !ok || got.N != 4 || !got.Few() {
		t.Error(got, ok)
	}
	near(t, "mean", got.MeanM3, 25, 0)
	near(t, "NMBE", got.NMBE, 4, 1e-12)
	near(t, "CV", got.CV, 10.954451, 1e-6)
	got, _ = meter.ScoreOf(m, s, 1)
	near(t, "NMBE, p 1", got.NMBE, 5.333333, 1e-6)
	near(t, "CV, p 1", got.CV, 12.649111, 1e-6)
	for _, none := range []struct {
		m []float64
		p int
	}{{nil, 0}, {m, 4}, {[]float64{0, 0, 0, 0}, 0}} {
		if _, ok := meter.ScoreOf(none.m, s[:len(none.m)], none.p); ok {
			t.Errorf("a score of %v with %d fitted", none.m, none.p)
		}
	}
}

// Published: the limits of 15% and 5% are those of ASHRAE Guideline 14 as restated;
// 30% is ours.
func TestLabels(t *testing.T) {
	for _, tt := range []struct {
		cv, nmbe float64
		want     meter.Label
	}{
		{15, -5, meter.Calibrated}, {15.1, 0, meter.Indicative}, {14, 5.1, meter.Indicative}, {14, -5.1, meter.Indicative},
		{30, 12, meter.Indicative}, {30.1, 0, meter.NotCalibrated},
	} {
		if got := meter.LabelOf(&meter.Score{CV: tt.cv, NMBE: tt.nmbe}); got.Label != tt.want || got.Ours != (tt.want == meter.Indicative) {
			t.Errorf("CV %g, NMBE %g: %q, ours: %t", tt.cv, tt.nmbe, got.Label, got.Ours)
		}
	}
	if l := meter.RegressionLimit(11); l.CV != 20 {
		t.Error(l)
	}
	if a, b := meter.RegressionLimit(12), meter.RegressionLimit(61); a.CV != 25 || b.CV != 30 {
		t.Error(a, b)
	}
}
