package tune_test

import (
	"context"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/tune"
)

// BenchmarkTune searches each kind over five zones and twelve years.
func BenchmarkTune(b *testing.B) {
	job := replay.Job{Weather: invented(2001, 2013, 1), Workers: 2}
	for i, name := range []string{"a", "b", "c", "d", "e"} {
		job.Zones = append(job.Zones, zone(name, 25+15*float64(i), 0.9-0.12*float64(i)))
	}
	for i := range job.Zones {
		job.Zones[i].Strips, job.Zones[i].Rain = 8, sim.Rain{CN: 70}
	}
	for kind := range tune.Kinds {
		b.Run(kind.String(), func(b *testing.B) {
			tried := 0
			for b.Loop() {
				r, err := tune.Tune(context.Background(), &job, kind, tune.Goal{StressDays: 10}, tune.Options{Margin: 0.1})
				if err != nil {
					b.Fatal(err)
				}
				tried += r.Tried
			}
			b.ReportMetric(float64(tried)/b.Elapsed().Seconds(), "zone-replays/s")
		})
	}
}
