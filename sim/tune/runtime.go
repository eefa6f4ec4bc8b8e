package tune

import "loamledger/sim"

// A RunTime compares the run time of a zone in its peak month with the trade's
// rule:
//
//	minutes = 60 · need / PR · RTM,  RTM = 1/(0.4 + 0.6 DU_LQ)
//
// The rule is common practice, from memory; see [sim.RunTimeMultiplier]. Its need
// is the unstressed plant water use between two waterings. The shares say why the
// two differ. They are of that use, and
//
//	minutes · PR/60 = need · (1 − Rain − Soil − Short + Lost)
//
// holds exactly, where the rule has need · RTM.
type RunTime struct {
	Month      int     // 1 to 12: highest mean plant water use; 0 if there is none
	Days       float64 // mean interval between days of watering in that month [d]; 0 if there are none
	Minutes    float64 // mean on a day of watering [min]
	Rule       float64 // by the rule [min]
	Multiplier float64 // RTM
	Rain       float64 // met by rain that stayed in the root zone
	Soil       float64 // drawn from water stored before the month; below 0 if storage rose
	Short      float64 // not met
	Lost       float64 // irrigation lost: in the air, past the zone, as runoff, below the roots
}

// runTime returns the comparison for zone z, over the years that count.
func (s *search) runTime(z int, months []sim.Sums) RunTime {
	var sums [12]sim.Sums
	for i, use := range s.use {
		if use {
			sums[s.spanMonth[i]-1].Add(&months[i])
		}
	}
	peak := -1
	for m := range sums {
		if sums[m].Days > 0 && (peak < 0 || sums[m].ETcMM/float64(sums[m].Days) > sums[peak].ETcMM/float64(sums[peak].Days)) {
			peak = m
		}
	}
	zone := &s.zones[z]
	r := RunTime{Multiplier: zone.RunTimeMultiplier()}
	if peak < 0 || sums[peak].ETcMM == 0 {
		return r
	}
	sum := &sums[peak]
	r.Month = peak + 1
	if sum.WateringDays == 0 {
		return r
	}
	n := float64(sum.WateringDays)
	r.Days, r.Minutes = float64(sum.Days)/n, sum.Minutes/n
	r.Rule = 60 * sum.ETcMM / n / zone.PRMMH * r.Multiplier
	r.Rain = (sum.RainMM - sum.RainRunoffMM - sum.RainEvapMM - sum.PercRainMM) / sum.ETcMM
	r.Soil = -sum.StorageMM / sum.ETcMM
	r.Short = 1 - sum.ETaMM/sum.ETcMM
	r.Lost = (sum.LossesMM() + sum.IrrRunoffMM + sum.PercIrrMM) / sum.ETcMM
	return r
}
