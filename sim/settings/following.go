package settings

import (
	"math"

	"loamledger/sim"
	"loamledger/sim/strategy"
)

// A Following is what to enter on a timer that can follow the weather, in the
// quantities that such timers usually ask for. A timer asks for some of them.
type Following struct {
	PeakMonth int         // calendar month with the highest mean ETo of the record, 1 to 12
	EToMM     [12]float64 // mean ETo of each calendar month [mm/d]; NaN for a month without days
	Zones     []FollowingZone
}

// A FollowingZone has the entries of one zone.
type FollowingZone struct {
	Zone int
	// MinutesPerDay and MinutesPerWeek are the run times in the peak month, on a
	// watering day and a week [min]; 0 for a zone without water.
	MinutesPerDay, MinutesPerWeek float64
	K                             [12]float64 // plant coefficient by calendar month, January first
	AWCMMPerM                     float64     // soil's available water [mm/m]
	RootDepthM                    float64     // [m]
	Depletion                     float64     // allowed depletion, a share of the available water in the root zone
	RateMMH                       float64     // precipitation rate [mm/h]
	Efficiency                    float64     // share of the applied water that counts for the driest plants
}

// Share returns the ETo of calendar month m, 0 to 11, as a share of that of the
// peak month; NaN for a month without days.
func (f *Following) Share(m int) float64 { return f.EToMM[m] / f.EToMM[f.PeakMonth-1] }

// NewFollowing returns the months and each zone's run times of a sheet in the peak
// month, precipitation rate, coefficients, efficiency and stress fraction. designMM
// is the ETo of the day that the run times are for [mm/d], 0 for the peak month at
// the sheet's percentage. The caller adds soil and roots.
func NewFollowing(site *strategy.Site, s *Sheet, designMM float64) *Following {
	f := &Following{EToMM: strategy.MonthlyETo(site)}
	peak, month := strategy.PeakETo(site)
	f.PeakMonth = max(month, 1)
	scale := s.Percent[f.PeakMonth-1]
	if designMM > 0 {
		scale *= peak / designMM
	}
	b := maker{site: site}
	for z := range s.Zones {
		zone := &s.Zones[z]
		out := FollowingZone{Zone: z, K: zone.K, Depletion: zone.P, RateMMH: zone.PRMMH, Efficiency: 1 / zone.AppliedToNeeded()}
		for i := range s.Programs {
			p := &s.Programs[i]
			day := p.Minutes[z] * scale * float64(len(p.Starts))
			out.MinutesPerDay = max(out.MinutesPerDay, day)
			out.MinutesPerWeek += float64(day * b.perWeek(p.Days))
		}
		if math.IsInf(out.Efficiency, 0) {
			out.Efficiency = math.NaN()
		}
		f.Zones = append(f.Zones, out)
	}
	return f
}

// ChangeZone sets the allowed depletion and the efficiency of a zone to those of a
// strategy with its own water balance: mad is its trigger, extra its additional run
// time for uneven coverage, below 0 for the usual rule.
func (f *Following) ChangeZone(z int, zone *sim.Zone, mad, extra float64) {
	f.Zones[z].Depletion = mad
	if extra >= 0 {
		f.Zones[z].Efficiency *= zone.RunTimeMultiplier() / (1 + extra)
	}
}
