package strategy_test

import (
	"math"
	"testing"

	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestMonthly: 10 min at 65% are 6.5 min, from the first of the month to its
// last day.
func TestMonthly(t *testing.T) {
	share := [12]float64{3: 0.65, 4: 1.2}
	rows, _ := replayed(t, handZone(), days(cal.Of(2003, 3, 30), same(35, 0)...), 0, daily(10), strategy.Monthly{Share: share})
	for _, r := range rows {
		want, reason := map[int]float64{3: 0, 4: 6.5, 5: 12}[r.Date.Month()], "watered"
		if want == 0 {
			reason = "scaled to zero"
		}
		if math.Abs(r.Minutes-want) > 1e-12 || r.Reason.String() != reason {
			t.Errorf("%v: %g min (%s), want %g (%s)", r.Date, r.Minutes, r.Reason, want, reason)
		}
	}
}

// TestHundredPercentIsNone: twelve times 100% changes no digit.
func TestHundredPercentIsNone(t *testing.T) {
	w := days(cal.Of(2003, 1, 1), same(370, 4.3)...)
	with, _ := replayed(t, handZone(), w, 0.2, daily(3.7), strategy.Monthly{Share: [12]float64(same(12, 1))})
	without, _ := replayed(t, handZone(), w, 0.2, daily(3.7))
	for i := range with {
		if with[i] != without[i] {
			t.Fatalf("%+v with 100 %%, %+v without", with[i], without[i])
		}
	}
}

// TestRounding: minutes are rounded after the percentage, to the nearest step,
// halves up; nothing is rounded unless it is asked for.
func TestRounding(t *testing.T) {
	for _, tt := range []struct{ minutes, percent, step, want float64 }{
		{10, 65, 0, 6.5}, {10, 65, 1, 7}, {10, 64, 1, 6}, {10, 4, 1, 0}, {13, 100, 5, 15}, {12, 100, 5, 10}, {7.3, 100, 0.5, 7.5},
	} {
		rows, _ := replayed(t, handZone(), days(0, 0), 0, daily(tt.minutes), strategy.Monthly{Share: [12]float64(same(12, tt.percent/100))},
			strategy.Round{StepMin: tt.step})
		wantMinutes(t, rows, tt.want)
	}
}

// TestProgramsShareZones: two programs and a forgotten second start add up.
func TestProgramsShareZones(t *testing.T) {
	odd := strategy.Program{Name: "odd", Days: strategy.DayRule{Kind: strategy.OddDays}, Starts: []int{300, 700}, Minutes: []float64{4},
		Cycle: 3, Soak: 10}
	every := strategy.Program{Name: "every", Starts: []int{400}, Minutes: []float64{5}}
	absent := strategy.Program{Name: "absent", Starts: []int{500}, Minutes: []float64{0}}
	rows, _ := replayed(t, handZone(), days(cal.Of(2003, 6, 1), 0, 0, 0), 0, strategy.Programs{List: []strategy.Program{odd, absent}},
		strategy.Programs{List: []strategy.Program{every}})
	wantMinutes(t, rows, 2*4+5, 5, 2*4+5)
	if rows[0].Cycles != 2*2+1 || rows[1].Cycles != 1 {
		t.Errorf("%d and %d cycles, want 5 and 1", rows[0].Cycles, rows[1].Cycles)
	}
}

// TestRainHold by hand: above 6 mm, dry-out 2 days. Rain of day 1 stops days 2
// and 3, not day 1, since it falls after dawn; 5.9 mm on day 4 stop nothing; 6
// mm on day 5 do, and rain on day 6, while it is still wet, begins the count
// anew.
func TestRainHold(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), same(11, 0)...)
	copy(w.RainMM, []float64{0, 9, 0, 0, 5.9, 6, 20, 0, 0, 0, 0})
	rows, _ := replayed(t, handZone(), w, 0, daily(5), strategy.RainHold{AtLeastMM: 6, DryOut: 2})
	wantMinutes(t, rows, 5, 5, 0, 0, 5, 5, 0, 0, 0, 5, 5)
	wantReasons(t, rows, "watered", "watered", "held: rain", "held: rain", "watered", "watered", "held: rain", "held: rain", "held: rain",
		"watered")
	// A threshold of 0 means any rain at all, not every day.
	rows, _ = replayed(t, handZone(), w, 0, daily(5), strategy.RainHold{AtLeastMM: 0, DryOut: 1})
	wantMinutes(t, rows, 5, 5, 0, 5, 5, 0, 0, 0, 5, 5, 5)
}

