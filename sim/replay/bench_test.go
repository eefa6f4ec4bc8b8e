package replay

import (
	"context"
	"fmt"
	"math"
	"testing"
	"time"

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

// BenchmarkTwoWorkers takes turns at one run on one goroutine and one on two,
// and reports how many times as fast two were, best against best. It says
// nothing on a machine of one core, or one whose cores are busy.
func BenchmarkTwoWorkers(b *testing.B) {
	for _, zones := range []int{8, 50} {
		b.Run(fmt.Sprintf("zones=%d", zones), func(b *testing.B) {
			job := &Job{Zones: inventZones(zones, 8), Weather: inventWeather(1, 10957), Strategies: inventStrategies(zones)}
			var runners [2]Runner
			best := [2]time.Duration{math.MaxInt64, math.MaxInt64}
			for b.Loop() {
				for i := range runners {
					job.Workers = i + 1
					start := time.Now()
					if _, err := runners[i].Run(context.Background(), job, nil); err != nil {
						b.Fatal(err)
					}
					best[i] = min(best[i], time.Since(start))
				}
			}
			b.ReportMetric(float64(best[0])/float64(best[1]), "x-one-worker")
		})
	}
}

// BenchmarkSix is the yardstick of testdata/yardstick/replay.c: six different
// strategies on eight zones of eight strips over 30 years, day records and
// doses included, the two references left out.
func BenchmarkSix(b *testing.B) {
	run := yardstickRun(b)
	run() // grows memory once
	b.ReportAllocs()
	for b.Loop() {
		run()
	}
	zoneDays := float64(b.N) * yardstickZoneDays
	b.ReportMetric(zoneDays/b.Elapsed().Seconds(), "zone-days/s")
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/zoneDays, "ns/zone-day")
}
