package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func windSkipKind() Kind {
	return Spec[WindSkip]{
		Key:       "skip.wind",
		Doc:       "holds watering back on the day after one whose mean wind at 2 m was above a threshold",
		Example:   "skip: {wind: {above: 5 m/s}}",
		Params:    (*WindSkip).params,
		Sheet:     OnController[WindSkip],
		Copy:      Kept[WindSkip],
		Lines:     (*WindSkip).lines,
		YAML:      FromParams,
		Conflicts: NoConflicts[WindSkip],
		Warnings:  NoWarnings[WindSkip],
		Record:    (*WindSkip).record,
	}.Kind()
}

func (p *WindSkip) params() []Param {
	return []Param{
		{Key: "above", Field: AsQuantity(&p.AboveMS, quantity.Speed), Required: true, Min: 0.5, Max: 40,
			Doc: "mean wind of yesterday at 2 m that holds watering back today"},
	}
}

// WindSkip holds watering back when yesterday's mean wind was above AboveMS.
// Where the record has no wind it never does.
type WindSkip struct{ AboveMS float64 }

// Kind returns the kind of the part.
func (WindSkip) Kind() Kind { return windSkipKind() }

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

func (p *WindSkip) lines(_ []string, sys quantity.System) []string {
	return []string{"Wind shut-off: above " + quantity.Format(p.AboveMS, quantity.Speed, sys)}
}

// record tells that there is no wind to act on.
func (p *WindSkip) record(site *Site) string {
	if site.Weather.WindMS == nil {
		return "the record has no wind: the wind skip never holds back"
	}
	return ""
}
