package strategy

import (
	"fmt"
	"math/rand/v2"

	"loamledger/sim"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func rainHoldKind() Kind {
	return Spec[RainHold]{
		Key:       "hold.rain",
		Doc:       "holds watering back after a day of rain, for a number of days",
		Example:   "hold: {rain: {at_least: 0.25 in, dry_out: 2 days}}",
		Params:    (*RainHold).params,
		Sheet:     OnController[RainHold],
		Copy:      Kept[RainHold],
		Lines:     (*RainHold).lines,
		YAML:      FromParams,
		Conflicts: (*RainHold).conflicts,
		Warnings:  NoWarnings[RainHold],
		Record:    NothingOfRecord[RainHold],
	}.Kind()
}

func (p *RainHold) params() []Param {
	return []Param{
		{Key: "at_least", Field: AsQuantity(&p.AtLeastMM, quantity.Depth), Required: true, Min: 0, Max: 100,
			Doc: "rain of a day that trips the sensor"},
		{Key: "dry_out", Field: AsQuantity(&p.DryOut, quantity.Days), Default: 1, Min: 1, Max: 30,
			Doc: "days held back, the day after the rain being the first", Source: "assumption of this program", Grade: quantity.Guess},
		{Key: "dry_out_eto", Field: AsQuantity(&p.DryOutEToMM, quantity.Depth), Default: 0, Min: 0, Max: 100, Word: "by days",
			Doc: "ETo after which the sensor has dried, instead of days", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "miss_rate", Field: AsQuantity(&p.MissRate, quantity.Fraction), Default: 0, Min: 0, Max: 1,
			Doc:    "share of the rains that the sensor misses",
			Source: "assumption of this program: a working sensor; of 157 homes asked, 47 % had one and 54 % of those were said to work (Haley and Dukes)", Grade: quantity.Guess},
		{Key: "bypass", Field: AsFlag(&p.Bypass), Default: 0,
			Doc: "true switches the sensor out", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "seed", Field: AsNumber(&p.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "seed of the misses", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
	}
}

// RainHold is a rain shut-off. It is tripped by a day with rain of at least
// AboveMM and holds watering back on the DryOut days that follow, or, where
// DryOutEToMM is above 0, until the ETo since that day has reached it. Today's
// rain, which falls after the decision, does not count today.
type RainHold struct {
	AtLeastMM   float64
	DryOut      int     // [d]
	DryOutEToMM float64 // [mm]; 0 for by days
	MissRate    float64 // share of the rains it misses, 0 to 1
	Bypass      bool
	Seed        uint64
}

// Kind returns the kind of the part.
func (RainHold) Kind() Kind { return rainHoldKind() }

// Stage returns [Permit].
func (RainHold) Stage() Stage { return Permit }

// Apply writes the days held back.
func (s RainHold) Apply(d *Draft) {
	if s.Bypass {
		return
	}
	w := d.Site.Weather
	var r *rand.Rand // nil for a sensor that never fails
	if s.MissRate > 0 {
		r = rand.New(rand.NewPCG(s.Seed, 0x7261696e))
	}
	days, wetMM := 0, 0.0 // what is left of the dry-out
	for i := range d.Block {
		k := d.Site.Source(i)
		if days > 0 || wetMM > 0 {
			d.hold(i, sim.RainHold)
		}
		days, wetMM = max(days-1, 0), wetMM-w.EToMM[k]
		if wetMM < 0 || sim.Closed(wetMM) { // not wet for another day by a rounding
			wetMM = 0
		}
		if got := w.RainMM[k]; got > 0 && got >= s.AtLeastMM && (r == nil || r.Float64() >= s.MissRate) {
			if s.DryOutEToMM > 0 {
				wetMM = s.DryOutEToMM
			} else {
				days = s.DryOut
			}
		}
	}
}

func (p *RainHold) lines(_ []string, sys quantity.System) []string {
	depth := func(mm float64) string { return quantity.Format(mm, quantity.Depth, sys) }
	switch {
	case p.Bypass:
		return []string{"Rain shut-off: switched out"}
	case p.DryOutEToMM > 0:
		return []string{fmt.Sprintf("Rain shut-off: set point %s, until %s of reference ET has dried it", depth(p.AtLeastMM), depth(p.DryOutEToMM))}
	}
	return []string{fmt.Sprintf("Rain shut-off: set point %s, watering held back for %s after", depth(p.AtLeastMM), dayCount(p.DryOut))}
}

func (p *RainHold) conflicts(given Given) Conflicts {
	return contradiction(given(&p.DryOut) && p.DryOutEToMM > 0, diag.Conflict,
		"keep dry_out, days, or dry_out_eto, a depth", "skip: rain: the sensor cannot dry both by days and by ETo")
}
