package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func freezeSkipKind() Kind {
	return Spec[FreezeSkip]{
		Key:       "skip.freeze",
		Doc:       "holds watering back on the day after one whose lowest temperature was below a threshold",
		Example:   "skip: {freeze: {below: 37 F}}",
		Params:    (*FreezeSkip).params,
		Sheet:     OnController[FreezeSkip],
		Copy:      Kept[FreezeSkip],
		Lines:     (*FreezeSkip).lines,
		YAML:      FromParams,
		Conflicts: NoConflicts[FreezeSkip],
		Warnings:  NoWarnings[FreezeSkip],
		Record:    NothingOfRecord[FreezeSkip],
	}.Kind()
}

func (p *FreezeSkip) params() []Param {
	return []Param{
		{Key: "below", Field: AsQuantity(&p.BelowC, quantity.Temperature), Required: true, Min: -20, Max: 20,
			Doc: "lowest temperature of yesterday that holds watering back today"},
	}
}

// FreezeSkip holds watering back when yesterday's lowest temperature was below
// BelowC. Tonight's temperature is not known when the decision is taken.
type FreezeSkip struct{ BelowC float64 }

// Kind returns the kind of the part.
func (FreezeSkip) Kind() Kind { return freezeSkipKind() }

// Stage returns [Permit].
func (FreezeSkip) Stage() Stage { return Permit }

// Apply writes the days held back.
func (f FreezeSkip) Apply(d *Draft) {
	tmin := d.Site.Weather.TminC
	for i := 1; i < len(d.Block); i++ {
		if tmin[d.Site.Source(i-1)] < f.BelowC {
			d.hold(i, sim.FreezeSkip)
		}
	}
}

func (p *FreezeSkip) lines(_ []string, sys quantity.System) []string {
	return []string{"Freeze shut-off: below " + quantity.Format(p.BelowC, quantity.Temperature, sys)}
}
