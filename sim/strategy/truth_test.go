package strategy_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// site is two zones like handZone, "a" and "b", and a record to replay them on.
func twoZones() []sim.Zone {
	a, b := handZone(), handZone()
	a.Name, b.Name = "a", "b"
	return []sim.Zone{a, b}
}

// played returns the rows of each zone under one stack of parts, without
// spin-up from the given depletion, and what broke a rule.
func played(t *testing.T, zones []sim.Zone, w sim.Weather, limits *strategy.Limits, start float64,
	parts ...strategy.Part) ([][]replay.Row, []sim.Breach) {
	t.Helper()
	return playedOn(t, zones, w, limits, nil, start, parts...)
}

// playedOn is like played, with the given controllers and meters.
func playedOn(t *testing.T, zones []sim.Zone, w sim.Weather, limits *strategy.Limits, wiring *clock.Wiring, start float64,
	parts ...strategy.Part) ([][]replay.Row, []sim.Breach) {
	t.Helper()
	job := &replay.Job{Zones: zones, Weather: w, NoSpinUp: true, StartShare: start, Limits: limits, Wiring: wiring,
		Strategies: []strategy.Strategy{{Name: "hand", Parts: parts}}}
	rows := make([][]replay.Row, len(zones))
	at := 0
	table, err := replay.Run(context.Background(), job, func(s *replay.Sheet) error {
		if s.Strategy == "hand" {
			for i := range s.Days() {
				rows[at] = append(rows[at], s.Row(i))
			}
			at++
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return rows, table.Breaches[0]
}

func programs(list ...strategy.Program) strategy.Programs { return strategy.Programs{List: list} }

// TestTruthForgottenSecondStart: the same program with a second start puts down
// twice the water, in twice the minutes and cycles.
func TestTruthForgottenSecondStart(t *testing.T) {
	p := strategy.Program{Name: "p", Days: strategy.DayRule{Kind: strategy.Weekdays, Weekdays: [7]bool{2: true}}, Starts: []int{300},
		Minutes: []float64{12, 7}, Cycle: 5, Soak: 10}
	twice := p
	twice.Starts = []int{300, 960}
	w := days(cal.Of(2012, 2, 27), same(8, 3)...) // 2012-02-28 was a Tuesday
	one, _ := played(t, twoZones(), w, nil, 0.5, programs(p))
	two, _ := played(t, twoZones(), w, nil, 0.5, programs(twice))
	for z, minutes := range []float64{12, 7} {
		for i := range one[z] {
			want, cycles := 0.0, 0
			if i == 1 {
				want, cycles = minutes, []int{3, 2}[z]
			}
			if r, s := one[z][i], two[z][i]; r.Minutes != want || s.Minutes != 2*want || r.Cycles != cycles || s.Cycles != 2*cycles ||
				s.GrossMM != 2*r.GrossMM {
				t.Errorf("%v zone %d: %g min in %d cycles and %g min in %d, by hand %g in %d", r.Date, z, r.Minutes, r.Cycles, s.Minutes,
					s.Cycles, want, cycles)
			}
		}
	}
}

// TestTruthPercentages multiply: 20 min at 80% for the zone and 50% for the month
// are 8 min; 7.5% of 20 min round to 2.
func TestTruthPercentages(t *testing.T) {
	p := programs(strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{20, 10}})
	months := strategy.Monthly{Share: [12]float64(same(12, 0.5))}
	zone := strategy.ZonePercent{Share: []float64{0.8, math.NaN()}}
	rows, _ := played(t, twoZones(), days(cal.Of(2003, 6, 1), 0), nil, 0, p, months, zone)
	wantMinutes(t, rows[0], 8)
	wantMinutes(t, rows[1], 5)
	zone.Share = []float64{0.15, 0.01}
	rows, _ = played(t, twoZones(), days(cal.Of(2003, 6, 1), 0), nil, 0, p, months, zone, strategy.Round{StepMin: 1})
	wantMinutes(t, rows[0], 2) // 1.5, halves up
	wantMinutes(t, rows[1], 0)
	wantReasons(t, rows[1], "scaled to zero")
}

// TestTruthVersions: what was changed when. The last day of one version is the day
// before the first of the next, in a leap year too.
func TestTruthVersions(t *testing.T) {
	old := strategy.Program{Name: "until the 28th", Starts: []int{300}, Minutes: []float64{10}, To: cal.Of(2012, 2, 28)}
	leap := strategy.Program{Name: "on the 29th", Starts: []int{300}, Minutes: []float64{11}, From: cal.Of(2012, 2, 29),
		To: cal.Of(2012, 2, 29)}
	new := strategy.Program{Name: "from 1 March", Starts: []int{300, 400}, Minutes: []float64{12}, From: cal.Of(2012, 3, 1)}
	rows, _ := replayed(t, handZone(), days(cal.Of(2012, 2, 27), same(5, 0)...), 0, programs(old, leap, new))
	wantMinutes(t, rows, 10, 10, 11, 24, 24)
}

// TestTruthEstablishment: 20 min twice a day at first, evenly down to a half on the
// last of eleven days: 40, 38, 36, ... 20, then nothing.
func TestTruthEstablishment(t *testing.T) {
	p := strategy.Program{Name: "new turf", Starts: []int{360, 840}, Minutes: []float64{20}, From: cal.Of(2012, 12, 27),
		To: cal.Of(2013, 1, 6), RampTo: 0.5}
	rows, _ := replayed(t, handZone(), days(cal.Of(2012, 12, 26), same(13, 0)...), 0, programs(p))
	wantMinutes(t, rows, 0, 40, 38, 36, 34, 32, 30, 28, 26, 24, 22, 20, 0)
	// Upwards, as for plants that grow: 10 to 30 in four steps.
	p = strategy.Program{Name: "young trees", Starts: []int{360}, Minutes: []float64{10}, From: cal.Of(2013, 1, 1),
		To: cal.Of(2013, 1, 5), RampTo: 3}
	rows, _ = replayed(t, handZone(), days(cal.Of(2013, 1, 1), same(6, 0)...), 0, programs(p))
	wantMinutes(t, rows, 10, 15, 20, 25, 30, 0)
}

// TestTruthSuspensions: both days included, one zone or all, told as such.
func TestTruthSuspensions(t *testing.T) {
	p := programs(strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{5, 5}})
	one := strategy.Suspend{From: cal.Of(2003, 6, 2), To: cal.Of(2003, 6, 3), Zones: []bool{true, false}}
	all := strategy.Suspend{From: cal.Of(2003, 6, 3), To: cal.Of(2003, 6, 4), Zones: []bool{true, true}}
	rows, _ := played(t, twoZones(), days(cal.Of(2003, 6, 1), same(5, 0)...), nil, 0, p, one, all)
	wantMinutes(t, rows[0], 5, 0, 0, 0, 5)
	wantMinutes(t, rows[1], 5, 5, 0, 0, 5)
	wantReasons(t, rows[1], "watered", "watered", "suspended", "suspended", "watered")
}

// TestTruthSeasons by the calendar: first and last day run.
func TestTruthSeasons(t *testing.T) {
	summer, winter := strategy.Season{Start: 415, End: 1015, FrostC: -100}, strategy.Season{Start: 1001, End: 331, FrostC: -100}
	leap, open := strategy.Season{Start: 229, End: 301, FrostC: -100}, strategy.Season{Start: 301, FrostC: -100}
	for _, tt := range []struct {
		why    string
		season strategy.Season
		first  cal.Date
		want   []float64
	}{
		{"the day before the season and its first", summer, cal.Of(2012, 4, 14), []float64{0, 5, 5}},
		{"its last day and the day after", summer, cal.Of(2012, 10, 14), []float64{5, 5, 0}},
		{"over the new year", winter, cal.Of(2012, 12, 31), []float64{5, 5, 5}},
		{"its last day in spring", winter, cal.Of(2013, 3, 30), []float64{5, 5, 0}},
		{"its first in autumn", winter, cal.Of(2013, 9, 29), []float64{0, 0, 5}},
		{"from 29 February of a leap year", leap, cal.Of(2012, 2, 28), []float64{0, 5, 5, 0}},
		{"and of a common year: from 1 March", leap, cal.Of(2013, 2, 27), []float64{0, 0, 5, 0}},
		{"without an end it ends with the year", open, cal.Of(2012, 12, 30), []float64{5, 5, 0}},
	} {
		t.Run(tt.why, func(t *testing.T) {
			rows, _ := replayed(t, handZone(), days(tt.first, same(len(tt.want), 0)...), 0, daily(5), tt.season)
			wantMinutes(t, rows, tt.want...)
			for _, r := range rows {
				if r.Minutes == 0 {
					wantReasons(t, []replay.Row{r}, "suspended")
				}
			}
		})
	}
}

// TestTruthSeasonByFrost: a night below 0 °C is known on the next morning and shuts
// the system down; three nights in a row that were not open it again. 0 °C
// itself is no frost.
func TestTruthSeasonByFrost(t *testing.T) {
	w := days(cal.Of(2012, 3, 1), same(12, 0)...)
	copy(w.TminC, []float64{4, -1, 0, 3, -2, 1, 1, 1, 5, 5, -0.1, 5})
	rows, _ := replayed(t, handZone(), w, 0, daily(5), strategy.Season{FrostC: 0, FrostFreeDays: 3})
	// Frost on day 2: off on days 3 to 5. Frost on day 5: off on 6, 7 and 8.
	wantMinutes(t, rows, 5, 5, 0, 0, 0, 0, 0, 0, 5, 5, 5, 0)
}

// TestTruthRunsByHand: suspensions, holds and percentages do not affect them, and
// what the program gives comes on top.
func TestTruthRunsByHand(t *testing.T) {
	w := days(cal.Of(2012, 7, 1), same(4, 0)...)
	w.RainMM[1] = 30
	off := strategy.Suspend{From: cal.Of(2012, 7, 2), To: cal.Of(2012, 7, 2), Zones: []bool{true, true}}
	half := strategy.Monthly{Share: [12]float64(same(12, 0.5))}
	var parts = []strategy.Part{programs(strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{10, 10}}), off, half,
		strategy.RainHold{AtLeastMM: 5, DryOut: 1}}
	for d := range 3 {
		parts = append(parts, strategy.Manual{Date: cal.Of(2012, 7, 1+d), Zone: 0, Minutes: 15, AtMin: 1080})
	}
	rows, _ := played(t, twoZones(), w, nil, 0, parts...)
	wantMinutes(t, rows[0], 5+15, 15, 15, 5)
	wantMinutes(t, rows[1], 5, 0, 0, 5)
	wantReasons(t, rows[0], "watered", "watered", "watered", "watered")
	wantReasons(t, rows[1], "watered", "suspended", "held: rain", "watered")
}

