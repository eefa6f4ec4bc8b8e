package replay_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestOwnBalanceGoesOnOverChanges follows the own balance of a refill with a pocket
// calculator. The zone has TAW 100 mm and starts at 50, which is the trigger: the first
// morning refills all 50 mm. With ETo 4 mm and K 1 the balance is then 4 mm drier each
// day, so 20 mm on the morning of the sixth, on which the zone changes. The balance does
// not begin anew: soil that holds 20 mm more lacks 20 mm more, roots of half the depth
// leave half behind, and sprinklers and uniformity change nothing.
func TestOwnBalanceGoesOnOverChanges(t *testing.T) {
	for _, test := range []struct {
		name    string
		change  func(z *sim.Zone, s *strategy.Stretch)
		assumed strategy.Assumed
		want    float64 // on the morning of the change
	}{
		{"amended soil", func(z *sim.Zone, _ *strategy.Stretch) { z.TAWMM = 120 }, strategy.Assumed{}, 40},
		{"shorter roots", func(z *sim.Zone, s *strategy.Stretch) { z.TAWMM, s.Roots = 50, []float64{0.5} }, strategy.Assumed{}, 10},
		{"deeper roots", func(z *sim.Zone, s *strategy.Stretch) { z.TAWMM, s.Roots = 200, []float64{2} }, strategy.Assumed{}, 20},
		{"rate and uniformity", func(z *sim.Zone, _ *strategy.Stretch) { z.PRMMH, z.Strips, z.DULQ = 30, 8, 0.5 }, strategy.Assumed{}, 20},
		// Storage is assumed double: 200 mm, start and trigger at 100; amended, 240.
		{"amended soil, assumed double", func(z *sim.Zone, _ *strategy.Stretch) { z.TAWMM = 120 }, strategy.Assumed{Storage: 2}, 60},
	} {
		for _, limits := range []*strategy.Limits{nil, {Always: strategy.Rule{MaxMinutes: 1000}}} {
			job := changing(test.change)
			job.Limits = limits
			job.Strategies[0].Parts = []strategy.Part{&strategy.Refill{Zones: []bool{true}, MAD: 0.5, Assumed: test.assumed}}
			m, ok := replay.At(&job, 0, 0, job.Weather.Start+5)
			if !ok || m.Seen.Refill == nil {
				t.Fatalf("%s: nothing is seen", test.name)
			}
			if got := m.Seen.Refill.DepletionMM; !near(got, test.want) {
				t.Errorf("%s, limits %v: own depletion %g mm on the morning of the change, by hand %g", test.name, limits != nil, got, test.want)
			}
		}
	}
}

// TestOwnBalanceWatersOnceByHand: soil is amended from 100 to 120 mm on the sixth day,
// when the balance is at 40. RAW is then 48 and the trigger 60. The mornings that follow
// are at 44, 48, 52, then with Ks = (120 − Dr)/72 at 52 + 4·68/72 = 55.78, 59.35 and 62.65,
// which is past the trigger, on the twelfth. A balance that began anew would have been
// refilled on the first morning and be at 20.
func TestOwnBalanceWatersOnceByHand(t *testing.T) {
	job := changing(func(z *sim.Zone, _ *strategy.Stretch) { z.TAWMM = 120 })
	job.Weather = still(cal.Of(2003, 6, 1), 14, 4)
	job.Strategies[0].Parts = []strategy.Part{&strategy.Refill{Zones: []bool{true}, MAD: 0.5}}
	_, rows := rowsOf(t, &job)
	var given []int
	for i, r := range rows[0][0] {
		if r.GrossMM > 0 {
			given = append(given, i)
		}
	}
	if !slices.Equal(given, []int{0, 11}) {
		t.Errorf("watered on days %v, by hand 0 and 11", given)
	}
}

// TestSiteSensorReadsTheSoilOverChanges: an exact sensor in one zone, which controls
// another, reads the depletion that the ledger has for its zone, however the zones
// change, from the day on which it is installed.
func TestSiteSensorReadsTheSoilOverChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 1, 1, 200)
		other := drawZone(t, "b")
		s.job.Zones = append(slices.Clone(s.job.Zones), other)
		program := strategy.Program{Name: "daily", Starts: []int{300}, Minutes: []float64{10, 10}}
		st := &strategy.Strategy{Name: "sensor", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program}},
			strategy.Sensor{PermitAt: 0.4, Zones: []bool{rapid.Bool().Draw(t, "its own zone"), true}, ReadZone: 1, Placement: "average"}}}
		s.job.Limits = nil
		if rapid.Bool().Draw(t, "limits") {
			s.job.Limits = &strategy.Limits{Always: strategy.Rule{MaxMinutes: 15, Windows: []clock.Window{{FromMin: 0, ToMin: 600}}}}
		}
		st.Stretches = drawStretches(t, &s.job)
		absent := rapid.IntRange(0, len(st.Stretches)-1).Draw(t, "stretches without the sensor")
		for k := range absent {
			st.Stretches[k].Without = []bool{false, true}
		}
		s.job.Strategies = []strategy.Strategy{*st}
		_, rows := rowsOf(t, &s.job)
		first := 1
		if absent > 0 {
			first = max(int(st.Stretches[absent].From-s.job.Weather.Start), 1)
		}
		if first >= s.job.Weather.Days() {
			return
		}
		i := rapid.IntRange(first, s.job.Weather.Days()-1).Draw(t, "day")
		m, ok := replay.At(&s.job, 0, 1, s.job.Weather.Start+cal.Date(i))
		if !ok || len(m.Readings) != 1 {
			t.Fatalf("%d readings on day %d", len(m.Readings), i)
		}
		if want := rows[0][0][i-1].DepletionMM + rows[0][0][i].SoilChangeMM; !near(m.Readings[0].ReadingMM, want) {
			t.Fatalf("day %d: the sensor reads %g mm, the soil has %g", i, m.Readings[0].ReadingMM, want)
		}
	})
}
