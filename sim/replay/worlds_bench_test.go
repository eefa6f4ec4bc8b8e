package replay

import (
	"context"
	"testing"

	"loamledger/sim/tally"
)

// BenchmarkWorlds replays eight strategies on eight zones of eight strips over 30 years
// in worlds that differ in every zone, two worlds a round.
func BenchmarkWorlds(b *testing.B) {
	job := &Job{Zones: inventZones(8, 8), Weather: inventWeather(1, 10957), Strategies: inventStrategies(8)}
	job.Strategies = append(job.Strategies, job.Strategies[3], job.Strategies[4])
	central, err := Run(context.Background(), job, nil)
	if err != nil {
		b.Fatal(err)
	}
	worlds := NewWorlds(job, central)
	run := func(round int) {
		err := worlds.Run(context.Background(), 2, 1, func(i int, w *World) error {
			f := 1 + 0.001*float64((2*round+i)%100)
			w.Zones, w.ETo, w.Rain = append(w.Zones[:0], job.Zones...), f, 2-f
			for z := range w.Zones {
				w.Zones[z].PRMMH *= f
				w.Zones[z].TAWMM *= 2 - f
			}
			return nil
		}, func(int, *World, *tally.Table) {})
		if err != nil {
			b.Fatal(err)
		}
	}
	run(0) // grows memory once
	b.ReportAllocs()
	round := 0
	for b.Loop() {
		round++
		run(round)
	}
	zoneDays := float64(b.N) * 2 * float64(job.Weather.Days()*len(job.Zones)*len(job.Strategies))
	b.ReportMetric(zoneDays/b.Elapsed().Seconds(), "zone-days/s")
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/zoneDays, "ns/zone-day")
}

// TestWorldsAllocateLittle: a world allocates nothing once the first has been replayed.
func TestWorldsAllocateLittle(t *testing.T) {
	job := &Job{Zones: inventZones(4, 8), Weather: inventWeather(1, 800), Strategies: inventStrategies(4)}
	central, err := Run(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	worlds := NewWorlds(job, central)
	count := func(n int) float64 {
		return testing.AllocsPerRun(5, func() {
			_ = worlds.Run(context.Background(), n, 1, func(_ int, w *World) error {
				w.Zones, w.ETo, w.Rain = append(w.Zones[:0], job.Zones...), 1, 1
				return nil
			}, func(int, *World, *tally.Table) {})
		})
	}
	few, many := count(1), count(21)
	if many != few {
		t.Errorf("1 world allocates %v times, 21 worlds %v times", few, many)
	}
}
