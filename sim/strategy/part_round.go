package strategy

import "loamledger/weather/quantity"

func roundKind() Kind {
	return Kind{
		Key:     "round",
		Doc:     "rounds the minutes of every run to what a controller takes; without it they are not rounded",
		Example: "round: 1 min",
		Params:  []Param{{Type: Quantity, Dim: quantity.Duration, Required: true, Min: 1.0 / 60, Max: 60, Doc: "step of the minutes"}},
		Make:    func(a Args) Part { return Round{a[""].Number} },
	}
}

// Round rounds the minutes of each run to a multiple of StepMin.
type Round struct{ StepMin float64 }

// Stage returns [Scale].
func (Round) Stage() Stage { return Scale }

// Apply sets the draft's rounding.
func (r Round) Apply(d *Draft) { d.RoundMin = r.StepMin }
