package tune_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/cal"
)

func twoZones() replay.Job {
	return replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8), zone("b", 60, 0.6)}, Weather: invented(2001, 2005, 5)}
}

// TestOutcomeIsTheReplay: the reported result matches a replay of the strategy and
// of the sheet.
func TestOutcomeIsTheReplay(t *testing.T) {
	job := twoZones()
	for kind := range tune.Kinds {
		r := search(t, &job, kind, tinySpace())
		list := []strategy.Strategy{r.Strategy}
		if r.Sheet != nil {
			list = append(list, r.Sheet.Strategy())
		}
		for _, row := range measureAll(t, job, list) {
			sum := 0.0
			for z, o := range row {
				zone := r.Outcome.Zones[z]
				sum += o.m3
				if o.stress != zone.StressDays || math.Abs(o.runoff-zone.RunoffEvents) > 1e-9 || zone.Binds != "" && within(o) {
					t.Errorf("%v, zone %d: reported %+v, replayed %+v", kind, z, zone, o)
				}
			}
			if math.Abs(sum-r.Outcome.M3PerYear) > 1e-6 {
				t.Errorf("%v: reported %g m³ a year, replayed %g", kind, r.Outcome.M3PerYear, sum)
			}
		}
	}
}

// TestSameEveryTime: neither a second run nor another number of workers
// changes anything.
func TestSameEveryTime(t *testing.T) {
	job := twoZones()
	for kind := range tune.Kinds {
		told := 0
		first := search(t, &job, kind, tinySpace())
		job.Workers = 2
		second, err := tune.Tune(context.Background(), &job, kind, goal, tune.Options{Space: tinySpace(), Progress: func(n int) {
			if n < told {
				t.Errorf("%v: progress went back from %d to %d", kind, told, n)
			}
			told = n
		}})
		job.Workers = 0
		if err != nil || told == 0 {
			t.Fatalf("%v, %d zone replays reported", err, told)
		}
		if !reflect.DeepEqual(first, second) {
			t.Errorf("%v: two runs differ", kind)
		}
	}
}

// TestWhatBinds: an unreachable goal is reported, with the best setting found.
func TestWhatBinds(t *testing.T) {
	for _, c := range []struct {
		name  string
		space tune.Space
		goal  tune.Goal
		binds string
	}{
		{"a minute a week", tune.Space{Days: []strategy.DayRule{weekdays(1)}, Cycles: []tune.Cycle{{}}, MaxMinutes: 1},
			tune.Goal{StressDays: 5, BrowningDays: 366, RunoffEvents: 1}, "stress days"},
		{"one long run on tight soil", tune.Space{Days: []strategy.DayRule{weekdays(1, 4)}, Cycles: []tune.Cycle{{}}},
			tune.Goal{StressDays: 60, BrowningDays: 366}, "runoff events"},
	} {
		job := twoZones()
		r, err := tune.Tune(context.Background(), &job, tune.Fixed, c.goal, tune.Options{Space: c.space})
		if err != nil {
			t.Fatal(err)
		}
		if r.Outcome.Met || !strings.HasPrefix(r.Outcome.Zones[0].Binds, c.binds) {
			t.Errorf("%s: met %v, zone a %+v; %s should bind", c.name, r.Outcome.Met, r.Outcome.Zones[0], c.binds)
		}
		if r.Outcome.Zones[0].GrossMM == 0 {
			t.Errorf("%s: the best found waters nothing", c.name)
		}
	}
}

// TestNoWaterWhereNoneIsNeeded: if any stress is allowed, no program waters, and
// the gap to the bound is that of no water, −100%.
func TestNoWaterWhereNoneIsNeeded(t *testing.T) {
	job := twoZones()
	for _, kind := range []tune.Kind{tune.Fixed, tune.Monthly, tune.ETScaled} {
		r, err := tune.Tune(context.Background(), &job, kind, tune.Goal{StressDays: 366, BrowningDays: 366}, tune.Options{Space: tinySpace()})
		if err != nil {
			t.Fatal(err)
		}
		if !r.Outcome.Met || r.Outcome.Ratio() != 0 || r.Sheet != nil {
			t.Errorf("%v: met %v, ratio %g, sheet %v", kind, r.Outcome.Met, r.Outcome.Ratio(), r.Sheet)
		}
	}
}

// TestHeldOutYearsAreNotSeen: the soil is filled at the end of each year, and
// different weather in even years does not change what odd years need.
func TestHeldOutYearsAreNotSeen(t *testing.T) {
	job := twoZones()
	o := tune.Options{Space: tinySpace()}
	a, err := tune.Hold(context.Background(), &job, tune.Fixed, goal, o)
	if err != nil {
		t.Fatal(err)
	}
	if a.Tuned.Outcome.Years != 2 || a.Checked.Years != 2 || a.Tuned.Outcome.Dry%2 == 0 || a.Checked.Dry%2 != 0 {
		t.Errorf("tuned on %+v, checked on %+v", a.Tuned.Outcome, a.Checked)
	}
	for i := range job.Weather.EToMM {
		if y, m, _ := (job.Weather.Start + cal.Date(i)).YMD(); y%2 == 0 && m < 12 {
			job.Weather.EToMM[i] *= 1.5
		}
	}
	b, err := tune.Hold(context.Background(), &job, tune.Fixed, goal, o)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a.Tuned, b.Tuned) {
		t.Error("the setting changed with weather of years it must not see")
	}
	if a.Checked.Zones[0].StressDays >= b.Checked.Zones[0].StressDays {
		t.Errorf("the check found %d stress days, and %d in far drier years", a.Checked.Zones[0].StressDays, b.Checked.Zones[0].StressDays)
	}
}

