// Package evaluate judges a program of measures for many accounts: from the rows that
// their replay left and from costs to the distribution of savings, targets, tests, the
// rule, tables, charts and one page for a manager.
//
// Every result is an estimate made before any change (ex-ante): the difference of two
// replays. If the run times as found were drawn for some accounts, every output says so.
package evaluate

import (
	"loamledger/plots"
	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// Version is the version of the costs file that this package understands.
const Version = 1

// A Plan is how to evaluate: the costs, and the limits of what is printed.
type Plan struct {
	program.Costs
	File      string
	Units     plots.Units
	Threshold float64 // change of an account's use that counts, as a share of it; 0 to below 1
	Smallest  int     // fewest accounts of which anything is printed; from 3
	Seed      uint64
	Bills     portfolio.Bills // by which accounts are ranked; none if not Asked
	Defaults  []plots.Default // what the file does not state
	Places    map[string]diag.Pos
	// CurrencyPos and TargetsPos are where the file has them; HasBillError is set if it states the error of simulated bills.
	CurrencyPos, TargetsPos diag.Pos
	HasBillError            bool
}

// The defaults of a costs file, with their sources. Decay and net-to-gross are wide on
// purpose.
const (
	DefaultThreshold = 0.05
	DefaultSmallest  = 10
	LeastSmallest    = 3
	DefaultSeed      = 1
)

// A KnobDefault is what a knob is without a value in the file.
type KnobDefault struct {
	Value  program.Value
	Text   string // as the file would write it
	Source string
	Grade  quantity.Grade
}

// KnobDefaults returns the knobs that may be left out of a costs file.
func KnobDefaults() map[program.Knob]KnobDefault {
	return map[program.Knob]KnobDefault{
		program.Saving: {program.Sure(1), "100%", "assumption: accounts save what the replay says", quantity.Guess},
		program.NetToGross: {program.Value{Low: 0.4, Mid: 0.7, High: 1.1}, "40% to 110%, 70% in the middle",
			"our choice: wide, since in a water rebate program with a matched comparison group only 37% of the reduction was " +
				"attributable to the rebate (Bennear, Lee and Taylor 2013; toilets, not irrigation)", quantity.Guess},
		program.Decay: {program.Value{Low: 0, Mid: 0.05, High: 0.15}, "0% to 15%, 5% in the middle",
			"our choice: studies found savings that last two years and savings that fade", quantity.Guess},
		program.Life:    {program.Sure(10), "10 years", "from memory: customary planning life of controllers", quantity.Memory},
		program.Avoided: {program.Sure(1), "100%", "assumption: the avoided cost is as stated", quantity.Guess},
	}
}
