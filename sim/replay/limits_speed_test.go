package replay_test

import (
	"context"
	"fmt"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
)

// manyZones makes n uneven zones and strategies for them: fixed with cycles,
// by month, by ETo, by a balance.
func manyZones(n int) (zones []sim.Zone, list []strategy.Strategy) {
	minutes, all := make([]float64, n), make([]bool, n)
	for z := range n {
		zone := plainZone(fmt.Sprintf("zone %d", z))
		zone.TAWMM, zone.PRMMH, zone.DULQ, zone.Strips, zone.PConstant, zone.IntakeMMH = 20+float64(z), 12+float64(z), 0.6, 8, false, 8
		zones = append(zones, zone)
		minutes[z], all[z] = 20, true
	}
	fixed := strategy.Programs{List: []strategy.Program{{Name: "p", Starts: []int{1200}, Minutes: minutes, Cycle: 8, Soak: 30}}}
	return zones, []strategy.Strategy{
		{Name: "fixed", Parts: []strategy.Part{fixed}},
		{Name: "monthly", Parts: []strategy.Part{fixed, strategy.Monthly{Share: [12]float64{0, 0, .4, .6, .8, 1, 1, .95, .75, .5, .25, 0}}}},
		{Name: "ETo", Parts: []strategy.Part{fixed, strategy.ETPercent{DesignEToMM: 6, Days: 7, SubtractRain: true, Max: 1.5}}},
		{Name: "refill", Parts: []strategy.Part{&strategy.Refill{Zones: all, MAD: 0.5, Extra: -1, CycleMin: 8, SoakMin: 30}}},
	}
}

// BenchmarkLimits replays 40 zones for 30 years under limits.
func BenchmarkLimits(b *testing.B) {
	zones, list := manyZones(40)
	for _, st := range list {
		b.Run(st.Name, func(b *testing.B) {
			job := &replay.Job{Zones: zones, Weather: invented(30 * 365), Strategies: []strategy.Strategy{st},
				Limits: &strategy.Limits{Always: strategy.Rule{Name: "local rules", Days: strategy.DayRule{Kind: strategy.OddDays},
					Windows: []clock.Window{{FromMin: 1200, ToMin: 600}}}}}
			var r replay.Runner
			b.ReportAllocs()
			for b.Loop() {
				if _, err := r.Run(context.Background(), job, nil); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(40*30*365), "ns/zone-day")
		})
	}
}
