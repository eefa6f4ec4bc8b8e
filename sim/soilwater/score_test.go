package soilwater_test

import (
	"math"
	"testing"

	"loamledger/sim/soilwater"
	"loamledger/weather/cal"
)

var nan = math.NaN()

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s: %g, by hand %g", what, got, want)
	}
}

// TestSensorsAreAveraged: two sensors read 0.20, 0.22 and 0.30, 0.32, so the
// spread is 0.10 and their distances from the mean are −0.05 and +0.05. On the
// third day only the second reads, 0.29: 0.29 − 0.05 = 0.24.
func TestSensorsAreAveraged(t *testing.T) {
	r := soilwater.NewRecord(0, []soilwater.Sensor{
		{Name: "deep", DepthM: 0.5, Theta: []float64{0.4, 0.4, 0.4, nan}},
		{Name: "a", DepthM: 0.1, Theta: []float64{0.20, 0.22, nan, nan}},
		{Name: "b", DepthM: 0.1, Theta: []float64{0.30, 0.32, 0.29, nan}},
	}, nil)
	if len(r.Levels) != 2 || r.Days != 4 {
		t.Fatalf("%d levels, %d days", len(r.Levels), r.Days)
	}
	l := r.Levels[0]
	near(t, "depth", l.DepthM, 0.1)
	near(t, "spread", l.SpreadMean, 0.10)
	for i, want := range []float64{0.25, 0.27, 0.24} {
		near(t, "mean", l.Theta[i], want)
	}
	if !math.IsNaN(l.Theta[3]) || l.PartDays != 1 || l.Sensors != 2 || !math.IsNaN(r.Levels[1].SpreadMean) {
		t.Errorf("%+v", l)
	}
}

// TestThicknesses: sensors at 5, 10, 20, 50 and 100 cm in half a meter represent
// 75, 75, 200 and 150 mm, as published with the stations. In 0.8 m the one at 50 cm
// has 350 to 750 mm and the one at 100 cm the last 50 mm. Down to 20 cm they
// represent the soil to 25 cm.
func TestThicknesses(t *testing.T) {
	var sensors []soilwater.Sensor
	for _, d := range []float64{0.05, 0.10, 0.20, 0.50, 1.00} {
		sensors = append(sensors, soilwater.Sensor{DepthM: d, Theta: []float64{0.3}})
	}
	for _, tt := range []struct {
		root float64
		of   int
		want []float64
	}{
		{0.5, 5, []float64{75, 75, 200, 150, 0}},
		{0.8, 5, []float64{75, 75, 200, 400, 50}},
		{0.5, 3, []float64{75, 75, 100}},
		{0.06, 5, []float64{60, 0, 0, 0, 0}},
	} {
		mm, _ := soilwater.NewRecord(0, sensors[:tt.of], nil).Thicknesses(tt.root)
		for i := range tt.want {
			near(t, "thickness", mm[i], tt.want[i])
		}
	}
	if _, reach := soilwater.NewRecord(0, sensors[:3], nil).Thicknesses(0.5); math.Abs(reach-0.25) > 1e-9 {
		t.Errorf("reach %g, by hand 0.25", reach)
	}
}

// TestDepletion: field capacity 0.30 over 100 mm; θ 0.25 is 5 mm short, 0.32 is
// 2 mm above, which counts as 0. A frozen day and a gap have none.
func TestDepletion(t *testing.T) {
	r := soilwater.NewRecord(0, []soilwater.Sensor{{DepthM: 0.05, Theta: []float64{0.25, 0.32, 0.10, nan}},
		{DepthM: 0.15, Theta: []float64{0.20, 0.20, 0.20, 0.20}}}, []float64{5, nan, 0.5, nan})
	frozen := soilwater.Frozen(r.SoilTempC)
	b := soilwater.SameBounds(2, 0.30, 0.10)
	thickness, _ := r.Thicknesses(0.10)
	p := soilwater.Deplete(r, &b, thickness, frozen)
	near(t, "depletion", p.DepletionMM[0], 5)
	near(t, "signed", p.SignedMM[1], -2)
	near(t, "above field capacity", p.DepletionMM[1], 0)
	near(t, "below the root zone", p.BelowMM[0], 0.1*1000*0.10/2) // 0.30 − 0.20 over half of 0.15 − 0.05 m
	near(t, "range", b.RangeMM(thickness), 20)
	if !math.IsNaN(p.DepletionMM[2]) || !math.IsNaN(p.DepletionMM[3]) || p.Measured != 2 || p.FrozenDays != 1 || p.GapDays != 1 {
		t.Errorf("%+v", p)
	}
	if f := soilwater.FrozenByAir([]float64{8, -8, -8}); f[0] || !f[1] || !f[2] {
		t.Errorf("frozen by air: %v; means are 8, 0 and −2.7", f)
	}
}

