package strategy_test

import (
	"math"
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestMostHoldsInARow: rain is forecast every day; a program of every other day is
// held twice and then runs, since days without watering do not count.
func TestMostHoldsInARow(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), same(12, 0)...)
	for i := range w.RainMM {
		w.RainMM[i] = 8
	}
	hold := strategy.ForecastHold{AtLeastMM: 5, Days: 1, MaxHeld: 2, Source: "perfect"}
	odd := programs(strategy.Program{Name: "odd", Days: strategy.DayRule{Kind: strategy.OddDays}, Starts: []int{300}, Minutes: []float64{5}})
	rows, _ := replayed(t, handZone(), w, 0, odd, hold)
	wantMinutes(t, rows, 0, 0, 0, 0, 5, 0, 0, 0, 0, 0, 5, 0)
	wantReasons(t, rows, "held: forecast", "not scheduled", "held: forecast", "not scheduled", "watered")
	// Every day: two of three are held.
	rows, _ = replayed(t, handZone(), w, 0, daily(5), hold)
	wantMinutes(t, rows, 0, 0, 5, 0, 0, 5, 0, 0, 5, 0, 0, 5)
	// A dry day in between begins the count anew, and a day that something else
	// holds does not count toward the limit.
	w.RainMM[1] = 0
	rows, _ = replayed(t, handZone(), w, 0, daily(5), hold, strategy.Suspend{From: cal.Of(2003, 6, 4), To: cal.Of(2003, 6, 4),
		Zones: []bool{true}})
	wantMinutes(t, rows[:6], 0, 5, 0, 0, 0, 5)
	wantReasons(t, rows, "held: forecast", "watered", "held: forecast", "held: forecast", "held: forecast", "watered")
	// Frost on the second morning does not count; on the third, which would
	// water, it delays the run without starting a new count.
	w.RainMM[1] = 8
	for frozen, want := range map[int][]float64{1: {0, 0, 0, 5, 0, 0, 5}, 2: {0, 0, 0, 5, 0, 0, 5}} {
		w.TminC = same(12, 9)
		w.TminC[frozen-1] = -4
		rows, _ = replayed(t, handZone(), w, 0, daily(5), hold, strategy.FrostHold{BelowC: 0})
		wantMinutes(t, rows[:7], want...)
		wantReasons(t, rows[frozen:], "held: frost")
	}
}

// TestFrostIsNeverOverruled: rain and frost hold watering on the same morning. The
// reason is rain; a dry zone overrides that, but no frost hold and
// no season, whatever comes first.
func TestFrostIsNeverOverruled(t *testing.T) {
	w := days(cal.Of(2003, 2, 1), 0, 0)
	w.RainMM[0], w.TminC[0] = 6, -3
	part := func() *strategy.Refill {
		return &strategy.Refill{Zones: []bool{true}, MAD: 0.3, OverrideBeyond: 0.5, Days: strategy.DayRule{Kind: strategy.EvenDays}}
	}
	rain := strategy.RainHold{AtLeastMM: 5, DryOut: 3}
	for _, tt := range []struct {
		why  string
		part strategy.Part
		want float64
	}{
		{"only the rain", strategy.Round{StepMin: 1}, 54},
		{"a frost hold", strategy.FrostHold{BelowC: 0}, 0},
		{"out of season", strategy.Season{Start: 401, End: 1001, FrostC: -100}, 0},
		{"shut down by frost", strategy.Season{FrostC: 0, FrostFreeDays: 5}, 0},
		{"suspended", strategy.Suspend{From: w.Start, To: w.Start + 9, Zones: []bool{true}}, 0},
		{"wind", strategy.WindHold{AboveMS: 0.5}, 54},
	} {
		w := w
		if tt.why == "wind" {
			w.WindMS = []float64{5, 5}
		}
		for _, parts := range [][]strategy.Part{{part(), rain, tt.part}, {part(), tt.part, rain}} {
			rows, _ := replayed(t, handZone(), w, 0.6, parts...)
			if rows[1].Minutes != tt.want {
				t.Errorf("%s: %g min (%s), want %g", tt.why, rows[1].Minutes, rows[1].Reason, tt.want)
			}
		}
	}
}

