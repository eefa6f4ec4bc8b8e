package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func windHoldKind() Kind {
	return Spec[WindHold]{
		Key:       "hold.wind",
		Doc:       "holds watering the day after a mean wind at 2 m above a threshold",
		Example:   "hold: {wind: {above: 11 mph}}",
		Params:    (*WindHold).params,
		Sheet:     onController[WindHold],
		Copy:      Kept[WindHold],
		Lines:     (*WindHold).lines,
		Plain:     (*WindHold).plain,
		YAML:      FromParams,
		Conflicts: noConflicts[WindHold],
		Warnings:  noWarnings[WindHold],
		Record:    (*WindHold).record,
	}.Kind()
}

func (p *WindHold) params() []Param {
	return []Param{
		{Key: "above", Field: AsQuantity(&p.AboveMS, quantity.Speed), Required: true, Min: 0.5, Max: 40,
			Doc: "yesterday's mean wind at 2 m that holds watering today"},
	}
}

// WindHold holds watering if yesterday's mean wind was above AboveMS. In a record
// without wind it never does.
type WindHold struct{ AboveMS float64 }

// Kind returns the kind of the part.
func (WindHold) Kind() Kind { return windHoldKind() }

// Stage returns [Permit].
func (WindHold) Stage() Stage { return Permit }

// Apply marks the days on hold.
func (w WindHold) Apply(d *Draft) {
	wind := d.Site.Weather.WindMS
	if wind == nil {
		return
	}
	for i := 1; i < len(d.Block); i++ {
		if above(wind[d.Site.Source(i-1)], w.AboveMS) {
			d.hold(i, sim.WindHold)
		}
	}
}

func (p *WindHold) lines(_ []string, sys quantity.System) []string {
	return []string{"Wind hold: mean wind of yesterday above " + quantity.Format(p.AboveMS, quantity.Speed, sys)}
}

// record reports a record without wind.
func (p *WindHold) record(site *Site) string {
	if site.Weather.WindMS == nil {
		return "the record has no wind, so the wind hold never acts"
	}
	return ""
}

func (p *WindHold) plain() Plain { return Plain{Text: "off after wind", needs: WindSensor} }