// TestBoundsAreQuantiles: of 0.01 to 1.01 in steps of 0.01 the 0.90 quantile is
// 0.91, and the 0.005 quantile half a step above 0.01.
func TestBoundsAreQuantiles(t *testing.T) {
	theta := make([]float64, 103)
	frozen := make([]bool, 103)
	for i := range 101 {
		theta[i] = float64(i+1) / 100
	}
	theta[101], theta[102], frozen[101] = 99, nan, true
	b := soilwater.BoundsFromRecord(soilwater.NewRecord(0, []soilwater.Sensor{{DepthM: 0.1, Theta: theta}}, nil), frozen)
	near(t, "field capacity", b.FieldCapacity[0], 0.91)
	near(t, "wilting point", b.WiltingPoint[0], 0.015)
}

// TestScore: simulated is measured twice over plus 1, so r is 1. Of measured 0 to
// 9 the mean is 4.5, simulated 10: bias 5.5. The mean of (m + 1)² for 0 to 9 is
// 385/10, so RMSE is √38.5.
func TestScore(t *testing.T) {
	s := soilwater.Series{Start: cal.Of(2021, 7, 1)}
	for i := range 12 {
		m := float64(i)
		s.SimMM, s.MeasuredMM = append(s.SimMM, 2*m+1), append(s.MeasuredMM, m)
	}
	s.MeasuredMM[10], s.MeasuredMM[11] = nan, nan
	scores := s.Scores(nil)
	for _, season := range []soilwater.Season{soilwater.WholeYear, soilwater.Summer} {
		sc := scores[season]
		near(t, "r", sc.R, 1)
		near(t, "bias", sc.BiasMM, 5.5)
		near(t, "RMSE", sc.RMSEMM, math.Sqrt(38.5))
	}
	if sc := scores[soilwater.Winter]; sc.Days != 0 || !math.IsNaN(sc.RMSEMM) {
		t.Errorf("winter: %+v", sc)
	}
	s.South = true
	if s.Scores(nil)[soilwater.Winter].Days != 10 {
		t.Error("July is not winter in the south")
	}
}

// TestWarmSeasons: past RAW of 10 mm on days 1 to 4 simulated and 3 to 5 measured;
// day 2 is not measured, so the three simulated days in a row are 1, 3 and 4.
func TestWarmSeasons(t *testing.T) {
	s := soilwater.Series{Start: cal.Of(2021, 5, 1), SimMM: []float64{0, 11, 11, 11, 11, 0}, MeasuredMM: []float64{0, 0, nan, 11, 12, 11},
		RAWMM: []float64{10, 10, 10, 10, 10, 10}}
	w := s.Warms()
	if len(w) != 1 || w[0].SimPast != 3 || w[0].MeasuredPast != 3 || w[0].Days != 5 || w[0].Complete() {
		t.Fatalf("%+v", w)
	}
	if !w[0].SimOnsetOK || w[0].SimOnset != s.Date(1) || !w[0].MeasuredOnsetOK || w[0].MeasuredOnset != s.Date(3) {
		t.Errorf("onsets %v and %v", w[0].SimOnset, w[0].MeasuredOnset)
	}
	s.Start, s.South = cal.Of(2022, 1, 30), true
	if w := s.Warms(); len(w) != 1 || w[0].Year != 2021 {
		t.Errorf("in the south: %+v", w)
	}
	s.South = false
	if w := s.Warms(); len(w) != 0 {
		t.Errorf("January is warm: %+v", w)
	}
}

// TestUses: 5 mm of ETc a day and 4 mm of measured use are a share of 0.8. Rain on
// day 0: days 1 and 2 stay dry, so the first spell is days 3 to 5, with depletions
// 12, 16 and 20 of 100 mm: 0.16 on average. The next is days 6 to 8.
func TestUses(t *testing.T) {
	s := soilwater.Series{Start: cal.Of(2021, 6, 1)}
	for i := range 10 {
		s.SignedMM = append(s.SignedMM, 4*float64(i))
		s.SimMM, s.ETcMM, s.EToMM = append(s.SimMM, 0), append(s.ETcMM, 5), append(s.EToMM, 5)
		s.RainMM, s.GrossMM = append(s.RainMM, 0), append(s.GrossMM, 0)
	}
	s.RainMM[0], s.RainMM[4] = 9, 0.9 // the second evaporates
	uses := s.Uses(100)
	if len(uses) != 2 || uses[0].Date != 3 || uses[1].Date != 6 {
		t.Fatalf("%+v", uses)
	}
	near(t, "share", uses[0].Share, 0.8)
	near(t, "relative depletion", uses[0].Relative, 0.16)
	if b := soilwater.UseBins(uses); len(b) != 0 {
		t.Errorf("two spells have figures: %+v", b)
	}
	five := []soilwater.Use{{0, 0.31, 1}, {0, 0.32, 2}, {0, 0.33, 3}, {0, 0.34, 4}, {0, 0.39, 5}}
	if b := soilwater.UseBins(five); len(b) != 1 || b[0].Median != 3 || b[0].Q25 != 2 || b[0].Q75 != 4 || b[0].Windows != 5 {
		t.Errorf("%+v", b)
	}
}