// TestWorkingStorageBelief: the belief of a plain store is netted as the store
// is: 20 mm at first, 6 mm a day, trigger 30 of 100 mm. Rain of 9 mm on a day
// of 6 mm leaves it at 23 (26 − 9 + 6).
func TestWorkingStorageBelief(t *testing.T) {
	z := handZone()
	z.WorkingStorage, z.P = true, 0.5
	w := days(cal.Of(2003, 6, 1), same(6, 6)...)
	w.RainMM[1] = 9
	rows, _ := replayed(t, z, w, 0.2, &strategy.Refill{Zones: []bool{true}, MAD: 0.3})
	// Dawn: 20, 26, 23, 29, 35 is due, then 6.
	wantMinutes(t, rows, 0, 0, 0, 0, 35, 0)
	// A store that is nearly full takes rain only after the day's draw: 1 − 9 + 6
	// is held at 0, so that the next dawn finds 0, not 6.
	w = days(cal.Of(2003, 6, 1), same(3, 6)...)
	w.RainMM[0] = 9
	rows, _ = replayed(t, z, w, 0.01, &strategy.Refill{Zones: []bool{true}, MAD: 0.05})
	wantMinutes(t, rows, 0, 0, 6)
	// More than fits, by a rounding to 10 min, serves the day's draw: 35 − 40 + 6
	// = 1, then 7, 13, 19, 25 and 31 is due.
	rows, _ = replayed(t, z, days(cal.Of(2003, 6, 1), same(8, 6)...), 0.35, &strategy.Refill{Zones: []bool{true}, MAD: 0.3},
		strategy.Round{StepMin: 10})
	wantMinutes(t, rows, 40, 0, 0, 0, 0, 0, 30, 0)
}

// TestDescribe: what the parts came to is told in words.
func TestDescribe(t *testing.T) {
	eto := make([]float64, 0, 365)
	for d := cal.Of(2003, 1, 1); d <= cal.Of(2003, 12, 31); d++ {
		eto = append(eto, float64(d.Month())) // 1 mm a day in January to 12 in December
	}
	w := days(cal.Of(2003, 1, 1), eto...)
	w.WindMS = nil
	site := &strategy.Site{Zones: twoZones(), Weather: w, Calendar: sim.NewCalendar(w.Start, 365)}
	st := strategy.Strategy{Parts: []strategy.Part{strategy.Monthly{Auto: true}, daily(5), strategy.Habit{Edits: 2},
		strategy.Habit{Edits: 2, Target: &[12]float64{}},
		strategy.ForecastHold{Source: "site"}, strategy.ForecastHold{Source: "none"}, strategy.WindHold{AboveMS: 4},
		strategy.Manual{Date: cal.Of(2002, 12, 31)}, strategy.Manual{Date: cal.Of(2003, 1, 1)},
		strategy.Suspend{From: cal.Of(2004, 1, 1), To: cal.Of(2004, 1, 9)}, strategy.Suspend{From: cal.Of(2002, 1, 1), To: cal.Of(2003, 1, 1)},
		programs(strategy.Program{Name: "before", To: cal.Of(2002, 12, 31)}, strategy.Program{Name: "within", To: cal.Of(2003, 1, 1)},
			strategy.Program{Name: "after", From: cal.Of(2004, 1, 1)})}}
	// Twelfths, rounded to 5%: 8.33 → 10, 16.7 → 15, 25, 33.3 → 35, ...
	const auto = "10, 15, 25, 35, 40, 50, 60, 65, 75, 85, 90, 100%"
	want := []string{
		"seasonal percentages from the record's mean ETo, starting with January: " + auto,
		"target percentages of the late changes, from the record's mean ETo, starting with January: " + auto,
		"the site has no forecast, so the forecast hold never acts",
		"the record has no wind, so the wind hold never acts",
		"the manual run on 2002-12-31 is outside the record",
		"the suspension from 2004-01-01 to 2004-01-09 is outside the record",
		"programs outside the record: before, after",
	}
	if got, err := st.Describe(site); err != nil || !slices.Equal(got, want) {
		t.Errorf("%q, %v\nwant %q", got, err, want)
	}
}

