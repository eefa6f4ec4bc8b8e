package meter

import "slices"

// A Support says which side of a comparison of strategies a meter tests, by how the
// strategy as found decides.
type Support string

// What a meter can test.
const (
	TestsSchedule Support = "schedule"
	TestsHolds    Support = "schedule-and-weather"
	TestsNeed     Support = "need"
)

// A SupportDoc says what a meter tests, and what it does not.
type SupportDoc struct {
	Support Support
	Doc     string
	Not     string
}

var supports = [...]SupportDoc{
	{TestsSchedule, "the schedule as found: its volume is flow × run time × run days, and so only these and base use are tested",
		"soil, roots, plant coefficients and ETo do not enter that volume. A good score says nothing about them, and so nothing about the " +
			"use of " +
			"strategies that follow the need of plants"},
	{TestsHolds, "the schedule as found and how the weather holds or scales it: flow, run times, run days, base use and those rules",
		"soil, roots and plant coefficients do not enter that volume. A good score says nothing about them, and so little about the use of " +
			"strategies that follow the need of plants"},
	{TestsNeed, "a strategy as found that waters by soil or plants: flow and base use, and in part soil and plant coefficients",
		"errors of flow and of need can hide each other: the meter sees their product only"},
}

// Text returns the description of s.
func (s Support) Text() SupportDoc {
	return supports[slices.IndexFunc(supports[:], func(d SupportDoc) bool { return d.Support == s })]
}
