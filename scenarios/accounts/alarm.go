package accounts

import "slices"

// An AlarmCode names what is to be looked at in the result of an account. It is stable.
// Codes of warnings and of implausible results stand beside them in the same column.
type AlarmCode string

// The codes. [AlarmCodes] describes each.
const (
	BillNotMatched AlarmCode = "bill-not-matched"
	BillOutside    AlarmCode = "bill-outside-record"
	NoOutdoorUse   AlarmCode = "no-outdoor-use"
	PartOmitted    AlarmCode = "part-omitted"
	ScaleExtreme   AlarmCode = "scale-extreme"
)

// An AlarmDoc describes a code.
type AlarmDoc struct {
	Code AlarmCode
	Doc  string
}

var alarmCodes = [...]AlarmDoc{
	{BillNotMatched, "no factor on run times gives the metered outdoor use within 1%"},
	{BillOutside, "a year of metered use is not a whole year of the weather and was not used"},
	{NoOutdoorUse, "the metered outdoor use is 0, so nothing is watered as found"},
	{PartOmitted, "a part of the measure is for zones that the account does not have"},
	{ScaleExtreme, "as-found run times are less than a fifth or more than five times those of the program"},
}

// AlarmCodes returns the description of every code. The slice is the caller's.
func AlarmCodes() []AlarmDoc { return slices.Clone(alarmCodes[:]) }
