package strategy

import (
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
			{Key: "dry_out", Type: Quantity, Dim: quantity.Days, Default: 1, Min: 1, Max: 30, Doc: "days held back, the day after the rain being the first", Source: "assumption of this program"},
		},
		Make: func(a Args) Part { return RainSkip{a["above"].Number, int(a["dry_out"].Number)} },
	}
}

// RainSkip holds watering back on the DryOut days that follow a day with rain
// of at least AboveMM. Today's rain, which falls after the decision, does not
// count today.
type RainSkip struct {
	AboveMM float64
	DryOut  int
}

// Stage returns [Permit].
func (RainSkip) Stage() Stage { return Permit }

// Apply writes the days held back.
func (r RainSkip) Apply(d *Draft) {
	rain, wet := d.Site.Weather.RainMM, 0
	for i := range d.Block {
		if wet > 0 {
			d.hold(i, sim.RainSkip)
			wet--
		}
		if got := rain[d.Site.Source(i)]; got > 0 && got >= r.AboveMM {
			wet = r.DryOut
		}
	}
}
