package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func windSkipKind() Kind {
	return Kind{
		Key:     "skip.wind",
		Doc:     "holds watering back on the day after one whose mean wind at 2 m was above a threshold",
		Example: "skip: {wind: {above: 5 m/s}}",
		Params: []Param{
			{Key: "above", Type: Quantity, Dim: quantity.Speed, Required: true, Min: 0.5, Max: 40, Doc: "mean wind of yesterday at 2 m that holds watering back today"},
		},
		Make: func(a Args) Part { return WindSkip{a["above"].Number} },
	}
}

// WindSkip holds watering back when yesterday's mean wind was above AboveMS.
// Where the record has no wind it never does.
type WindSkip struct{ AboveMS float64 }

// Stage returns [Permit].
func (WindSkip) Stage() Stage { return Permit }

// Apply writes the days held back.
func (w WindSkip) Apply(d *Draft) {
	wind := d.Site.Weather.WindMS
	if wind == nil {
		return
	}
	for i := 1; i < len(d.Block); i++ {
		if wind[d.Site.Source(i-1)] > w.AboveMS {
			d.hold(i, sim.WindSkip)
		}
	}
}
