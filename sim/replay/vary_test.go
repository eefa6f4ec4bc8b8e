package replay_test

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// sameSums fails unless two tables have the same sums of a strategy each, to the
// last bit, for the given zones.
func sameSums(t failer, why string, a *tally.Table, s int, b *tally.Table, k int, zones []int) {
	t.Helper()
	first := a.Spans[0].Year
	for _, z := range zones {
		if x, y := a.Total(s, z), b.Total(k, z); !slices.Equal(bits(x), bits(y)) {
			t.Fatalf("%s: strategy %d, zone %d: %+v and %+v", why, s, z, x, y)
		}
		for year := first - 1; year < first+5; year++ {
			if x, y := a.Year(s, z, year), b.Year(k, z, year); !slices.Equal(bits(x), bits(y)) {
				t.Fatalf("%s: strategy %d, zone %d, %d: %+v and %+v", why, s, z, year, x, y)
			}
		}
	}
}

// TestMovedMarksAreReplays: stress by moved marks, counted in one pass, is that of
// a replay of zones whose plants have those marks.
func TestMovedMarksAreReplays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3, 900)
		s.job.ExcludeYears = []int{s.job.Weather.Start.Year() + rapid.IntRange(0, 3).Draw(t, "year left out")}
		s.job.South = rapid.Bool().Draw(t, "south")
		job := s.job
		job.MarkShifts = []float64{-0.1, 0.3, 0.1}
		job.Brief, job.Workers = rapid.Bool().Draw(t, "brief"), rapid.IntRange(1, 3).Draw(t, "goroutines")
		table := tableOf(t, &job)
		every := make([]int, len(job.Zones))
		for z := range every {
			every[z] = z
		}
		plain := tableOf(t, &s.job)
		for k := range plain.Strategies {
			sameSums(t, "marks as given", plain, k, table.WithMarks(0), k, every)
		}
		for _, by := range job.MarkShifts {
			moved := s.job
			moved.Zones = slices.Clone(moved.Zones)
			for i := range moved.Zones {
				z := &moved.Zones[i]
				z.ToleranceR7, z.BrowningR7 = sim.MovedMark(z.ToleranceR7, by), sim.MovedMark(z.BrowningR7, by)
				if z.Overseed != nil {
					o := *z.Overseed
					o.ToleranceR7, o.BrowningR7 = sim.MovedMark(o.ToleranceR7, by), sim.MovedMark(o.BrowningR7, by)
					z.Overseed = &o
				}
			}
			want := tableOf(t, &moved)
			for k := range want.Strategies {
				sameSums(t, "moved marks", want, k, table.WithMarks(by), k, every)
			}
		}
	})
}

// TestVaryIsARun: other strategies on the stage of a job come out as in a job of
// their own, on the zones asked for, and leave a table that was kept alone.
func TestVaryIsARun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 4, 3, 700)
		drawMore(t, s)
		s.job.Workers = rapid.IntRange(1, 3).Draw(t, "goroutines")
		whole := tableOf(t, &s.job)
		n := len(s.job.Strategies)
		ran := rapid.IntRange(0, n).Draw(t, "strategies run first")
		first := s.job
		first.Strategies, first.MarkShifts = first.Strategies[:ran], []float64{0.1}
		var r replay.Runner
		if _, err := r.Run(context.Background(), &first, nil); err != nil {
			t.Fatal(err)
		}
		kept := r.Keep()
		every := make([]int, len(s.job.Zones))
		for z := range every {
			every[z] = z
		}
		for range 2 {
			var only []bool
			zones := every
			if rapid.Bool().Draw(t, "some zones") {
				only, zones = someOf(t, "zone", len(every)), nil
				for z, is := range only {
					if is {
						zones = append(zones, z)
					}
				}
			}
			list := []strategy.Strategy{}
			from := rapid.IntRange(0, n).Draw(t, "first strategy")
			list = append(list, s.job.Strategies[from:]...)
			table, err := r.Vary(context.Background(), list, only)
			if err != nil {
				t.Fatal(err)
			}
			basis, ranked := whole.Basis(), whole.RankYears()
			for k := range list {
				for _, z := range zones {
					same := func(what string, a, b sim.Sums) {
						if !slices.Equal(bits(a), bits(b)) {
							t.Fatalf("%s of strategy %d on zone %d: %+v, varied %+v", what, from+k, z, a, b)
						}
					}
					same("the record", whole.Total(from+k, z), table.Total(k, z))
					same("the basis", whole.Sum(&basis, from+k, z), table.Sum(&basis, k, z))
					if basis.Yearly() {
						same("the median year", whole.Year(from+k, z, ranked.Median), table.Year(k, z, ranked.Median))
						same("the dry year", whole.Year(from+k, z, ranked.Dry), table.Year(k, z, ranked.Dry))
					}
				}
				if !slices.Equal(whole.Breaches[from+k], table.Breaches[k]) {
					t.Fatalf("strategy %d: breaches %v and %v", from+k, whole.Breaches[from+k], table.Breaches[k])
				}
			}
		}
		for k := range ran {
			sameSums(t, "kept", whole, k, kept, k, every)
		}
	})
}