// TestRainOfAStationElsewhere: scattered rain is right on average, the same for
// the same seed, and leaves days without rain alone.
func TestRainOfAStationElsewhere(t *testing.T) {
	w := days(cal.Of(2003, 1, 1), same(4000, 0)...)
	z := handZone()
	z.TAWMM = 1e7 // so much that no day fills it
	for i := range w.RainMM {
		w.RainMM[i] = 10
	}
	// From a depletion of 90% nothing is drawn and 10 mm a day come in; the
	// trigger is passed downwards on no day, so what is asked for at the end
	// tells what was booked.
	asked := func(scatter float64, seed uint64) float64 {
		r := &strategy.Refill{Zones: []bool{true}, MAD: 0.1, Days: strategy.DayRule{Kind: strategy.Interval, Every: 4000, From: w.Start +
			3999}, Assumed: strategy.Assumed{RainError: scatter, Seed: seed}}
		rows, _ := replayed(t, z, w, 0.9, r)
		return rows[3999].Minutes
	}
	start, exact := 0.9*z.TAWMM, asked(0, 1)
	if booked := start - exact; math.Abs(booked-39990) > 1e-6 {
		t.Fatalf("%g mm booked without scatter, by hand 39990", booked)
	}
	// The standard error of the mean of 3999 days is √(e^0.25 − 1)/√3999 = 0.84%.
	booked := start - asked(0.5, 1)
	if off := booked/39990 - 1; math.Abs(off) > 4*0.0084 || off == 0 {
		t.Errorf("%.0f mm booked with scatter, on average 39990", booked)
	}
	if asked(0.5, 1) != start-booked || asked(0.5, 2) == start-booked {
		t.Error("the seed does not tell the days")
	}
	for i := range w.RainMM {
		w.RainMM[i] = 0
	}
	if got := asked(0.5, 1); got != start {
		t.Errorf("%g mm booked without rain", start-got)
	}
}

// TestDryOutIsNotADayLonger: 0.3 mm of ETo on each of three days make 0.9 mm,
// although 0.9 less three times 0.3 is a little above 0 in a computer's numbers.
func TestDryOutIsNotADayLonger(t *testing.T) {
	w := days(cal.Of(2003, 6, 1), same(6, 0.3)...)
	w.RainMM[0] = 9
	rows, _ := replayed(t, handZone(), w, 0, daily(5), strategy.RainHold{AtLeastMM: 5, DryOutEToMM: 0.9})
	wantMinutes(t, rows, 5, 0, 0, 0, 5, 5)
}

// TestPersonAndSensorElsewhere: somebody turns the minutes up of a zone that
// suffers, but the sensor, in a zone that never dries, permits none of them.
func TestPersonAndSensorElsewhere(t *testing.T) {
	zones := twoZones()
	zones[1].K = [12]float64{}
	p := programs(strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{2, 0}})
	person := strategy.Habit{RaiseBy: 0.5, Steps: 2, VisibleBelowKs: 0.9, RaiseAfter: 1, LowerAfter: 90}
	rows, _ := played(t, zones, days(cal.Of(2003, 6, 1), same(8, 6)...), nil, 0.7, p, person,
		strategy.Sensor{PermitAt: 0.9, Zones: []bool{true, true}, ReadZone: 2, Placement: "average"})
	wantMinutes(t, rows[0], 0, 0, 0, 0, 0, 0, 0, 0)
	// Without the sensor: 2 min, then 3, then 4.
	rows, _ = played(t, zones, days(cal.Of(2003, 6, 1), same(4, 6)...), nil, 0.7, p, person)
	wantMinutes(t, rows[0], 2, 3, 4, 4)
}

// TestReasonsOfAPerson: 0.4 min round to none; turned up by half, 0.6 min round
// to one.
func TestReasonsOfAPerson(t *testing.T) {
	person := strategy.Habit{RaiseBy: 0.5, Steps: 1, VisibleBelowKs: 0.9, RaiseAfter: 2, LowerAfter: 90}
	rows, _ := replayed(t, handZone(), days(cal.Of(2003, 6, 1), same(4, 6)...), 0.7, daily(0.4), person, strategy.Round{StepMin: 1})
	wantMinutes(t, rows, 0, 0, 1, 1)
	wantReasons(t, rows, "scaled to zero", "scaled to zero", "watered", "watered")
}
