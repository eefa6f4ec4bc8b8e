package strategy

import (
	"loamledger/sim"
	"loamledger/weather/quantity"
)

func frostHoldKind() Kind {
	return Spec[FrostHold]{
		Key:       "hold.frost",
		Doc:       "holds watering the day after a minimum temperature below a threshold",
		Example:   "hold: {frost: {below: 37 F}}",
		Params:    (*FrostHold).params,
		Sheet:     onController[FrostHold],
		Copy:      Kept[FrostHold],
		Lines:     (*FrostHold).lines,
		Plain:     (*FrostHold).plain,
		YAML:      FromParams,
		Conflicts: noConflicts[FrostHold],
		Warnings:  (*FrostHold).warnings,
		Record:    nothingOfRecord[FrostHold],
	}.Kind()
}

func (p *FrostHold) params() []Param {
	return []Param{
		{Key: "below", Field: AsQuantity(&p.BelowC, quantity.Temperature), Required: true, Min: -20, Max: 20,
			Doc: "yesterday's minimum temperature that holds watering today"},
	}
}

// FrostHold holds watering if yesterday's minimum temperature was below BelowC.
// Tonight's temperature is unknown when the decision is made. It needs a record
// with minimum temperatures: without, it never holds.
type FrostHold struct{ BelowC float64 }

// Kind returns the kind of the part.
func (FrostHold) Kind() Kind { return frostHoldKind() }

// Stage returns [Permit].
func (FrostHold) Stage() Stage { return Permit }

// Apply marks the days on hold.
func (f FrostHold) Apply(d *Draft) {
	tmin := d.Site.Weather.TminC
	if tmin == nil {
		return
	}
	for i := 1; i < len(d.Block); i++ {
		if below(tmin[d.Site.Source(i-1)], f.BelowC) {
			d.hold(i, sim.FrostHold)
		}
	}
}

func (p *FrostHold) lines(_ []string, sys quantity.System) []string {
	return []string{"Frost hold: minimum temperature of yesterday below " + quantity.Format(p.BelowC, quantity.Temperature, sys)}
}

func (p *FrostHold) warnings([]string) Warnings {
	return Warnings{Checked: true, Tmin: "hold: {frost: ...}"}
}

func (p *FrostHold) plain() Plain { return Plain{Text: "off after frost", needs: FreezeSensor} }
