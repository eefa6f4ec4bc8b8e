package accounts

import "slices"

// An AlarmCode names what is to be looked at in the result of an account. It is stable.
// Codes of warnings and of implausible results stand beside them in the same column.
type AlarmCode string

// The codes. [AlarmCodes] describes each.
const (
	billNotMatched AlarmCode = "bill-not-matched"
	billOutside    AlarmCode = "bill-outside-record"
	noOutdoorUse   AlarmCode = "no-outdoor-use"
	partOmitted    AlarmCode = "part-omitted"
	scaleExtreme   AlarmCode = "scale-extreme"
)

// An AlarmDoc describes a code.
type AlarmDoc struct {
	Code AlarmCode
	Doc  string
}

var alarmCodes = [...]AlarmDoc{
	{billNotMatched, "no factor on run times gives the metered outdoor use within 1%"},
	{billOutside, "a year of metered use is not a whole year of the weather and was not used"},
	{noOutdoorUse, "the metered outdoor use is 0, so nothing is watered as found"},
	{partOmitted, "a part of the measure is for zones that the account does not have"},
	{scaleExtreme, "as-found run times are less than a fifth or more than five times those of the program"},
}

// AlarmCodes returns the description of every code. The slice is the caller's.
func AlarmCodes() []AlarmDoc { return slices.Clone(alarmCodes[:]) }
