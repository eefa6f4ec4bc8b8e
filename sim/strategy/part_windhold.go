package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func windHoldKind() Kind {
	return Spec[WindHold]{
		Key:       "hold.wind",
		Doc:       "holds watering back on the day after one whose mean wind at 2 m was above a threshold",
		Example:   "hold: {wind: {above: 5 m/s}}",
		Params:    (*WindHold).params,
		Sheet:     OnController[WindHold],
		Copy:      Kept[WindHold],
		Lines:     (*WindHold).lines,
		YAML:      FromParams,
		Conflicts: NoConflicts[WindHold],
		Warnings:  NoWarnings[WindHold],
		Record:    (*WindHold).record,
	}.Kind()
}

func (p *WindHold) params() []Param {
	return []Param{
		{Key: "above", Field: AsQuantity(&p.AboveMS, quantity.Speed), Required: true, Min: 0.5, Max: 40,
			Doc: "mean wind of yesterday at 2 m that holds watering back today"},
	}
}

// WindHold holds watering back when yesterday's mean wind was above AboveMS.
// Where the record has no wind it never does.
type WindHold struct{ AboveMS float64 }

// Kind returns the kind of the part.
func (WindHold) Kind() Kind { return windHoldKind() }

// Stage returns [Permit].
func (WindHold) Stage() Stage { return Permit }

// Apply writes the days held back.
func (w WindHold) Apply(d *Draft) {
	wind := d.Site.Weather.WindMS
	if wind == nil {
		return
	}
	for i := 1; i < len(d.Block); i++ {
		if wind[d.Site.Source(i-1)] > w.AboveMS {
			d.hold(i, sim.WindHold)
		}
	}
}

func (p *WindHold) lines(_ []string, sys quantity.System) []string {
	return []string{"Wind shut-off: above " + quantity.Format(p.AboveMS, quantity.Speed, sys)}
}

// record tells that there is no wind to act on.
func (p *WindHold) record(site *Site) string {
	if site.Weather.WindMS == nil {
		return "the record has no wind: the wind skip never holds back"
	}
	return ""
}
