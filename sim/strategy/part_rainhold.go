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
		Doc:       "holds watering for a number of days after a day with rain",
		Example:   "hold: {rain: {at_least: 0.25 in, dry_out: 2 days}}",
		Params:    (*RainHold).params,
		Sheet:     onController[RainHold],
		Copy:      Kept[RainHold],
		Lines:     (*RainHold).lines,
		Plain:     (*RainHold).plain,
		YAML:      FromParams,
		Conflicts: (*RainHold).conflicts,
		Warnings:  noWarnings[RainHold],
		Record:    nothingOfRecord[RainHold],
	}.Kind()
}

func (p *RainHold) params() []Param {
	return []Param{
		{Key: "at_least", Field: AsQuantity(&p.AtLeastMM, quantity.Depth), Required: true, Min: 0, Max: 100,
			Doc: "daily rain, this or more, that trips the sensor"},
		{Key: "dry_out", Field: AsQuantity(&p.DryOut, quantity.Days), Default: 2, Min: 1, Max: 30,
			Doc: "days on hold, counting from the day after the rain", Grade: quantity.Guess,
			Source: "range 0.25 to 4 days; University of Florida: off for a couple of days or more; City of Santa Barbara: a few hours to " +
				"3 or 4 days; our choice"},
		{Key: "dry_out_eto", Field: AsQuantity(&p.DryOutEToMM, quantity.Depth), Default: 0, Min: 0, Max: 100, Word: "by days",
			Doc: "ETo that dries the sensor, instead of days", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "miss_rate", Field: AsQuantity(&p.MissRate, quantity.Fraction), Default: 0.25, Min: 0, Max: 1,
			Doc: "share of rain days that the sensor misses",
			Source: "range 3% to 73%; our choice after expanding-disk sensors over nearly five years, Florida (Meeks et al. 2012): accuracy " +
				"27% to 97%", Grade: quantity.Guess},
		{Key: "bypass", Field: asFlag(&p.Bypass), Default: 0,
			Doc: "true bypasses the sensor", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "seed", Field: asNumber(&p.Seed), Default: 1, Min: 0, Max: 1 << 53,
			Doc: "random seed for missed rain", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
	}
}

// RainHold is a rain sensor. A day with at least AtLeastMM of rain trips it. It then
// holds watering for the next DryOut days or, if DryOutEToMM is above 0, until the
// ETo since that day reaches DryOutEToMM. Today's rain falls after the decision
// and does not count today.
type RainHold struct {
	AtLeastMM   float64
	DryOut      int     // [d]
	DryOutEToMM float64 // [mm]; 0 means DryOut counts days
	MissRate    float64 // share of rain days it misses, 0 to 1
	Bypass      bool
	Seed        uint64
}

// Kind returns the kind of the part.
func (RainHold) Kind() Kind { return rainHoldKind() }

// Stage returns [Permit].
func (RainHold) Stage() Stage { return Permit }

// Apply marks the days on hold.
func (s RainHold) Apply(d *Draft) {
	if s.Bypass {
		return
	}
	w := d.Site.Weather
	var r *rand.Rand // nil for a sensor that misses nothing
	if s.MissRate > 0 {
		r = rand.New(rand.NewPCG(s.Seed, 0x7261696e))
	}
	days, wetMM := 0, 0.0 // remaining dry-out
	for i := range d.Block {
		k := d.Site.Source(i)
		if days > 0 || wetMM > 0 {
			d.hold(i, sim.RainHold)
		}
		days, wetMM = max(days-1, 0), wetMM-w.EToMM[k]
		if wetMM < 0 || sim.Closed(wetMM) { // rounding must not add a wet day
			wetMM = 0
		}
		if got := w.RainMM[k]; got > 0 && atLeast(got, s.AtLeastMM) && (r == nil || r.Float64() >= s.MissRate) {
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
		return []string{"Rain sensor: bypassed"}
	case p.DryOutEToMM > 0:
		return []string{fmt.Sprintf("Rain sensor: %s or more in a day holds watering until %s of reference ET has dried it", depth(p.AtLeastMM),
			depth(p.DryOutEToMM))}
	}
	return []string{fmt.Sprintf("Rain sensor: %s or more in a day holds watering for %s after the rain", depth(p.AtLeastMM),
		dayCount(p.DryOut))}
}

func (p *RainHold) conflicts(given Given) Conflicts {
	return contradiction(given(&p.DryOut) && p.DryOutEToMM > 0, diag.Conflict,
		"keep dry_out, in days, or dry_out_eto, a depth", "hold: rain: dry_out and dry_out_eto conflict")
}

func (p *RainHold) plain() Plain {
	if p.Bypass {
		return Plain{Text: "rain sensor bypassed"}
	}
	return Plain{Text: "off after rain", needs: RainSensor}
}