// TestFrostHold by hand: below 2 °C yesterday stops today; 2 °C itself does not.
func TestFrostHold(t *testing.T) {
	w := days(cal.Of(2003, 1, 1), same(5, 0)...)
	copy(w.TminC, []float64{1.9, 2, -5, 6, 6})
	rows, _ := replayed(t, handZone(), w, 0, daily(5), strategy.FrostHold{BelowC: 2})
	wantMinutes(t, rows, 5, 0, 5, 0, 5)
	wantReasons(t, rows, "watered", "held: frost", "watered", "held: frost", "watered")
}

// TestETPercent by hand: design 5 mm over 3 days. ETo 4, 6, 8, 2, 20 give 1 on
// the first morning, then 4/5, 5/5, 6/5, (6 + 8 + 2)/3/5 and 10/5.
func TestETPercent(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), 4, 6, 8, 2, 20, 0)
	rows, _ := replayed(t, handZone(), w, 0, daily(10), strategy.ETPercent{DesignEToMM: 5, Days: 3, Max: 9})
	wantMinutes(t, rows, 10, 8, 10, 12, 10*16.0/15, 20)
	rows, _ = replayed(t, handZone(), w, 0, daily(10), strategy.ETPercent{DesignEToMM: 5, Days: 3, Min: 0.9, Max: 1.1})
	wantMinutes(t, rows, 10, 9, 10, 11, 10*16.0/15, 11)
	// Rain of the same days comes off: 4 − 1, (4 + 6 − 1 − 3)/2, ... and a wet
	// spell asks for nothing, never for less than nothing.
	copy(w.RainMM, []float64{1, 3, 0, 60, 0, 0})
	rows, _ = replayed(t, handZone(), w, 0, daily(10), strategy.ETPercent{DesignEToMM: 5, Days: 3, SubtractRain: true, Max: 9})
	wantMinutes(t, rows, 10, 6, 6, 10*14.0/15, 0, 0)
	wantReasons(t, rows[4:], "scaled to zero")
}

// TestRefill by hand: MAD 50%, so 50 mm. From 40 mm and 6 mm a day: 46 (RAW
// 40 is not passed at dawn), then Ks = (100 − 46)/60 = 0.9, so 51.4: due on the
// third day, 51.4 min fill it; then from 6 mm on.
func TestRefill(t *testing.T) {
	all := []bool{true}
	rows, _ := replayed(t, handZone(), days(cal.Of(2003, 6, 1), same(5, 6)...), 0.4, &strategy.Refill{Zones: all, MAD: 0.5, Extra: -1})
	wantMinutes(t, rows, 0, 0, 51.4, 0, 0)
	wantReasons(t, rows, "not due", "not due", "refilled", "not due", "not due")
	for i, want := range []float64{46, 51.4, 6, 12, 18} {
		if math.Abs(rows[i].DepletionMM-want) > 1e-9 {
			t.Errorf("day %d ends at %g mm, by hand %g", i, rows[i].DepletionMM, want)
		}
	}
	// On even days only, it waits: 51.4 on the 3rd, Ks = 48.6/60 makes 56.26.
	rows, _ = replayed(t, handZone(), days(cal.Of(2003, 6, 1), same(5, 6)...), 0.4,
		&strategy.Refill{Zones: all, MAD: 0.5, Extra: 0, Days: strategy.DayRule{Kind: strategy.EvenDays}})
	wantMinutes(t, rows, 0, 0, 0, 56.26, 0)
	wantReasons(t, rows, "not scheduled", "not due", "not scheduled", "refilled", "not scheduled")
	// Half the minutes by a percentage leave half the depletion standing: 25.7
	// of 51.4 mm stay, then 6 mm a day: 31.7, 37.7 and, from 43.7, no stress yet.
	rows, _ = replayed(t, handZone(), days(cal.Of(2003, 6, 1), same(5, 6)...), 0.4, &strategy.Refill{Zones: all, MAD: 0.5, Extra: 0},
		strategy.Monthly{Share: [12]float64(same(12, 0.5))})
	wantMinutes(t, rows, 0, 0, 25.7, 0, 0)
	if math.Abs(rows[4].DepletionMM-43.7) > 1e-9 {
		t.Errorf("ends at %g mm, by hand 43.7", rows[4].DepletionMM)
	}
}

