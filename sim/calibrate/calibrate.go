// Package calibrate fits the replay of what ran to the reads of a water meter.
//
// # Order
//
// Parameters are tuned in a fixed order, each within stated bounds: base use, flow
// scale, the schedule that really ran (months switched off, dated changes of run
// times), losses, plant coefficients. After each stage those before are fitted
// again together with it. Base use and flow scale are always tuned; what follows
// only if it earns its place by [EBIC].
//
// # Model
//
// With D days in a period and V the replayed volume through open valves on them, a
// meter reads
//
//	use = constant·D + leak of the replay + scale·(V before the first change + factor·V after it + …)
//
// The constant is base use at a meter that also serves other uses, and a leak at a
// meter that serves irrigation only: no meter separates the two.
//
// # Promises
//
// Periods of the reporting period and periods held out decide nothing. The same job
// gives the same result: random draws come from the seed. The package reads no file
// and no clock.
package calibrate

import (
	"context"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A Use is what a replay sends through the meter, by day [m³].
type Use struct {
	Start  cal.Date
	RunM3  []float64 // through open valves: proportional to flow
	LeakM3 []float64 // leaks of the scenario, whether or not valves are open; nil for none
}

// end returns the day after the last.
func (u *Use) end() cal.Date { return u.Start + cal.Date(len(u.RunM3)) }

// An Altered is a change of the replayed site that takes another replay.
type Altered struct {
	Off Months  // nothing is watered
	K   float64 // factor on all plant coefficients; above 0
}

// Months are calendar months, January first.
type Months [12]bool

// List returns the months, 1 to 12.
func (m Months) List() (list []int) {
	for i, is := range m {
		if is {
			list = append(list, i+1)
		}
	}
	return list
}

// A Replay replays what ran, altered. It must return the same use each time.
type Replay func(ctx context.Context, a Altered) (*Use, error)

// A Job is one calibration.
type Job struct {
	Periods []meter.Period // in the order of dates
	Replay  Replay
	// Dedicated is set if the meter serves irrigation only.
	Dedicated bool
	// Reporting is the first day of the reporting period, which is never fitted; 0 for none.
	Reporting cal.Date
	// HoldFrom is the first day of the periods held out; 0 for [Job.Run]'s own choice.
	HoldFrom cal.Date
	// Base returns the start value of base use [m³/d], at least 0, from the periods at the
	// given indices, which are those to be fitted; nil for 0. Not used if Dedicated.
	Base   func(at []int) float64
	Bounds Bounds
	// Confidence is that of the intervals, as a share; 0 for [DefaultConfidence].
	Confidence float64
	// Draws is the number of resamples; 0 for [DefaultDraws], below 0 for none.
	Draws int
	Seed  uint64
}

// A Key names a parameter. [Keys] describes each.
type Key string

// The parameters, in the order they are tuned.
const (
	Base   Key = "base"
	Scale  Key = "flow"
	Off    Key = "months-off"
	Change Key = "run-times"
	Leak   Key = "leak"
	K      Key = "k"
)

// A KeyDoc describes a parameter.
type KeyDoc struct {
	Key Key
	Doc string
}

// Keys returns the description of every parameter, in the order they are tuned.
func Keys() []KeyDoc {
	return []KeyDoc{
		{Base, "base use, which is not irrigation, the same every day"},
		{Scale, "factor on the flow, or the area, of all zones"},
		{Off, "a month in which nothing ran, every year"},
		{Change, "factor on run times from a date on"},
		{Leak, "leak, the same every day, at a meter for irrigation only"},
		{K, "factor on the plant coefficients of all zones"},
	}
}

// A Range is the bounds of one parameter.
type Range struct {
	Low, High float64
	Source    string
	Grade     quantity.Grade
}

// Bounds are the bounds of the parameters. A zero Range means that of
// [defaultBounds].
type Bounds struct {
	constant Range // base use or leak [m³/d]
	Scale    Range
	Factor   Range // of run times from a date on
	K        Range
}

// Defaults of a job.
const (
	DefaultConfidence = 0.9
	DefaultDraws      = 999
)

// constantReach is how far above the use per day of the quietest periods the
// constant part may be.
const constantReach = 2

// defaultBounds returns the bounds of a job whose quietest periods use the given
// amount [m³/d].
func defaultBounds(quietM3Day float64) Bounds {
	const wide = "our choice: wider would hide an error in the scenario instead of correcting a number"
	return Bounds{
		constant: Range{0, constantReach * quietM3Day,
			"our choice: from none to twice the mean use per day of the quietest quarter of the periods",
			quantity.Guess},
		Scale:  Range{0.5, 2, wide, quantity.Guess},
		Factor: Range{0.25, 3, wide, quantity.Guess},
		K:      Range{0.7, 1.3, wide, quantity.Guess},
	}
}

// over returns b with the ranges that are not given from defaults.
func (b Bounds) over(defaults Bounds) Bounds {
	for _, one := range []struct{ own, other *Range }{
		{&b.constant, &defaults.constant}, {&b.Scale, &defaults.Scale}, {&b.Factor, &defaults.Factor}, {&b.K, &defaults.K},
	} {
		if *one.own == (Range{}) {
			*one.own = *one.other
		}
	}
	return b
}

// A Param is one parameter as the calibration leaves it.
type Param struct {
	Key   Key
	Month int      // of [Off]: 1 to 12
	From  cal.Date // of [Change]: first day
	Start float64  // before the calibration
	Value float64  // after it
	Range
	Tuned   bool
	AtBound bool
	// Interval is the interval at the job's confidence; NaN without resamples or if
	// the parameter is not tuned.
	Interval [2]float64
	// Support is the share of resamples that also chose the month or the date; NaN
	// for other parameters.
	Support float64
}

// A Part says what a period is used for.
type Part uint8

// The parts.
const (
	Left      Part = iota // counts for nothing; [Row.Why] says why
	Fitted                // the parameters are fitted to it
	Held                  // held out
	Reporting             // of the reporting period
)

// Key returns the stable name of the part.
func (p Part) Key() string { return [...]string{"left", "fit", "held-out", "reporting"}[p] }

// A Row is one period with the replay before and after the calibration [m³].
type Row struct {
	meter.Period
	Part          Part
	Before, After float64 // NaN outside the weather
	Irrigated     float64 // of After, through open valves
}

// A Step is the fit after one stage.
type Step struct {
	Key  Key
	P    int     // parameters tuned so far
	M3   float64 // root mean square of what is left, over the fitted periods [m³]
	EBIC float64
	Kept bool // the stage earned its place
}

// A Result is a calibration.
type Result struct {
	Rows       []Row
	Params     []Param
	Steps      []Step
	P          int // parameters tuned: a dated change counts twice, for its date and its factor
	Confidence float64
	Draws      int // resamples made
	// Memory is set if the water of a day depends on that of days before; then months
	// are switched off by replays, and dated changes are not tried.
	Memory bool
	// Plants is set if the metered water depends on plant coefficients.
	Plants   bool
	Alike    []Alike
	Findings []Finding
	Stopped  Reason // why nothing is tuned; empty if something is
	Searched bool   // the schedule was searched: there were periods enough
	// Other is the flow scale and the constant fitted to the held-out periods instead, a
	// check of how much the values rest on the choice; NaN if there are too few.
	Other Pair
	// Altered is the replay of the calibrated case.
	Altered Altered
}

// A Pair is a constant [m³/d] and a flow scale.
type Pair struct{ Constant, Scale float64 }

// An Alike is two parameters that the meter hardly tells apart: their estimates have
// a correlation beyond ±[alikeAt].
type Alike struct {
	A, B Key
	R    float64 // correlation of the two estimates
}

// alikeAt is the correlation beyond which two estimates are named. A choice of ours.
const alikeAt = 0.9