// TestTruthRunByHandOnRefilledZone: the extra 20 min enter the strategy's own
// balance. By hand: from 40 mm at 6 mm a day it is due on day 3 at 51.4 mm; 20
// mm on the morning of day 2 make 46 − 20 = 26, then 32, 38, 44 (Ks 56/60), ...
func TestTruthRunByHandOnRefilledZone(t *testing.T) {
	rows, _ := replayed(t, handZone(), days(cal.Of(2003, 6, 1), same(5, 6)...), 0.4, &strategy.Refill{Zones: []bool{true}, MAD: 0.5},
		strategy.Manual{Date: cal.Of(2003, 6, 2), Zone: 0, Minutes: 20})
	wantMinutes(t, rows, 0, 20, 0, 0, 0)
	for i, want := range []float64{46, 32, 38, 44, 44 + 6*56.0/60} {
		if math.Abs(rows[i].DepletionMM-want) > 1e-9 {
			t.Errorf("day %d ends at %g mm, by hand %g", i+1, rows[i].DepletionMM, want)
		}
	}
	wantReasons(t, rows, "not due", "watered", "not due", "not due", "not due")
}

// TestTruthTriggersByZone: two refills, each zone by its own. From 20 mm at 6 mm a
// day: 26 at the second dawn, 32 at the third.
func TestTruthTriggersByZone(t *testing.T) {
	early := &strategy.Refill{Zones: []bool{true, false}, MAD: 0.25}
	late := &strategy.Refill{Zones: []bool{false, true}, MAD: 0.3}
	rows, _ := played(t, twoZones(), days(cal.Of(2003, 6, 1), same(4, 6)...), nil, 0.2, early, late)
	wantMinutes(t, rows[0], 0, 26, 0, 0)
	wantMinutes(t, rows[1], 0, 0, 32, 0)
	limited, _ := played(t, twoZones(), days(cal.Of(2003, 6, 1), same(4, 6)...), &strategy.Limits{}, 0.2, early, late)
	wantMinutes(t, limited[0], 0, 26, 0, 0)
	wantMinutes(t, limited[1], 0, 0, 32, 0)
}

