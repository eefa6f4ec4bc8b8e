package settings_test

import (
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

// TestFollowing by hand: ETo is 4 mm a day but 6 in July, so July is the peak and
// April has 4/6 of it. A program of 20 min on Mondays and Thursdays, entered at 80%
// in July, runs 16 min a day, 32 a week, there; if its run times are for a day with
// 5 mm, July asks for 6/5 of that, 19.2 and 38.4. The zone loses 10% of its spray,
// with a DU of 100%: 90% counts. A refill with 50% extra time for its coverage is
// as efficient as 0.9/1.5.
func TestFollowing(t *testing.T) {
	z := plain("a")
	z.LossShare, z.K[6] = 0.1, 0.9
	w := still(730)
	c := sim.NewCalendar(w.Start, w.Days())
	for i := range w.EToMM {
		if c.Month[i] == 7 {
			w.EToMM[i] = 6
		}
	}
	site := settings.NewSite([]sim.Zone{z}, w, nil, nil)
	share := [12]float64{1, 1, 1, 1, 1, 1, 0.8, 1, 1, 1, 1, 1}
	s, err := settings.Make(site, &strategy.Strategy{Parts: []strategy.Part{list(strategy.Program{Name: "p", Days: weekdays(1, 4),
		Starts: []int{300}, Minutes: []float64{20}}), strategy.Monthly{Share: share}}}, settings.Options{})
	if err != nil {
		t.Fatal(err)
	}
	near := func(what string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within {
			t.Errorf("%s is %g, by hand %g", what, got, want)
		}
	}
	f := settings.NewFollowing(site, s, 0)
	if f.PeakMonth != 7 {
		t.Errorf("the peak is month %d", f.PeakMonth)
	}
	near("ETo of the peak", f.EToMM[6], 6, 1e-9)
	near("share of April", f.Share(3), 4.0/6, 1e-9)
	near("minutes a day", f.Zones[0].MinutesPerDay, 16, 1e-9)
	near("minutes a week", f.Zones[0].MinutesPerWeek, 32, 0.1) // the record is not whole weeks
	near("K in July", f.Zones[0].K[6], 0.9, 0)
	near("allowed depletion", f.Zones[0].Depletion, 0.5, 0)
	near("rate", f.Zones[0].RateMMH, 60, 0)
	near("efficiency", f.Zones[0].Efficiency, 0.9, 1e-9)
	near("minutes for a design of 5 mm", settings.NewFollowing(site, s, 5).Zones[0].MinutesPerDay, 19.2, 1e-9)
	f.ChangeZone(0, &z, 0.35, 0.5)
	near("depletion of a refill", f.Zones[0].Depletion, 0.35, 0)
	near("efficiency of a refill", f.Zones[0].Efficiency, 0.6, 1e-9)
}
