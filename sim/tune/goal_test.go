package tune_test

import (
	"context"
	"math"
	"testing"

	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/sim/tune"
)

// TestRaisedMark by hand: 0.8 + 0.1; at most 0.95; what is above that stays.
func TestRaisedMark(t *testing.T) {
	g := tune.Goal{MarkReserve: 0.1}
	for mark, want := range map[float64]float64{0.8: 0.9, 0.9: 0.95, 0.97: 0.97} {
		if got := g.RaisedMark(mark); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g is raised to %g, by hand %g", mark, got, want)
		}
	}
}

// TestReserveOfTheMarks: with the marks raised, more water is used, and the zone as a
// whole stays above the raised mark in the replay of that zone.
func TestReserveOfTheMarks(t *testing.T) {
	job := twoZones()
	plain := search(t, &job, tune.Fixed, tinySpace())
	raised := tune.Goal{StressDays: 6, MarkReserve: 0.1, BrowningDays: 366, RunoffEvents: 2}
	r, err := tune.Tune(context.Background(), &job, tune.Fixed, raised, tune.Options{Space: tinySpace()})
	if err != nil {
		t.Fatal(err)
	}
	if !r.Outcome.Met || r.Outcome.M3PerYear <= plain.Outcome.M3PerYear {
		t.Errorf("%g m³ with raised marks, %g without; met %v", r.Outcome.M3PerYear, plain.Outcome.M3PerYear, r.Outcome.Met)
	}
	for z := range job.Zones {
		job.Zones[z].ToleranceR7 = 0.9
	}
	for z, o := range measureAll(t, job, []strategy.Strategy{r.Strategy})[0] {
		if o.stress != r.Outcome.Zones[z].ReserveDays || o.stress > 6 {
			t.Errorf("zone %d: %d days below 0.9 in the replay, %d reported", z, o.stress, r.Outcome.Zones[z].ReserveDays)
		}
		if r.Outcome.Zones[z].StressDays > r.Outcome.Zones[z].ReserveDays {
			t.Errorf("zone %d: more days below the mark than below the raised mark", z)
		}
	}
}

// TestBrowningBinds: on an uneven zone, the driest quarter turns brown long before
// the zone as a whole is stressed; the bound on browning then costs water, and is kept.
func TestBrowningBinds(t *testing.T) {
	job := twoZones()
	for z := range job.Zones {
		job.Zones[z].DULQ, job.Zones[z].ToleranceR7 = 0.4, 0.6
	}
	used := map[int]float64{}
	for _, days := range []int{366, 3} {
		r, err := tune.Tune(context.Background(), &job, tune.Monthly, tune.Goal{StressDays: 6, BrowningDays: days, RunoffEvents: 400},
			tune.Options{Space: tinySpace()})
		if err != nil {
			t.Fatal(err)
		}
		used[days] = r.Outcome.M3PerYear
		for z := range r.Outcome.Zones {
			if got := r.Outcome.Zones[z].BrowningDays; got > days || days == 366 && got <= 3 {
				t.Errorf("at most %d browning days: zone %d has %d", days, z, got)
			}
		}
	}
	if used[3] <= used[366] {
		t.Errorf("%g m³ with the bound, %g without", used[3], used[366])
	}
}

// TestSeasonIsKept: nothing is watered outside the season, and stress counts from the
// first month that the system is on throughout and half a month before: by hand, with
// April 10 to October 20, May to September.
func TestSeasonIsKept(t *testing.T) {
	job := twoZones()
	season := strategy.Season{Start: 410, End: 1020, FrostC: -100, FrostFreeDays: 21}
	for kind := range tune.Kinds {
		r, err := tune.Tune(context.Background(), &job, kind, goal, tune.Options{Space: tinySpace(), Season: []strategy.Part{season}})
		if err != nil {
			t.Fatal(err)
		}
		job.Strategies = []strategy.Strategy{r.Strategy}
		table := replayed(t, &job)
		for z := range job.Zones {
			in, out, worst := 0, 0, 0
			for i, span := range table.Spans {
				m := &table.Outcomes[0][z].Months[i]
				if (span.Month < 4 || span.Month > 10) && m.GrossMM > 0 {
					t.Errorf("%v: zone %d is watered in month %d", kind, z, span.Month)
				}
				if span.Month == 1 {
					in = 0
				}
				if span.Month >= 5 && span.Month <= 9 {
					in += m.StressZoneDays
				} else {
					out += m.StressZoneDays
				}
				worst = max(worst, in)
			}
			if got := r.Outcome.Zones[z]; got.StressDays > worst || got.GrossMM == 0 || out == 0 && got.OffSeasonDays > 0 {
				t.Errorf("%v, zone %d: %d stress days from May to September by the replay, reported %+v", kind, z, worst, got)
			}
		}
		job.Strategies = nil
	}
}

// TestTimer: the limits of a timer hold.
func TestTimer(t *testing.T) {
	job := twoZones()
	profile := timer.Profile{Programs: 1, Starts: 4, MinMinutes: 15, PercentStep: 0.25}
	r, err := tune.Tune(context.Background(), &job, tune.Monthly, tune.Goal{StressDays: 6, BrowningDays: 366, RunoffEvents: 400},
		tune.Options{Space: tune.Space{Timer: profile}})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Sheet.Programs) != 1 || r.Sheet.Programs[0].Cycle != 0 {
		t.Errorf("programs %+v of a timer with one, without cycles", r.Sheet.Programs)
	}
	for z, m := range r.Sheet.Programs[0].Minutes {
		if m < 15 {
			t.Errorf("zone %d runs %g min; the timer's shortest is 15", z, m)
		}
	}
	for m, share := range r.Sheet.Percent {
		if steps := share * 4; math.Abs(steps-math.Round(steps)) > 1e-9 {
			t.Errorf("month %d: %g%% on a timer with steps of 25%%", m+1, 100*share)
		}
	}
}

// TestRunTimeRule: by the balance of the peak month, the run time is the need times
// 1 − rain − stored water − what is not met + losses; the rule has the multiplier
// 1/(0.4 + 0.6·0.7) = 1.2195 instead.
func TestRunTimeRule(t *testing.T) {
	job := twoZones()
	r := search(t, &job, tune.Monthly, tinySpace())
	for z := range job.Zones {
		run := r.Outcome.Zones[z].Run
		if math.Abs(run.Multiplier-1/0.82) > 1e-12 || run.Month != 7 && run.Month != 6 && run.Month != 8 {
			t.Errorf("zone %d: %+v", z, run)
		}
		need := run.Rule / run.Multiplier // minutes of even coverage
		if want := need * (1 - run.Rain - run.Soil - run.Short + run.Lost); math.Abs(run.Minutes-want) > 1e-9*want {
			t.Errorf("zone %d: %g min, by the balance %g: %+v", z, run.Minutes, want, run)
		}
		// K of 0.8 and 0.6 and 3.5 + 2.8 mm a day at the peak of the season, 30 mm/h: about 10 and 7.6 min a day.
		if daily := need / run.Days; math.Abs(daily-2*6.3*job.Zones[z].K[0]) > 1.2 {
			t.Errorf("zone %d: a need of %g min a day", z, daily)
		}
	}
}