// TestTruthSensorOfAnotherZone: one sensor in "b", which draws half as much and is
// not watered, governs "a" by the soil of "b": 30 mm at first, then 3 mm a day.
func TestTruthSensorOfAnotherZone(t *testing.T) {
	zones := twoZones()
	for m := range zones[1].K {
		zones[1].K[m] = 0.5
	}
	p := programs(strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{10, 0}})
	s := strategy.Sensor{PermitAt: 0.36, Zones: []bool{true, true}, ReadZone: 2, Placement: "average"}
	rows, _ := played(t, zones, days(cal.Of(2003, 6, 1), same(5, 6)...), nil, 0.3, p, s)
	wantMinutes(t, rows[0], 0, 0, 10, 10, 10) // "b" is at 30, 33, 36, 39, 42 at dawn
	wantReasons(t, rows[0], "sensor wet", "sensor wet", "watered")
	// Where both are watered, both stop when "b" is wet: 36 permits, 36 − 10 + 3
	// = 29 and 32 and 35 do not, 38 does.
	p = programs(strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{10, 10}})
	rows, _ = played(t, zones, days(cal.Of(2003, 6, 1), same(7, 6)...), nil, 0.36, p, s)
	wantMinutes(t, rows[0], 10, 0, 0, 0, 10, 0, 0)
	wantMinutes(t, rows[1], 10, 0, 0, 0, 10, 0, 0)
}

