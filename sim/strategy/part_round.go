package strategy

import "loamledger/weather/quantity"

func roundKind() Kind {
	return Spec[Round]{
		Key:       "round",
		Doc:       "rounds the minutes of every run to what a controller takes; without it they are not rounded",
		Example:   "round: 1 min",
		Params:    (*Round).params,
		Sheet:     OnController[Round],
		Copy:      Kept[Round],
		Lines:     (*Round).lines,
		YAML:      FromParams,
		Conflicts: NoConflicts[Round],
		Warnings:  NoWarnings[Round],
		Record:    NothingOfRecord[Round],
	}.Kind()
}

func (p *Round) params() []Param {
	return []Param{
		{Field: AsQuantity(&p.StepMin, quantity.Duration), Required: true, Min: 1.0 / 60, Max: 60, Doc: "step of the minutes"},
	}
}

// Round rounds the minutes of each run to a multiple of StepMin.
type Round struct{ StepMin float64 }

// Kind returns the kind of the part.
func (Round) Kind() Kind { return roundKind() }

// Stage returns [Scale].
func (Round) Stage() Stage { return Scale }

// Apply sets the draft's rounding.
func (r Round) Apply(d *Draft) { d.RoundMin = r.StepMin }

func (p *Round) lines([]string, quantity.System) []string {
	return []string{"Minutes after the percentage are rounded to " + plainNumber(p.StepMin) + " min"}
}
