package tune_test

import (
	"context"
	"errors"
	"testing"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/sim/tune"
)

func replayed(t *testing.T, job *replay.Job) *tally.Table {
	t.Helper()
	table, err := replay.Run(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// daysOf returns the pattern of days of the program that waters a zone.
func daysOf(t *testing.T, st *strategy.Strategy, z int) strategy.DayRule {
	t.Helper()
	for _, p := range st.Parts {
		if programs, ok := p.(strategy.Programs); ok {
			for i := range programs.List {
				if programs.List[i].Minutes[z] > 0 {
					return programs.List[i].Days
				}
			}
		}
	}
	t.Fatalf("zone %d is in no program", z)
	return strategy.DayRule{}
}

// TestExemptZoneHasDaysOfItsOwn: the rules leave Tuesday to zone a. Zone b is exempt,
// as drip is, and its plants need water every second to fifth day: it gets it.
func TestExemptZoneHasDaysOfItsOwn(t *testing.T) {
	job := twoZones()
	job.Zones[1].TAWMM = 30
	job.Limits = &strategy.Limits{Always: strategy.Rule{Name: "town", Days: weekdays(2)}, Exempt: []bool{false, true}}
	for _, kind := range []tune.Kind{tune.Fixed, tune.Monthly, tune.ETScaled} {
		r, err := tune.Tune(context.Background(), &job, kind, tune.Goal{StressDays: 60, BrowningDays: 366, RunoffEvents: 400},
			tune.Options{Intervals: []tune.Interval{{}, {Shortest: 2, Longest: 5}}})
		if err != nil {
			t.Fatal(err)
		}
		if a := daysOf(t, &r.Strategy, 0); a != weekdays(2) {
			t.Errorf("%v: zone a runs on %+v, only Tuesday is allowed", kind, a)
		}
		if o := r.Outcome.Zones[1]; daysOf(t, &r.Strategy, 1) == weekdays(2) || o.Every < 2 || o.Every > 5 || o.Outside {
			t.Errorf("%v: zone b, which is exempt, runs every %g days", kind, o.Every)
		}
		if r.Outcome.Breaches > 0 {
			t.Errorf("%v: %d forbidden runs", kind, r.Outcome.Breaches)
		}
	}
}

// TestDeepAndRare: a zone whose plants want 7 to 30 days between waterings gets no
// shorter interval if one of these meets the goal; otherwise it does, and that is told.
func TestDeepAndRare(t *testing.T) {
	for _, c := range []struct {
		tawMM   float64
		outside bool
	}{{150, false}, {15, true}} {
		job := twoZones()
		job.Zones[1].TAWMM = c.tawMM
		for kind := range tune.Kinds {
			r, err := tune.Tune(context.Background(), &job, kind, tune.Goal{StressDays: 6, BrowningDays: 366, RunoffEvents: 400},
				tune.Options{Intervals: []tune.Interval{{Shortest: 1, Longest: 7}, {Shortest: 7, Longest: 30}}})
			if err != nil {
				t.Fatal(err)
			}
			if o := r.Outcome.Zones[1]; o.Outside != c.outside || (o.Every < 7) != c.outside || !o.Watered() {
				t.Errorf("%v, %g mm of available water: every %g days, outside %v, met %v", kind, c.tawMM, o.Every, o.Outside, r.Outcome.Met)
			}
		}
	}
}

// TestBestSoFar: a search that is interrupted gives what it has found, as it
// would replay; one that is interrupted before it knows anything gives an error.
func TestBestSoFar(t *testing.T) {
	ever := false
	for kind := range tune.Kinds {
		job := twoZones()
		whole := search(t, &job, kind, tinySpace())
		stopped := 0
		for _, share := range []int{1, 30, 60, 95} {
			ctx, cancel := context.WithCancel(context.Background())
			r, err := tune.Tune(ctx, &job, kind, goal, tune.Options{Space: tinySpace(), Progress: func(n int) {
				if n >= whole.Tried*share/100 {
					cancel()
				}
			}})
			cancel()
			if err != nil {
				if !errors.Is(err, context.Canceled) || r != nil {
					t.Fatalf("%v after %d%%: %v", kind, share, err)
				}
				continue
			}
			if !r.Stopped { // it had tried everything by then
				if r.Outcome.M3PerYear != whole.Outcome.M3PerYear || r.Outcome.Met != whole.Outcome.Met {
					t.Errorf("%v after %d%%: not marked as interrupted, but not what the whole search finds", kind, share)
				}
				continue
			}
			stopped++
			for z, o := range measureAll(t, job, []strategy.Strategy{r.Strategy})[0] {
				if zone := r.Outcome.Zones[z]; o.stress != zone.StressDays || !zone.Watered() {
					t.Errorf("%v after %d%%, zone %d: reported %+v, replayed %+v", kind, share, z, zone, o)
				}
			}
			if r.Outcome.Met && r.Outcome.M3PerYear < whole.Outcome.M3PerYear-1e-6 {
				t.Errorf("%v after %d%%: better than the whole search", kind, share)
			}
		}
		ever = ever || stopped > 0
	}
	if !ever {
		t.Error("no search gave what it had found")
	}
}
