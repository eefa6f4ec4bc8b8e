package strategy

import (
	"math/rand/v2"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

func rainSkipKind() Kind {
	return Kind{
		Key:     "skip.rain",
		Doc:     "holds watering back after a day of rain, for a number of days",
		Example: "skip: {rain: {above: 0.25 in, dry_out: 2 days}}",
		Params: []Param{
			{Key: "above", Type: Quantity, Dim: quantity.Depth, Required: true, Min: 0, Max: 100, Doc: "rain of a day that trips the sensor"},
			{Key: "dry_out", Type: Quantity, Dim: quantity.Days, Default: 1, Min: 1, Max: 30, Doc: "days held back, the day after the rain being the first", Source: "assumption of this program", Grade: quantity.Guess},
			{Key: "dry_out_eto", Type: Quantity, Dim: quantity.Depth, Default: 0, Min: 0, Max: 100, Word: "by days", Doc: "ETo after which the sensor has dried, instead of days", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
			{Key: "fails", Type: Quantity, Dim: quantity.Fraction, Default: 0, Min: 0, Max: 1, Doc: "share of the rains that the sensor misses", Source: "assumption of this program: a working sensor; of 157 homes asked, 47 % had one and 54 % of those were said to work (Haley and Dukes)", Grade: quantity.Guess},
			{Key: "bypass", Type: Flag, Default: 0, Doc: "true switches the sensor out", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
			{Key: "seed", Type: Number, Default: 1, Min: 0, Max: 1 << 53, Doc: "seed of the misses", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		},
		Make: func(a Args) Part {
			return RainSkip{AboveMM: a["above"].Number, DryOut: int(a["dry_out"].Number), DryOutEToMM: a["dry_out_eto"].Number, Fails: a["fails"].Number, Bypass: a["bypass"].Number != 0, Seed: uint64(a["seed"].Number)}
		},
	}
}

// RainSkip is a rain shut-off. It is tripped by a day with rain of at least
// AboveMM and holds watering back on the DryOut days that follow, or, where
// DryOutEToMM is above 0, until the ETo since that day has reached it. Today's
// rain, which falls after the decision, does not count today.
type RainSkip struct {
	AboveMM     float64
	DryOut      int     // [d]
	DryOutEToMM float64 // [mm]; 0 for by days
	Fails       float64 // share of the rains it misses, 0 to 1
	Bypass      bool
	Seed        uint64
}

// Stage returns [Permit].
func (RainSkip) Stage() Stage { return Permit }

// Apply writes the days held back.
func (s RainSkip) Apply(d *Draft) {
	if s.Bypass {
		return
	}
	w := d.Site.Weather
	var r *rand.Rand // nil for a sensor that never fails
	if s.Fails > 0 {
		r = rand.New(rand.NewPCG(s.Seed, 0x7261696e))
	}
	days, wetMM := 0, 0.0 // what is left of the dry-out
	for i := range d.Block {
		k := d.Site.Source(i)
		if days > 0 || wetMM > 0 {
			d.hold(i, sim.RainSkip)
		}
		days, wetMM = max(days-1, 0), wetMM-w.EToMM[k]
		if wetMM < 0 || sim.Closed(wetMM) { // not wet for another day by a rounding
			wetMM = 0
		}
		if got := w.RainMM[k]; got > 0 && got >= s.AboveMM && (r == nil || r.Float64() >= s.Fails) {
			if s.DryOutEToMM > 0 {
				wetMM = s.DryOutEToMM
			} else {
				days = s.DryOut
			}
		}
	}
}
