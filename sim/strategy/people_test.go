package strategy_test

import (
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestSeason by hand: the season runs from 15 April to 15 October, both
// included, in every year; one from 1 October to 31 March runs over the new year.
func TestSeason(t *testing.T) {
	w := days(cal.Of(2003, 1, 1), same(730, 0)...)
	for _, tt := range []struct {
		season   strategy.Season
		on, off  []cal.Date
		wetsDays int
	}{
		{strategy.Season{Start: 415, End: 1015, FrostC: -100, FrostFreeDays: 1},
			[]cal.Date{cal.Of(2003, 4, 15), cal.Of(2003, 10, 15), cal.Of(2004, 7, 1)},
			[]cal.Date{cal.Of(2003, 4, 14), cal.Of(2003, 10, 16), cal.Of(2004, 1, 1)}, 2 * 184},
		// January to March and October to December of 2003 and of the leap year 2004, less 31 December 2004.
		{strategy.Season{Start: 1001, End: 331, FrostC: -100, FrostFreeDays: 1},
			[]cal.Date{cal.Of(2003, 1, 1), cal.Of(2003, 12, 31), cal.Of(2004, 2, 29)}, []cal.Date{cal.Of(2003, 4, 1), cal.Of(2003, 9, 30)},
			90 + 92 + 91 + 91},
	} {
		rows, _ := replayed(t, handZone(), w, 0, daily(5), tt.season)
		watered := 0
		for _, r := range rows {
			if r.Minutes > 0 {
				watered++
			}
		}
		if watered != tt.wetsDays {
			t.Errorf("%+v: watered on %d days, by the calendar %d", tt.season, watered, tt.wetsDays)
		}
		for _, d := range tt.on {
			if r := rows[d-w.Start]; r.Minutes == 0 {
				t.Errorf("%+v: not watered on %v", tt.season, d)
			}
		}
		for _, d := range tt.off {
			if r := rows[d-w.Start]; r.Minutes != 0 || r.Reason != sim.Suspended {
				t.Errorf("%+v: %g min (%s) on %v", tt.season, r.Minutes, r.Reason, d)
			}
		}
	}
}

// TestSeasonByFrost by hand: a night below 0 °C shuts the system down from the
// next morning on, until three nights in a row were not.
func TestSeasonByFrost(t *testing.T) {
	w := days(cal.Of(2003, 3, 1), same(9, 0)...)
	copy(w.TminC, []float64{3, -1, 2, 0, -2, 4, 4, 4, 4})
	rows, _ := replayed(t, handZone(), w, 0, daily(5), strategy.Season{FrostC: 0, FrostFreeDays: 3})
	wantMinutes(t, rows, 5, 5, 0, 0, 0, 0, 0, 0, 5)
}

// TestWindHold by hand: above 5 m/s yesterday; without a wind record, never.
func TestWindHold(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), same(4, 0)...)
	copy(w.WindMS, []float64{5, 5.1, 0, 0})
	rows, _ := replayed(t, handZone(), w, 0, daily(5), strategy.WindHold{AboveMS: 5})
	wantMinutes(t, rows, 5, 5, 0, 5)
	wantReasons(t, rows[2:], "held: wind")
	w.WindMS = nil
	rows, _ = replayed(t, handZone(), w, 0, daily(5), strategy.WindHold{AboveMS: 5})
	wantMinutes(t, rows, 5, 5, 5, 5)
}

// TestRainShutOff by hand: the sensor dries by ETo, 10 mm of it at 4 mm a day
// from the day after the rain, so that the third morning after is the last one
// held back. A sensor that always fails, or is bypassed, is none.
func TestRainShutOff(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), same(7, 4)...)
	w.RainMM[1] = 20
	rows, _ := replayed(t, handZone(), w, 0, daily(5), strategy.RainHold{AtLeastMM: 6, DryOutEToMM: 10})
	wantMinutes(t, rows, 5, 5, 0, 0, 0, 5, 5)
	for _, none := range []strategy.RainHold{{AtLeastMM: 6, DryOut: 3, MissRate: 1}, {AtLeastMM: 6, DryOut: 3, Bypass: true}} {
		rows, _ = replayed(t, handZone(), w, 0, daily(5), none)
		wantMinutes(t, rows, 5, 5, 5, 5, 5, 5, 5)
	}
	// Half of the rains missed: of 400, within four standard errors.
	w = days(cal.Of(2003, 6, 1), same(801, 0)...)
	for i := 0; i < 800; i += 2 {
		w.RainMM[i] = 9
	}
	rows, _ = replayed(t, handZone(), w, 0, daily(0.01), strategy.RainHold{AtLeastMM: 6, DryOut: 1, MissRate: 0.5, Seed: 4})
	held := 0
	for _, r := range rows {
		if r.Reason == sim.RainHold {
			held++
		}
	}
	if held < 160 || held > 240 {
		t.Errorf("held back after %d of 400 rains, want about 200", held)
	}
}