// TestRefillBelievesAndDoesNotSee: on a zone watered unevenly through the
// air's losses, the strategy's own bucket is even and full after a refill,
// whatever the soil is; a sensor that shuts the valve leaves it believing so.
func TestRefillBelievesAndDoesNotSee(t *testing.T) {
	z := handZone()
	z.Strips, z.DULQ, z.LossShare = 4, 0.55, 0.2
	all := []bool{true}
	// 50 mm call for 60·50/(60·0.8)/(0.4 + 0.6·0.55) min.
	full := 50 / 0.8 / 0.73
	rows, _ := replayed(t, z, days(cal.Of(2003, 6, 1), same(3, 6)...), 0.5, &strategy.Refill{Zones: all, MAD: 0.5, Extra: -1})
	wantMinutes(t, rows, full, 0, 0)
	if d := rows[0].LowQuarterMM; math.Abs(d-(50-full*0.8*0.55)) > 1e-9 {
		t.Errorf("the driest quarter is at %g mm, by hand %g", d, 50-full*0.8*0.55)
	}
	rows, _ = replayed(t, z, days(cal.Of(2003, 6, 1), same(3, 6)...), 0.5, &strategy.Refill{Zones: all, MAD: 0.5, Extra: -1},
		strategy.Sensor{PermitAt: 0.9, Zones: all, Placement: "average"})
	wantMinutes(t, rows, 0, 0, 0)
	wantReasons(t, rows, "sensor wet", "not due", "not due")
}

// TestRefillRunTime is the trade's worked example: 0.50 in net at 1.60 in/h and
// an efficiency of 55% take 34.1 min (from memory).
func TestRefillRunTime(t *testing.T) {
	z := handZone()
	z.TAWMM, z.PRMMH = 25.4, 1.6*25.4
	rows, _ := replayed(t, z, days(0, 5), 0.5, &strategy.Refill{Zones: []bool{true}, MAD: 0.5, Extra: 1/0.55 - 1})
	if math.Abs(rows[0].Minutes-34.1) > 0.05 {
		t.Errorf("%.3f min, want 34.1", rows[0].Minutes)
	}
}

// TestSensor by hand: four strips with shares 0.55, 0.85, 1.15 and 1.45 of 10
// mm a day, 4 mm drawn, all at 30 mm at first; permitted at 31.8 mm at the end
// of yesterday.
//
//	driest:  30 no, 34 yes → 32.5 yes → 31 no, 35 yes → 33.5 yes
//	average: 30 no, 34 yes → 28 no, 32 yes → 26 no, 30 no
//	wettest: 30 no, 34 yes → 23.5 no, 27.5 no, 31.5 no, 35.5 yes
func TestSensor(t *testing.T) {
	z := handZone()
	z.Strips, z.DULQ = 4, 0.55
	for placement, want := range map[string][]float64{"driest": {0, 10, 10, 0, 10, 10}, "average": {0, 10, 0, 10, 0, 0},
		"wettest": {0, 10, 0, 0, 0, 10}} {
		rows, _ := replayed(t, z, days(cal.Of(2003, 6, 1), same(6, 4)...), 0.3, daily(10),
			strategy.Sensor{PermitAt: 0.318, Zones: []bool{true}, Placement: placement})
		t.Run(placement, func(t *testing.T) {
			wantMinutes(t, rows, want...)
			for i := range rows {
				reason := "watered"
				if want[i] == 0 {
					reason = "sensor wet"
				}
				wantReasons(t, rows[i:], reason)
			}
		})
	}
	// A sensor in another zone says nothing here, and one that permits at 0 is none.
	rows, _ := replayed(t, z, days(0, 4, 4), 0.3, daily(10), strategy.Sensor{PermitAt: 0.318, Zones: []bool{false}, Placement: "driest"})
	wantMinutes(t, rows, 10, 10)
	rows, _ = replayed(t, z, days(0, 4, 4), 0, daily(10), strategy.Sensor{PermitAt: 0, Zones: []bool{true}, Placement: "driest"})
	wantMinutes(t, rows, 10, 10)
}

