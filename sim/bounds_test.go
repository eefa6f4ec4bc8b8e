package sim_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"loamledger/sim"
)

// Rounding never carries a daily value past what the equations allow: Ks stays in
// 0..1, ETa in 0..ETc, depletion in 0..TAW and percolation at or above 0, exactly,
// with no tolerance. Waterings that bring the root zone exactly to RAW or to full
// cause such rounding, so the plan contains them.
func TestDailyValuesStayWithinTheirBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	for range 600 {
		n := []int{1, 4, 8, 12, 20}[r.IntN(5)]
		z := &sim.Zone{TAWMM: 2 + 90*r.Float64(), Strips: n}
		shares := sim.Shares(n, 0.4+0.6*float64(r.IntN(2)))
		const days = 400
		forcing := make([]sim.Day, days)
		plan := &sim.Plan{Dose: make([]int32, days), Doses: make([]sim.Dose, 1), In: make([]float64, n)}
		dry := 0.0                   // of an even zone
		drought := 50 * (r.IntN(16)) // from this day on nothing falls
		for i := range forcing {
			p := 0.1 + 0.7*r.Float64()
			d := sim.Day{ETcMM: 9 * r.Float64(), RAWMM: p * z.TAWMM, Slope: 1 / ((1 - p) * z.TAWMM)}
			if r.IntN(5) == 0 && i < drought {
				d.RainInMM = []float64{dry, 30 * r.Float64()}[r.IntN(2)]
			}
			forcing[i] = d
			give := 0.0
			switch r.IntN(4) {
			case 0:
				give = dry
			case 1:
				give = max(dry-d.RAWMM, 0)
			}
			if give > 0 && i < drought {
				plan.Dose[i] = int32(len(plan.Doses))
				plan.Doses = append(plan.Doses, sim.Dose{GrossMM: give})
				for _, w := range shares {
					plan.In = append(plan.In, give*w)
				}
			}
			if plan.Dose[i] == 0 {
				give = 0
			}
			dry, _ = sim.Step(dry, z.TAWMM, &d, give)
		}
		var b sim.Balance
		var sums sim.Sums
		var tr sim.Trace
		b.Reset(z, 0)
		tr.Grow(days)
		b.Replay(forcing, nil, plan, 0, &sums, &tr, 0)
		etc := 0.0
		for i, d := range forcing {
			etc += d.ETcMM
			for _, v := range []struct {
				name          string
				got, low, top float64
			}{
				{"Ks", tr.Ks[i], 0, 1}, {"ETa", tr.ETaMM[i], 0, d.ETcMM}, {"depletion", tr.DepletionMM[i], 0, z.TAWMM},
				{"low-quarter depletion", tr.LowQuarterMM[i], 0, z.TAWMM},
				{"percolation of irrigation", tr.PercIrrMM[i], 0, math.MaxFloat64}, {"percolation of rain", tr.PercRainMM[i], 0, math.MaxFloat64},
			} {
				if !(v.got >= v.low && v.got <= v.top) {
					t.Fatalf("day %d of %d strips, TAW %g: %s is %.17g, past %g to %g: %+v", i, n, z.TAWMM, v.name, v.got, v.low, v.top, d)
				}
			}
		}
		if sums.SeverityDays < 0 || sums.ETaMM > etc {
			t.Fatalf("severity %g, ETa %.17g of %.17g", sums.SeverityDays, sums.ETaMM, etc)
		}
	}
}

// The same holds for a single strip calculated term by term, just past RAW or just
// past the empty root zone.
func TestStepStaysWithinItsBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 9))
	for range 200_000 {
		taw, p := 1+150*r.Float64(), 0.1+0.7*r.Float64()
		d := sim.Day{ETcMM: 12 * r.Float64(), RAWMM: p * taw, Slope: 1 / ((1 - p) * taw)}
		from := []float64{math.Nextafter(d.RAWMM, taw), math.Nextafter(taw, 2*taw), taw, taw * r.Float64()}[r.IntN(4)]
		after, f := sim.Step(from, taw, &d, 0)
		if f.Ks < 0 || f.Ks > 1 || f.ETaMM < 0 || f.ETaMM > d.ETcMM || sim.Ks(from, taw, p) > 1 {
			t.Fatalf("from %.17g of TAW %.17g: Ks %.17g, ETa %.17g of %.17g, after %.17g", from, taw, f.Ks, f.ETaMM, d.ETcMM, after)
		}
	}
}