// TestMarginIsAReserve: with a reserve, more water is used, and the goal is still
// met if plants need that much more.
func TestMarginIsAReserve(t *testing.T) {
	job := twoZones()
	plain := search(t, &job, tune.Monthly, tinySpace())
	r, err := tune.Tune(context.Background(), &job, tune.Monthly, goal, tune.Options{Space: tinySpace(), Margin: 0.2})
	if err != nil {
		t.Fatal(err)
	}
	if r.Outcome.M3PerYear <= plain.Outcome.M3PerYear || !r.Outcome.Met {
		t.Errorf("%g m³ with reserve, %g without", r.Outcome.M3PerYear, plain.Outcome.M3PerYear)
	}
	for z := range job.Zones {
		for m := range job.Zones[z].K {
			job.Zones[z].K[m] *= 1.2
		}
	}
	for z, o := range measureAll(t, job, []strategy.Strategy{r.Strategy})[0] {
		if !within(o) {
			t.Errorf("zone %d: %+v when plants need what was kept in reserve", z, o)
		}
	}
}

func TestNoWholeYear(t *testing.T) {
	job := twoZones()
	job.Weather.RainMM, job.Weather.EToMM = job.Weather.RainMM[:300], job.Weather.EToMM[:300]
	if _, err := tune.Tune(context.Background(), &job, tune.Fixed, goal, tune.Options{}); !errors.Is(err, tune.ErrNoYear) {
		t.Errorf("300 days give %v", err)
	}
	job = twoZones()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := tune.Tune(ctx, &job, tune.Fixed, goal, tune.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
}

// TestUnderLimits: the result obeys days, run times and window; the engine finds
// nothing to block.
func TestUnderLimits(t *testing.T) {
	rules := strategy.Rule{Name: "town", Days: weekdays(1, 3, 6), MaxMinutes: 25, Windows: []clock.Window{{FromMin: 1320, ToMin: 360}}}
	for kind := range tune.Kinds {
		job := twoZones()
		job.Limits = &strategy.Limits{Always: rules, Exempt: make([]bool, 2)}
		r, err := tune.Tune(context.Background(), &job, kind, tune.Goal{StressDays: 40, BrowningDays: 366, RunoffEvents: 100}, tune.Options{})
		if err != nil {
			t.Fatal(err)
		}
		job.Strategies = []strategy.Strategy{r.Strategy}
		table, err := replay.Run(context.Background(), &job, nil)
		if err != nil {
			t.Fatal(err)
		}
		// A water balance may request more minutes than allowed, and is then cut.
		for _, b := range table.Breaches[0] {
			if kind != tune.Refill && (kind != tune.ETScaled || !strings.Contains(b.Rule, "longer")) {
				t.Errorf("%v: %+v", kind, b)
				break
			}
		}
		if r.Outcome.M3PerYear == 0 {
			t.Errorf("%v: nothing is watered", kind)
		}
	}
}

// TestTooManyForTheWindow: if the zones do not fit together, those that do not are
// named with the minutes they lack.
func TestTooManyForTheWindow(t *testing.T) {
	job := twoZones()
	job.Limits = &strategy.Limits{Always: strategy.Rule{Name: "town", Days: weekdays(2),
		Windows: []clock.Window{{FromMin: 300, ToMin: 330}}}, Exempt: make([]bool, 2)}
	r, err := tune.Tune(context.Background(), &job, tune.Fixed, tune.Goal{StressDays: 0, BrowningDays: 366, RunoffEvents: 400}, tune.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Sheet.Misfits) == 0 || r.Outcome.Met {
		t.Fatalf("misfits %+v, met %v", r.Sheet.Misfits, r.Outcome.Met)
	}
	z := r.Sheet.Misfits[0].Zone
	if binds := r.Outcome.Zones[z].Binds; !strings.Contains(binds, "window") {
		t.Errorf("zone %d: what binds is %q", z, binds)
	}
}

// TestSpreadOverDays: four zones that each take most of the window get separate
// days if all days are allowed, and then all fit.
func TestSpreadOverDays(t *testing.T) {
	job := replay.Job{Weather: invented(2001, 2003, 5)}
	for _, name := range []string{"a", "b", "c", "d"} {
		z := zone(name, 80, 0.5)
		z.IntakeMMH = 100
		job.Zones = append(job.Zones, z)
	}
	free, err := tune.Tune(context.Background(), &job, tune.Fixed, goal,
		tune.Options{Space: tune.Space{Days: []strategy.DayRule{weekdays(2)}}})
	if err != nil {
		t.Fatal(err)
	}
	longest := 0.0
	for _, m := range free.Sheet.Programs[0].Minutes {
		longest = max(longest, m)
	}
	job.Limits = &strategy.Limits{Always: strategy.Rule{Windows: []clock.Window{{FromMin: 240, ToMin: 240 + longest + 10}}},
		Exempt: make([]bool, 4)}
	r, err := tune.Tune(context.Background(), &job, tune.Fixed, goal, tune.Options{Space: tune.Space{Days: []strategy.DayRule{weekdays(2)}}})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Sheet.Misfits) > 0 || !r.Outcome.Met || len(r.Sheet.Programs) != 4 {
		t.Errorf("misfits %v, met %v, %d programs; by hand four, one a zone", r.Sheet.Misfits, r.Outcome.Met, len(r.Sheet.Programs))
	}
}
