package replay_test

import (
	"context"
	"slices"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// asIs fills a world that is the job itself.
func asIs(job *replay.Job) func(int, *replay.World) error {
	return func(_ int, w *replay.World) error {
		*w = replay.World{Zones: slices.Clone(job.Zones), Strategies: job.Strategies, ETo: 1, Rain: 1}
		return nil
	}
}

// basisSums are the sums of every strategy and zone on the days of yearly figures.
func basisSums(t *tally.Table) (out []sim.Sums) {
	basis := t.Basis()
	for s := range t.Strategies {
		for z := range t.Zones {
			out = append(out, t.Sum(&basis, s, z), t.Total(s, z))
		}
	}
	return out
}

// TestTheSiteIsOneOfTheWorlds: in a world that is the job itself, the decisions of the
// job have its outcomes to the last bit, whatever its strategies change and decide.
func TestTheSiteIsOneOfTheWorlds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawChanged(t)
		for i := range s.job.Strategies {
			if rapid.Bool().Draw(t, "no changes") {
				s.job.Strategies[i].Stretches = nil
			}
		}
		want := tableOf(t, &s.job)
		err := replay.NewWorlds(&s.job, want).Run(context.Background(), 2, 1, asIs(&s.job), func(_ int, _ *replay.World, got *tally.Table) {
			a, b := basisSums(want), basisSums(got)
			for i := range a {
				if !slices.Equal(bits(a[i]), bits(b[i])) {
					t.Fatalf("sum %d: %+v, in a world %+v", i, a[i], b[i])
				}
			}
		})
		if err != nil {
			t.Fatal(err)
		}
	})
}

// TestFixedProgramsInAWorld: programs decide without zones and weather, so in any world
// they do what they do in a job with the zones and the weather of that world.
func TestFixedProgramsInAWorld(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 1, 800)
		zones := len(s.job.Zones)
		s.job.Strategies = []strategy.Strategy{{Name: "programs", Parts: []strategy.Part{
			strategy.Programs{List: []strategy.Program{drawProgram(t, "p", zones, s.job.Weather.Start)}}}}}
		world := replay.World{Zones: slices.Clone(s.job.Zones), ETo: rapid.Float64Range(0.5, 2).Draw(t, "ETo"),
			Rain: rapid.Float64Range(0, 2).Draw(t, "rain")}
		for z := range world.Zones {
			strips := world.Zones[z].Strips
			world.Zones[z] = drawZone(t, world.Zones[z].Name)
			if world.Zones[z].Strips = strips; strips == 1 {
				world.Zones[z].DULQ = 1
			}
		}
		there := s.job
		there.Zones = world.Zones
		there.Weather.EToMM, there.Weather.RainMM = nil, nil
		for i := range s.job.Weather.Days() {
			there.Weather.EToMM = append(there.Weather.EToMM, world.ETo*s.job.Weather.EToMM[i])
			there.Weather.RainMM = append(there.Weather.RainMM, world.Rain*s.job.Weather.RainMM[i])
		}
		want := tableOf(t, &there)
		err := replay.NewWorlds(&s.job, tableOf(t, &s.job)).Run(context.Background(), 1, 1, func(_ int, w *replay.World) error {
			*w = world
			return nil
		}, func(_ int, _ *replay.World, got *tally.Table) {
			for z := range zones {
				if a, b := want.Total(0, z), got.Total(0, z); !slices.Equal(bits(a), bits(b)) {
					t.Fatalf("zone %d: %+v, in the world %+v", z, a, b)
				}
			}
		})
		if err != nil {
			t.Fatal(err)
		}
	})
}

// TestWorldsOnAnyNumberOfGoroutines: every world has the same bits on one goroutine and
// on five, and when it is run again.
func TestWorldsOnAnyNumberOfGoroutines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3, 500)
		drawMore(t, s)
		const n = 7
		worlds := make([]replay.World, n)
		for i := range worlds {
			f := 0.7 + 0.1*float64(i)
			worlds[i] = replay.World{Zones: slices.Clone(s.job.Zones), ETo: f, Rain: 2 - f}
			for z := range worlds[i].Zones {
				worlds[i].Zones[z].TAWMM *= f
				worlds[i].Zones[z].PRMMH *= 2 - f
			}
		}
		all := replay.NewWorlds(&s.job, tableOf(t, &s.job))
		run := func(goroutines int) [][]sim.Sums {
			out := make([][]sim.Sums, n)
			var mu sync.Mutex
			err := all.Run(context.Background(), n, goroutines, func(i int, w *replay.World) error { *w = worlds[i]; return nil },
				func(i int, _ *replay.World, t *tally.Table) {
					mu.Lock()
					defer mu.Unlock()
					out[i] = basisSums(t)
				})
			if err != nil {
				t.Fatal(err)
			}
			return out
		}
		one := run(1)
		for _, goroutines := range []int{5, 1} {
			again := run(goroutines)
			for i := range one {
				for k := range one[i] {
					if !slices.Equal(bits(one[i][k]), bits(again[i][k])) {
						t.Fatalf("world %d, sum %d on %d goroutines: %+v and %+v", i, k, goroutines, one[i][k], again[i][k])
					}
				}
			}
		}
	})
}

// TestWorldsStop: an error from a world, and a canceled context, end the run.
func TestWorldsStop(t *testing.T) {
	job := replay.Job{Weather: invented(500), Zones: []sim.Zone{{Name: "a", AreaM2: 100, TAWMM: 30, P: 0.5, K: everyMonth(0.8), PRMMH: 20,
		DULQ: 0.6, Strips: 4, IntakeMMH: 10, Rain: sim.Rain{CN: 70}, ToleranceR7: 0.8, BrowningR7: 0.5}}}
	all := replay.NewWorlds(&job, tableOf(t, &job))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	took := func(int, *replay.World, *tally.Table) { t.Error("a table after the end") }
	if err := all.Run(ctx, 3, 2, asIs(&job), took); err != context.Canceled {
		t.Errorf("canceled: %v", err)
	}
	want := context.DeadlineExceeded
	if err := all.Run(context.Background(), 3, 2, func(int, *replay.World) error { return want }, took); err != want {
		t.Errorf("error from a world: %v", err)
	}
}
