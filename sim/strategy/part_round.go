package strategy

import "loamledger/weather/quantity"

func roundKind() Kind {
	return Spec[Round]{
		Key:       "round",
		Doc:       "rounds every run time to what a controller accepts; the default is no rounding",
		Example:   "round: 1 min",
		Params:    (*Round).params,
		Sheet:     onController[Round],
		Copy:      Kept[Round],
		Lines:     (*Round).lines,
		Plain:     noMention[Round],
		YAML:      FromParams,
		Conflicts: noConflicts[Round],
		Warnings:  noWarnings[Round],
		Record:    nothingOfRecord[Round],
	}.Kind()
}

func (p *Round) params() []Param {
	return []Param{
		{Field: AsQuantity(&p.StepMin, quantity.Duration), Required: true, Min: 1.0 / 60, Max: 60, Doc: "rounding step"},
	}
}

// Round rounds each run time to a multiple of StepMin, ties upward.
type Round struct{ StepMin float64 }

// Kind returns the kind of the part.
func (Round) Kind() Kind { return roundKind() }

// Stage returns [Scale].
func (Round) Stage() Stage { return Scale }

// Apply sets the draft's rounding.
func (r Round) Apply(d *Draft) { d.roundMin = r.StepMin }

func (p *Round) lines([]string, quantity.System) []string {
	return []string{"Run times after the percentage are rounded to " + plainNumber(p.StepMin) + " min"}
}