// TestRainCredit by hand: half of 6 mm of rain comes off 8 mm of ETo, design 5.
func TestRainCredit(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), 8, 0)
	w.RainMM[0] = 6
	rows, _ := replayed(t, handZone(), w, 0, daily(10), strategy.ETPercent{DesignEToMM: 5, Days: 3, SubtractRain: true, RainIgnored: 0.5,
		Max: 2})
	wantMinutes(t, rows, 10, 10)
	rows, _ = replayed(t, handZone(), w, 0, daily(10), strategy.ETPercent{DesignEToMM: 5, Days: 3, SubtractRain: true, Max: 2})
	wantMinutes(t, rows, 10, 4)
}

// TestSuspendAndManual by hand: nothing from the 2nd to the 4th; an extra run
// on the 3rd comes all the same and knows no percentage.
func TestSuspendAndManual(t *testing.T) {
	first := cal.Of(2003, 6, 1)
	rows, _ := replayed(t, handZone(), days(first, same(6, 0)...), 0, daily(5), strategy.Monthly{Share: [12]float64(same(12, 0.8))},
		strategy.Suspend{From: first + 1, To: first + 3, Zones: []bool{true}}, strategy.Manual{Date: first + 2, Minutes: 9, AtMin: 1080})
	wantMinutes(t, rows, 4, 0, 9, 0, 4, 4)
	wantReasons(t, rows, "watered", "suspended", "watered", "suspended", "watered", "watered")
	rows, _ = replayed(t, handZone(), days(first, same(3, 0)...), 0, daily(5), strategy.Manual{Date: first + 1, Minutes: 9, AtMin: 1080})
	wantMinutes(t, rows, 5, 14, 5)
}

// TestZonePercent comes on top of the month's.
func TestZonePercent(t *testing.T) {
	month := strategy.Monthly{Share: [12]float64(same(12, 0.8))}
	rows, _ := replayed(t, handZone(), days(0, 0), 0, daily(10), month, strategy.ZonePercent{Share: []float64{1.5}})
	wantMinutes(t, rows, 12)
	rows, _ = replayed(t, handZone(), days(0, 0), 0, daily(10), month, strategy.ZonePercent{Share: []float64{math.NaN()}})
	wantMinutes(t, rows, 8)
}

// TestDatedPrograms by hand: one version up to the 2nd, another from the 3rd
// on, and an establishment window that steps evenly from 8 min on the 2nd to a
// quarter of them on the 5th.
func TestDatedPrograms(t *testing.T) {
	first := cal.Of(2003, 6, 1)
	old := strategy.Program{Name: "old", Starts: []int{300}, Minutes: []float64{10}, To: first + 1}
	young := strategy.Program{Name: "new", Starts: []int{300}, Minutes: []float64{20}, From: first + 2}
	sod := strategy.Program{Name: "sod", Starts: []int{300, 700}, Minutes: []float64{8}, From: first + 1, To: first + 4, RampTo: 0.25}
	rows, _ := replayed(t, handZone(), days(first, same(6, 0)...), 0, strategy.Programs{List: []strategy.Program{old, young}})
	wantMinutes(t, rows, 10, 10, 20, 20, 20, 20)
	rows, _ = replayed(t, handZone(), days(first, same(6, 0)...), 0, strategy.Programs{List: []strategy.Program{sod}})
	wantMinutes(t, rows, 0, 16, 12, 8, 4, 0)
}

// TestHabitEdits by hand: two edits a year, due on the first of January and of
// July and each 10 days late, to what those months ask for. Until the first
// change the percentage is that of the edit before.
func TestHabitEdits(t *testing.T) {
	target := [12]float64{0: 0.5, 6: 1.5}
	w := days(cal.Of(2003, 1, 1), same(365, 0)...)
	rows, _ := replayed(t, handZone(), w, 0, daily(10), strategy.Habit{Target: &target, Edits: 2, MinDelay: 10, MaxDelay: 10})
	for d, want := range map[cal.Date]float64{cal.Of(2003, 1, 1): 15, cal.Of(2003, 1, 10): 15, cal.Of(2003, 1, 11): 5,
		cal.Of(2003, 7, 10): 5, cal.Of(2003, 7, 11): 15, cal.Of(2003, 12, 31): 15} {
		if got := rows[d-w.Start].Minutes; math.Abs(got-want) > 1e-12 {
			t.Errorf("%v: %g min, by hand %g", d, got, want)
		}
	}
}

