package replay_test

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// A trial, another of the same job, and a run after them have the sums of runs of their own, to the
// last bit; and what a sink that asks for doses alone reads of a day is what any sink reads.
func TestTrialsAndWhatFollows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 4, 900)
		job := s.job
		every := make([]int, len(job.Zones))
		for z := range every {
			every[z] = z
		}
		whole := tableOf(t, &job)
		var volumes []float64
		collect := func(to *[]float64) func(*replay.Sheet) error {
			return func(sheet *replay.Sheet) error {
				for i := range sheet.Days() {
					*to = append(*to, sheet.Volume(i))
				}
				return nil
			}
		}
		if _, err := replay.Run(context.Background(), &job, collect(&volumes)); err != nil {
			t.Fatal(err)
		}
		var r replay.Runner
		check := func(why string, got *tally.Table, err error, want, k int) {
			if err != nil {
				t.Fatal(err)
			}
			sameSums(t, why, whole, want, got, k, every)
		}
		last := len(job.Strategies) - 1
		table, err := r.Trial(context.Background(), &job, job.Strategies[:1])
		check("a trial", table, err, 0, 0)
		table, err = r.Again(context.Background(), []strategy.Strategy{job.Strategies[last], job.Strategies[0]})
		check("another", table, err, last, 0)
		check("another", table, err, 0, 1)
		job.DosesOnly, job.Workers = true, rapid.IntRange(1, 3).Draw(t, "goroutines")
		var lean []float64
		table, err = r.After(context.Background(), &job, collect(&lean))
		for k := range whole.Strategies {
			check("the run after", table, err, k, k)
		}
		if !slices.Equal(volumes, lean) {
			t.Fatal("the volumes of days differ")
		}
	})
}
