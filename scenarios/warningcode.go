package scenarios

import "slices"

// A WarningCode names one kind of warning. It is stable: scripts and the program
// itself go by it, never by the words of a warning.
type WarningCode string

// The codes of warnings. [WarningCodes] tells what each means.
const (
	AfterRecord     WarningCode = "after-record"
	BeforeRecord    WarningCode = "before-record"
	BreaksLimits    WarningCode = "breaks-limits"
	ColumnsSwapped  WarningCode = "columns-swapped"
	FarStation      WarningCode = "far-station"
	LargeZone       WarningCode = "large-zone"
	NeverWatered    WarningCode = "never-watered"
	NoRoom          WarningCode = "no-room"
	OtherHemisphere WarningCode = "other-hemisphere"
	OtherUnit       WarningCode = "other-unit"
	PartDoubtful    WarningCode = "part-doubtful"
	ShallowZone     WarningCode = "shallow-zone"
	StartsOverlap   WarningCode = "starts-overlap"
)

// A WarningDoc describes a code.
type WarningDoc struct {
	Code WarningCode
	Doc  string
}

// warningCodes is the one list of codes.
var warningCodes = [...]WarningDoc{
	{AfterRecord, "days after the end of the record are asked for"},
	{BeforeRecord, "days before the start of the record are asked for"},
	{BreaksLimits, "a strategy breaks limits of the site; the value counts its runs"},
	{ColumnsSwapped, "two weather columns look swapped"},
	{FarStation, "the weather station is far from the site"},
	{LargeZone, "a zone is larger than one valve waters"},
	{NeverWatered, "no strategy waters a zone"},
	{NoRoom, "a program does not fit the windows; the value is the minutes outside"},
	{OtherHemisphere, "the weather station is on the other side of the equator"},
	{OtherUnit, "a weather column looks as if in another unit"},
	{PartDoubtful, "a part of a strategy may not be meant as it is written"},
	{ShallowZone, "a zone's soil holds too little for single days; the value counts them"},
	{StartsOverlap, "a program starts while it still runs; the value is how long it takes"},
}

// WarningCodes returns the description of every code. The slice is the caller's.
func WarningCodes() []WarningDoc { return slices.Clone(warningCodes[:]) }