// TestHabitSeesStress by hand: from 70 mm Ks is 30/60, so stress is seen at
// once under 3 mm a day; after two days minutes go up by half, once.
func TestHabitSeesStress(t *testing.T) {
	rows, _ := replayed(t, handZone(), days(cal.Of(2003, 6, 1), same(6, 6)...), 0.7, daily(2),
		strategy.Habit{RaiseBy: 0.5, Steps: 1, VisibleBelowKs: 0.7, RaiseAfter: 2, LowerAfter: 60})
	wantMinutes(t, rows, 2, 2, 3, 3, 3, 3)
}

// TestMistakenRefill by hand: 50 mm of a TAW of 100 mm. Who replaces 60% asks
// for 30 min; who believes in twice the rate for 25; who believes in 80% of
// the storage starts at 40 mm and asks for 40 min; who books none of 20 mm of
// rain asks a day later for 6 mm too many.
func TestMistakenRefill(t *testing.T) {
	all := []bool{true}
	refill := func(share float64, told strategy.Assumed) *strategy.Refill {
		return &strategy.Refill{Zones: all, MAD: 0.5, Share: share, Assumed: told}
	}
	w := days(cal.Of(2003, 6, 1), 6)
	for _, tt := range []struct {
		part *strategy.Refill
		want float64
	}{{refill(0, strategy.Assumed{}), 50}, {refill(0.6, strategy.Assumed{}), 30}, {refill(0, strategy.Assumed{Rate: 2}), 25},
		{refill(0, strategy.Assumed{Storage: 0.8}), 40}} {
		rows, _ := replayed(t, handZone(), w, 0.5, tt.part)
		wantMinutes(t, rows, tt.want)
	}
	// From 46 mm, RAW 40: Ks 0.9 makes 51.4 mm of a dry day, and 20 mm of rain
	// that is not booked leave the belief there.
	w = days(cal.Of(2003, 6, 1), 6, 6)
	w.RainMM[0] = 20
	rows, _ := replayed(t, handZone(), w, 0.46, refill(0, strategy.Assumed{RainMissed: 1}))
	wantMinutes(t, rows, 0, 51.4)
	rows, _ = replayed(t, handZone(), w, 0.46, refill(0, strategy.Assumed{}))
	wantMinutes(t, rows, 0, 0)
}

// TestTruthNeverOvershoots: a belief equal to the truth, on one even strip
// without losses, never sends irrigation below the roots and fills it to the brim.
func TestTruthNeverOvershoots(t *testing.T) {
	w := days(cal.Of(2003, 1, 1), same(700, 0)...)
	for i := range w.EToMM {
		w.EToMM[i] = 4 + 3*math.Sin(float64(i)/50)
		if i%9 == 4 {
			w.RainMM[i] = 11 + 9*math.Sin(float64(i))
		}
	}
	for _, mad := range []float64{0.1, 0.4, 0.5, 0.9} {
		rows, _ := replayed(t, handZone(), w, 0.3, &strategy.Refill{Zones: []bool{true}, MAD: mad})
		refills := 0
		for _, r := range rows {
			if r.PercIrrMM > 1e-9 {
				t.Fatalf("MAD %g, %v: %g mm percolate", mad, r.Date, r.PercIrrMM)
			}
			if r.Minutes > 0 {
				refills++
				if r.LowQuarterMM > 1e-9 {
					t.Fatalf("MAD %g, %v: %g mm are left after a refill", mad, r.Date, r.LowQuarterMM)
				}
			}
		}
		if mad < 0.9 && refills < 5 {
			t.Errorf("MAD %g: only %d refills", mad, refills)
		}
	}
}

// TestOverrideBeyond: a refill whose zone is too dry waters despite a rain hold, but
// not despite a frost hold.
func TestOverrideBeyond(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), 0, 0)
	w.RainMM[0] = 6
	part := &strategy.Refill{Zones: []bool{true}, MAD: 0.3, OverrideBeyond: 0.5}
	odd := strategy.DayRule{Kind: strategy.EvenDays} // the morning after the rain
	part.Days = odd
	rows, _ := replayed(t, handZone(), w, 0.5, part, strategy.RainHold{AtLeastMM: 5, DryOut: 3})
	wantReasons(t, rows, "not scheduled", "held: rain") // 44 mm, under 50
	rows, _ = replayed(t, handZone(), w, 0.6, part, strategy.RainHold{AtLeastMM: 5, DryOut: 3})
	wantMinutes(t, rows, 0, 54)
	w.TminC[0] = -5
	rows, _ = replayed(t, handZone(), w, 0.6, part, strategy.RainHold{AtLeastMM: 5, DryOut: 3}, strategy.FrostHold{BelowC: 0})
	wantMinutes(t, rows, 0, 0)
}