// TestTruthSensorOfItsOwnZone: a sensor that governs the one zone it reads does what
// a sensor in that zone does.
func TestTruthSensorOfItsOwnZone(t *testing.T) {
	z := handZone()
	z.Strips, z.DULQ, z.Rain = 8, 0.6, sim.Rain{CN: 70}
	w := days(cal.Of(2003, 1, 1), same(500, 0)...)
	for i := range w.EToMM {
		w.EToMM[i] = 3 + 3*math.Sin(float64(i)/58)
		if i%9 == 4 {
			w.RainMM[i] = 11 + 10*math.Sin(float64(i))
		}
	}
	for _, placement := range []string{"driest", "average", "wettest"} {
		own := strategy.Sensor{PermitAt: 0.31, Zones: []bool{true}, Placement: placement, Error: 0.04, Seed: 4}
		one := own
		one.ReadZone = 1
		a, _ := replayed(t, z, w, 0.2, daily(9), own)
		b, _ := replayed(t, z, w, 0.2, daily(9), one)
		closed := 0
		for i := range a {
			if a[i].Minutes != b[i].Minutes || a[i].Reason != b[i].Reason || math.Abs(a[i].DepletionMM-b[i].DepletionMM) > 1e-9 {
				t.Fatalf("%s, %v: %+v and %+v", placement, a[i].Date, a[i], b[i])
			}
			if a[i].Reason == sim.SensorWet {
				closed++
			}
		}
		if closed < 20 || closed > len(a)-20 {
			t.Errorf("%s: closed on %d of %d days: nothing was put to the test", placement, closed, len(a))
		}
	}
}

// TestTruthHabit by hand: three edits a year are those of January, May and
// September, here 10 days late and exactly so.
func TestTruthHabit(t *testing.T) {
	target := [12]float64{0: 0.2, 4: 1, 8: 0.6}
	h := strategy.Habit{Target: &target, Edits: 3, MinDelay: 10, MaxDelay: 10}
	for _, tt := range []struct {
		first cal.Date
		want  []float64
	}{
		{cal.Of(2012, 5, 9), []float64{2, 2, 10, 10}},
		{cal.Of(2012, 5, 12), []float64{10}}, // the change of 1 May was made on the 11th
		{cal.Of(2012, 7, 1), []float64{10}},  // found as set in May
		{cal.Of(2012, 9, 10), []float64{10, 6}},
		{cal.Of(2012, 12, 31), []float64{6, 6}}, // January's is not made yet
		{cal.Of(2013, 1, 10), []float64{6, 2}},
	} {
		t.Run(fmt.Sprint(tt.first), func(t *testing.T) {
			rows, _ := replayed(t, handZone(), days(tt.first, same(len(tt.want), 0)...), 0, daily(10), h)
			wantMinutes(t, rows, tt.want...)
		})
	}
}
