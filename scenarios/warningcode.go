package scenarios

import "slices"

// A WarningCode names one kind of warning. It is stable: scripts and loamledger
// itself use it, never the text of a warning.
type WarningCode string

// The codes of warnings. [WarningCodes] explains each.
const (
	AcceptUnused    WarningCode = "accept-unused"
	AfterRecord     WarningCode = "after-record"
	BeforeRecord    WarningCode = "before-record"
	BreaksLimits    WarningCode = "breaks-limits"
	ChangeInRecord  WarningCode = "change-in-record"
	ColumnsSwapped  WarningCode = "columns-swapped"
	DefaultIntake   WarningCode = "default-intake"
	FarStation      WarningCode = "far-station"
	IdleChange      WarningCode = "idle-change"
	LargeZone       WarningCode = "large-zone"
	MeterOverdrawn  WarningCode = "meter-overdrawn"
	NeverWatered    WarningCode = "never-watered"
	NoPastForecast  WarningCode = "no-past-forecast"
	NoTemperatures  WarningCode = "no-temperatures"
	NoRoom          WarningCode = "no-room"
	OtherFile       WarningCode = "other-file"
	OtherHemisphere WarningCode = "other-hemisphere"
	OtherTimeZone   WarningCode = "other-time-zone"
	OtherUnit       WarningCode = "other-unit"
	PartDoubtful    WarningCode = "part-doubtful"
	RecordEdited    WarningCode = "record-edited"
	SeasonsReversed WarningCode = "seasons-reversed"
	ShallowZone     WarningCode = "shallow-zone"
	TemplatePlace   WarningCode = "template-place"
	TimerMisfit     WarningCode = "timer-misfit"
	UnusualValue    WarningCode = "unusual-value"
	ZoneOverMeter   WarningCode = "zone-over-meter"
)

// A WarningDoc describes a code.
type WarningDoc struct {
	Code WarningCode
	Doc  string
}

// warningCodes is the list of codes.
var warningCodes = [...]WarningDoc{
	{AcceptUnused, "the scenario accepts a finding that the weather does not have"},
	{AfterRecord, "the scenario asks for days after the end of the record"},
	{BeforeRecord, "the scenario asks for days before the start of the record"},
	{BreaksLimits, "a strategy breaks the site's limits; the value is the number of runs"},
	{ChangeInRecord, "no whole year follows the last dated change of a strategy, so yearly figures mix the time before and after it"},
	{ColumnsSwapped, "two weather columns appear to be swapped"},
	{DefaultIntake, "runoff figures use default intake rates; the value is the number of zones"},
	{FarStation, "the weather station is far from the site"},
	{IdleChange, "a change of a strategy restates what is there"},
	{LargeZone, "a zone is too large for one valve"},
	{MeterOverdrawn, "controllers together draw more than a meter allows under a strategy; the value is the number of days"},
	{NeverWatered, "no strategy waters a zone"},
	{NoPastForecast, "a strategy holds watering by forecast, but no forecast is for a day of the record"},
	{NoRoom, "a program does not fit the watering windows; the value is the minutes outside"},
	{NoTemperatures, "the record has no temperatures for plants to follow, so they keep to the catalog's yearly coefficient"},
	{OtherFile, "a file differs from that of the recorded run"},
	{OtherHemisphere, "the weather station is on the other side of the equator"},
	{OtherTimeZone, "the time zone of the weather file is not that of the longitude; the value is the difference in hours"},
	{OtherUnit, "a weather column appears to be in another unit"},
	{PartDoubtful, "a part of a strategy is probably a mistake"},
	{RecordEdited, "the scenario in a record of a run was edited after the run"},
	{SeasonsReversed, "the warmest month of the record is in winter at the latitude of the site; the value is the month"},
	{ShallowZone, "a zone's soil stores less water than plants use on some days; the value is the number of days"},
	{TemplatePlace, "the latitude or the elevation is still that of the template"},
	{TimerMisfit, "a strategy's settings do not fit the site's timer; the value is the number of settings"},
	{UnusualValue, "a parameter of a zone is outside its usual range"},
	{ZoneOverMeter, "a zone draws more than its meter allows; the value is its flow"},
}

// WarningCodes returns the description of every code. The slice is the caller's.
func WarningCodes() []WarningDoc { return slices.Clone(warningCodes[:]) }
