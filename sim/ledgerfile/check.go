package ledgerfile

import (
	"fmt"

	"loamledger/sim/replay"
)

// numberKeys names the float columns of a row, in order.
func numberKeys() [22]string {
	return [22]string{
		"minutes", "eto_mm", "k", "etc_mm", "rain_mm", "gross_mm", "spray_loss_mm", "irrigation_runoff_mm", "rain_runoff_mm", "rain_evaporated_mm",
		"percolation_irrigation_mm", "percolation_rain_mm", "eta_mm", "depletion_mm", "low_quarter_depletion_mm", "taw_mm", "raw_mm", "ks",
		"overspray_mm", "broken_mm", "fill_drain_mm", "leak_mm",
	}
}

// check returns an error for a row with a value that is no number. Zero times
// any number is 0, and 0 times anything else is NaN, so one comparison a row
// clears all of them.
func check(r *replay.Row) error {
	zero := 0*r.Minutes + 0*r.EToMM + 0*r.K + 0*r.ETcMM + 0*r.RainMM + 0*r.GrossMM + 0*r.SprayLossMM + 0*r.IrrRunoffMM + 0*r.RainRunoffMM +
		0*r.RainEvapMM + 0*r.PercIrrMM + 0*r.PercRainMM + 0*r.ETaMM + 0*r.DepletionMM + 0*r.LowQuarterMM + 0*r.TAWMM + 0*r.RAWMM + 0*r.Ks +
		0*r.OversprayMM + 0*r.BrokenMM + 0*r.FillDrainMM + 0*r.LeakMM
	if zero == 0 {
		return nil
	}
	v := [22]float64{
		r.Minutes, r.EToMM, r.K, r.ETcMM, r.RainMM, r.GrossMM, r.SprayLossMM, r.IrrRunoffMM, r.RainRunoffMM, r.RainEvapMM,
		r.PercIrrMM, r.PercRainMM, r.ETaMM, r.DepletionMM, r.LowQuarterMM, r.TAWMM, r.RAWMM, r.Ks,
		r.OversprayMM, r.BrokenMM, r.FillDrainMM, r.LeakMM,
	}
	names := numberKeys()
	for i, x := range v {
		if !finite(x) {
			return fmt.Errorf("ledger: strategy %q, zone %q, %v: %s is %g, which is no depth; nothing of this day was written", r.Strategy, r.Zone, r.Date, names[i], x)
		}
	}
	return nil
}