// TestSensorErrorIsSeeded: the same seed repeats, another does not, and the
// readings spread about as told: about half of the days at the threshold open.
func TestSensorErrorIsSeeded(t *testing.T) {
	z := handZone()
	w := days(cal.Of(2003, 6, 1), same(400, 0)...) // nothing draws, so the truth stays at 30 mm
	count := func(seed uint64, permit float64) (open int, which string) {
		// Watering 0.001 min moves the truth by less than a thousandth of the error.
		rows, _ := replayed(t, z, w, 0.3, daily(0.001), strategy.Sensor{PermitAt: permit, Zones: []bool{true}, Placement: "average",
			Error: 0.05, Seed: seed})
		for _, r := range rows {
			if r.Minutes > 0 {
				open++
				which += "o"
			} else {
				which += "-"
			}
		}
		return open, which
	}
	half, a := count(1, 0.3)
	_, b := count(1, 0.3)
	_, c := count(2, 0.3)
	if a != b {
		t.Error("the same seed gave other readings")
	}
	if a == c {
		t.Error("another seed gave the same readings")
	}
	// Normal error: 50% at the threshold, 84% one deviation under it, each
	// within four standard errors of 400 draws.
	if half < 160 || half > 240 {
		t.Errorf("open on %d of 400 days at the threshold, want about 200", half)
	}
	if one, _ := count(1, 0.25); one < 307 || one > 366 {
		t.Errorf("open on %d of 400 days one deviation under, want about 336", one)
	}
}

// TestHoldsDoNotHideWhatWasNotDue: a day on hold says so only where
// something was scheduled.
func TestHoldsDoNotHideWhatWasNotDue(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), same(4, 0)...)
	w.RainMM[0], w.TminC[0] = 30, -3
	odd := strategy.Programs{List: []strategy.Program{{Name: "odd", Days: strategy.DayRule{Kind: strategy.OddDays}, Starts: []int{1},
		Minutes: []float64{5}}}}
	rows, _ := replayed(t, handZone(), w, 0, odd, strategy.RainHold{AtLeastMM: 5, DryOut: 2}, strategy.FrostHold{BelowC: 0})
	wantReasons(t, rows, "watered", "not scheduled", "held: rain", "not scheduled")
}

// TestLeastWater by hand: RAW 40 mm, 6 mm a day, from 30 mm: nothing until 42
// would pass RAW; then day by day what was drawn, less the rain of the day,
// which it foresees.
func TestLeastWater(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), same(8, 6)...)
	copy(w.RainMM, []float64{0, 0, 0, 0, 4, 10, 0, 1})
	_, least := replayed(t, handZone(), w, 0.3)
	// Dawn: 30, 36, 42, 46, 46 (−4 rain), 46 (−10 rain), 42, 46 (1 mm is less than 0.2 ETo and evaporates).
	wantMinutes(t, least, 0, 0, 2, 6, 2, 0, 2, 6)
	for _, r := range least {
		if r.PastRAW || r.ETaMM != r.ETcMM {
			t.Errorf("%v: short of water", r.Date)
		}
	}
}

// TestReferenceZone: even, one strip, no losses; all else is the zone's.
func TestReferenceZone(t *testing.T) {
	z := handZone()
	z.Strips, z.DULQ, z.LossShare = 8, 0.5, 0.1
	want := handZone()
	if got := strategy.ReferenceZone(z); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}
