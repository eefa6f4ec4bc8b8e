package strategy

import (
	"loamledger/sim"
)

// ReferenceZone returns zone z for the least-water reference: perfect uniformity and
// no losses.
func ReferenceZone(z sim.Zone) sim.Zone {
	z.Strips, z.DULQ = 1, 1
	z.LossShare, z.OversprayShare, z.BrokenShare, z.FillDrainMM, z.LeakMMDay = 0, 0, 0, 0, 0
	return z
}

// LeastWater plans the least-water reference for zone z, which should come from
// [ReferenceZone], and its day records: daily watering with perfect foresight, just
// enough to keep depletion from exceeding RAW after watering and rain. head is the
// day records of the spin-up pass, if they differ. startMM is the
// depletion on the first day of the plan.
//
// No other schedule keeps depletion of that zone within RAW with less water: later
// watering never makes stored rain percolate, so on every date the cumulative depth
// of any such schedule is at least this one's.
func LeastWater(z *sim.Zone, forcing, head []sim.Day, spin int, startMM float64, plan *sim.Plan) {
	plan.Reset(spin, len(forcing), 1)
	dr := startMM
	for i := range plan.Dose {
		k := i
		if i >= spin {
			k = i - spin
		}
		day := &forcing[k]
		if i < spin && i < len(head) {
			day = &head[i]
		}
		need := dr - day.RainInMM - day.RAWMM
		if z.WorkingStorage {
			need += day.ETcMM // the day's plant use is netted before the storage limits apply
		}
		// A shortage by rounding is made up later.
		if !sim.Closed(need) && need > 0 {
			plan.Doses = append(plan.Doses, sim.Dose{Minutes: 60 * need / z.PRMMH, Cycles: 1, GrossMM: need})
			plan.In = append(plan.In, need)
			plan.Dose[i], plan.Reason[i] = int32(len(plan.Doses)-1), sim.ForesightDaily
			dr -= need
		} else {
			plan.Reason[i] = sim.NotDue
		}
		if z.WorkingStorage {
			dr = min(max(dr+day.ETcMM-day.RainInMM, 0), z.TAWMM)
		} else {
			dr = step(dr, z.TAWMM, day)
		}
	}
}
