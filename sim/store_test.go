package sim_test

import (
	"math"
	"testing"

	"loamledger/sim"
)

// TestRunoffEventBoundary: 0.25 mm is a runoff event and a rain runoff day;
// slightly less is not. At 15 mm/h above intake, 0.25 mm runs off per minute.
func TestRunoffEventBoundary(t *testing.T) {
	z := sim.Zone{PRMMH: 60, IntakeMMH: 45, Strips: 1, DULQ: 1, TAWMM: 50, P: 0.5, Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 0.5}}
	w := sim.Weather{RainMM: []float64{0.5, 0.499}, EToMM: []float64{0, 0}}
	c := sim.NewCalendar(0, 2)
	var g sim.Growth
	days := g.Forcing(nil, &z, w, c, nil, 0)
	if s := sim.WeatherSums(&z, w, days, c.Spans[0]); s.RainRunoffDays != 1 || math.Abs(s.RainRunoffMM-0.4995) > 1e-12 {
		t.Errorf("%d rain runoff days of %g mm, by hand 1 of 0.4995", s.RainRunoffDays, s.RainRunoffMM)
	}
	var p sim.Plan
	p.Reset(0, 2, 1)
	p.Dose[0] = p.AddDose(&z, []float64{1}, []sim.Run{{Minutes: 1}})
	p.Dose[1] = p.AddDose(&z, []float64{1}, []sim.Run{{Minutes: 0.999}})
	var b sim.Balance
	var sums sim.Sums
	b.Reset(&z, 10)
	b.Replay(days, &g, &p, 0, &sums, nil, 0)
	if sums.RunoffEvents != 1 || sums.WateringDays != 2 {
		t.Errorf("%d runoff events on %d watering days, by hand 1 on 2", sums.RunoffEvents, sums.WateringDays)
	}
}

// TestLossesByHand: 10 mm gross in two cycles, with 5% lost in the air, 10% outside
// the zone, 15% at broken heads and 0.5 mm per cycle in the pipes, leaves 6 mm.
func TestLossesByHand(t *testing.T) {
	z := &sim.Zone{PRMMH: 30, IntakeMMH: 500, Strips: 4, DULQ: 0.55, LossShare: 0.05, OversprayShare: 0.1, BrokenShare: 0.15, FillDrainMM: 0.5}
	in := make([]float64, 4)
	d := z.Dose([]sim.Run{{Minutes: 20, CycleMin: 10, SoakMin: 5}}, sim.Shares(4, 0.55), in)
	want := sim.Dose{Minutes: 20, Cycles: 2, GrossMM: 10, SprayLossMM: 0.5, OversprayMM: 1, BrokenMM: 1.5, FillDrainMM: 1}
	for _, v := range [][2]float64{{d.GrossMM, want.GrossMM}, {d.SprayLossMM, want.SprayLossMM}, {d.OversprayMM, want.OversprayMM},
		{d.BrokenMM, want.BrokenMM}, {d.FillDrainMM, want.FillDrainMM}, {d.RunoffMM, 0}} {
		if math.Abs(v[0]-v[1]) > 1e-12 {
			t.Errorf("dose %+v, by hand %+v", d, want)
		}
	}
	for i, share := range []float64{0.55, 0.85, 1.15, 1.45} {
		if math.Abs(in[i]-6*share) > 1e-12 {
			t.Errorf("strip %d takes %g mm, by hand %g", i, in[i], 6*share)
		}
	}
	// A run too short to fill the pipes wets nothing.
	if d := z.Dose([]sim.Run{{Minutes: 0.5}}, sim.Shares(4, 0.55), in); math.Abs(in[3]) > 1e-12 || math.Abs(d.FillDrainMM-0.7*0.25) > 1e-12 {
		t.Errorf("half a minute: %+v, %g mm enter", d, in[3])
	}
}

