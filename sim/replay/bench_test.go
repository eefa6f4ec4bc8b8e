package replay

import (
	"context"
	"fmt"
	"testing"

	"loamledger/sim/strategy"
)

// BenchmarkRun replays 30 years on eight different zones under six different
// strategies, the two references besides, everything but reading included.
func BenchmarkRun(b *testing.B) {
	for _, strips := range []int{1, 8} {
		six := inventStrategies(8)
		for _, set := range []struct {
			name string
			list []strategy.Strategy
		}{{"six", six}, {"open-loop", six[:4]}, {"refill", six[4:5]}} {
			for _, workers := range []int{1, 2} {
				b.Run(fmt.Sprintf("%s/strips=%d/workers=%d", set.name, strips, workers), func(b *testing.B) {
					job := &Job{Zones: inventZones(8, strips), Weather: inventWeather(1, 10957), Strategies: set.list, Workers: workers}
					var r Runner
					if _, err := r.Run(context.Background(), job, nil); err != nil { // grows memory once
						b.Fatal(err)
					}
					b.ReportAllocs()
					for b.Loop() {
						if _, err := r.Run(context.Background(), job, nil); err != nil {
							b.Fatal(err)
						}
					}
					zoneDays := float64(b.N) * float64(job.Weather.Days()*len(job.Zones)*(len(set.list)+2))
					b.ReportMetric(zoneDays/b.Elapsed().Seconds(), "zone-days/s")
					b.ReportMetric(float64(b.Elapsed().Nanoseconds())/zoneDays, "ns/zone-day")
				})
			}
		}
	}
}

// BenchmarkSix is the yardstick of testdata/yardstick/replay.c: six different
// strategies on eight zones of eight strips over 30 years, day records and
// doses included, the two references left out.
func BenchmarkSix(b *testing.B) {
	job := &Job{Zones: inventZones(8, 8), Weather: inventWeather(1, 10957), Strategies: inventStrategies(8)}
	var r Runner
	run := func() {
		r.stage.prepare(job)
		r.prepareTable(job)
		if len(r.workers) == 0 {
			r.workers = make([]worker, 1)
		}
		w := &r.workers[0]
		w.prepare(&r.stage, nil)
		for s := range job.Strategies {
			if err := w.strategy(s, &r.table); err != nil {
				b.Fatal(err)
			}
		}
	}
	run() // grows memory once
	b.ReportAllocs()
	for b.Loop() {
		run()
	}
	zoneDays := float64(b.N) * float64(job.Weather.Days()*len(job.Zones)*len(job.Strategies))
	b.ReportMetric(zoneDays/b.Elapsed().Seconds(), "zone-days/s")
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/zoneDays, "ns/zone-day")
}