// TestLongestCycleKnowsEveryLoss: water outside the zone or at a broken head does
// not fill the surface. With half of PR lost and an intake of 10 mm/h, filling the
// surface of 5 mm takes 60·5/(20 − 10) min.
func TestLongestCycleKnowsEveryLoss(t *testing.T) {
	z := &sim.Zone{PRMMH: 40, IntakeMMH: 10, SurfaceStorageMM: 5, LossShare: 0.1, OversprayShare: 0.15, BrokenShare: 0.25, Strips: 1, DULQ: 1}
	cycle, soak := z.LongestCycle()
	if math.Abs(cycle-30) > 1e-9 || math.Abs(soak-30) > 1e-9 {
		t.Errorf("cycle %g, soak %g min, by hand 30 and 30", cycle, soak)
	}
	in := make([]float64, 1)
	if d := z.Dose([]sim.Run{{Minutes: 30}}, []float64{1}, in); d.RunoffMM > 1e-9 {
		t.Errorf("the longest cycle loses %g mm to runoff", d.RunoffMM)
	}
}

// TestWorkingStorageByHand: a store of 20 mm, with 5 mm drawn a day, starts at a
// deficit of 12 mm. Water and draw are netted before limits apply.
//
//	day 0: 12 + 5 − 4 = 13;                     day 1: 13 + 5 = 18
//	day 2: 18 + 5 = 23: 3 mm short, at 20;      day 3: 20 + 5 − 30 = −5: 5 mm of the 30 percolate
//	day 4: 0 + 5 − 4 − 10 (rain) = −9: 4 mm of irrigation and 5 mm of rain percolate
func TestWorkingStorageByHand(t *testing.T) {
	z := sim.Zone{TAWMM: 20, P: 0.5, PRMMH: 60, IntakeMMH: 1e6, Strips: 1, DULQ: 1, WorkingStorage: true,
		Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 0.8, KeepLight: true}}
	for m := range z.K {
		z.K[m] = 1
	}
	w := sim.Weather{RainMM: []float64{0, 0, 0, 0, 12.5}, EToMM: []float64{5, 5, 5, 5, 5}}
	z.ToleranceR7, z.BrowningR7 = 0.9, 0.75
	var g sim.Growth
	days := g.Forcing(nil, &z, w, sim.NewCalendar(0, 5), nil, 0)
	var p sim.Plan
	p.Reset(0, 5, 1)
	for i, minutes := range []float64{4, 0, 0, 30, 4} {
		if minutes > 0 {
			p.Dose[i] = p.AddDose(&z, []float64{1}, []sim.Run{{Minutes: minutes}})
		}
	}
	var b sim.Balance
	var sums sim.Sums
	var tr sim.Trace
	tr.Grow(5)
	b.Reset(&z, 12)
	b.Replay(days, &g, &p, 0, &sums, &tr, 0)
	for i, want := range []struct{ depletion, eta, percIrr, percRain float64 }{{13, 5, 0, 0}, {18, 5, 0, 0}, {20, 2, 0, 0}, {0, 5, 5, 0},
		{0, 5, 4, 5}} {
		if math.Abs(tr.DepletionMM[i]-want.depletion) > 1e-12 || math.Abs(tr.ETaMM[i]-want.eta) > 1e-12 ||
			math.Abs(tr.PercIrrMM[i]-want.percIrr) > 1e-12 || math.Abs(tr.PercRainMM[i]-want.percRain) > 1e-12 {
			t.Errorf("day %d: depletion %g, ETa %g, percolation %g and %g, by hand %+v", i, tr.DepletionMM[i], tr.ETaMM[i], tr.PercIrrMM[i],
				tr.PercRainMM[i], want)
		}
	}
	// ETa of the five days is 5, 5, 2, 5 and 5 of 5 each: R7, of the days there are,
	// is 12/15 = 0.8 on day 2, 17/20 = 0.85 and 22/25 = 0.88 after it: three days
	// below 0.9, none below 0.75. The zone and its driest quarter are one.
	if sums.StressDays != 3 || sums.StressZoneDays != 3 || sums.BrownDays != 0 || sums.LongestStreak != 3 || sums.PastRAWDays != 1 ||
		math.Abs(sums.SeverityDays-0.6) > 1e-12 || math.Abs(sums.StorageMM-12) > 1e-12 {
		t.Errorf("%+v, by hand three stress days in a row and one past RAW, of severity 0.6", sums)
	}
}
