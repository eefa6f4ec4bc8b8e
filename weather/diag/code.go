package diag

import "slices"

// A Code names one kind of fault, of an input file, of the command line or of
// the machine. It is stable: scripts and the program itself go by it, never by
// the words of a fault.
type Code string

// The codes of faults in input files. [Codes] tells what each means.
const (
	BadLayout       Code = "bad-layout"
	BadName         Code = "bad-name"
	BadQuantity     Code = "bad-quantity"
	BadRecord       Code = "bad-record"
	BadSyntax       Code = "bad-syntax"
	Conflict        Code = "conflict"
	DamagedFile     Code = "damaged-file"
	DoesNotFit      Code = "does-not-fit"
	Duplicate       Code = "duplicate"
	EmptyFile       Code = "empty-file"
	EmptyValue      Code = "empty-value"
	GapTooLong      Code = "gap-too-long"
	MissingColumn   Code = "missing-column"
	MissingKey      Code = "missing-key"
	MissingPlace    Code = "missing-place"
	NeverWaters     Code = "never-waters"
	NoDaysLeft      Code = "no-days-left"
	NoEffect        Code = "no-effect"
	NoForecast      Code = "no-forecast"
	NoPermission    Code = "no-permission"
	NoSuchFile      Code = "no-such-file"
	NoWholeYear     Code = "no-whole-year"
	NotADate        Code = "not-a-date"
	NotAFile        Code = "not-a-file"
	NotANumber      Code = "not-a-number"
	NotATime        Code = "not-a-time"
	NotSorted       Code = "not-sorted"
	NotText         Code = "not-text"
	OtherStation    Code = "other-station"
	OutOfRange      Code = "out-of-range"
	RowLength       Code = "row-length"
	SeveralStations Code = "several-stations"
	TooFewDays      Code = "too-few-days"
	TooLarge        Code = "too-large"
	TooManyGaps     Code = "too-many-gaps"
	UnitsUnclear    Code = "units-unclear"
	UnknownKey      Code = "unknown-key"
	UnknownLayout   Code = "unknown-layout"
	UnknownName     Code = "unknown-name"
	UnknownStation  Code = "unknown-station"
	UnknownUnit     Code = "unknown-unit"
	Unsaid          Code = "unsaid"
	Unsupported     Code = "unsupported"
	WrongOrder      Code = "wrong-order"
	WrongReport     Code = "wrong-report"
	WrongShape      Code = "wrong-shape"
	WrongUnits      Code = "wrong-units"
)

// The codes of faults in the command line.
const (
	BadFlag        Code = "bad-flag"
	Exists         Code = "exists"
	FlagConflict   Code = "flag-conflict"
	MissingFlag    Code = "missing-flag"
	NoSuchFolder   Code = "no-such-folder"
	NothingToEnter Code = "nothing-to-enter"
	OutputRefused  Code = "output-refused"
	UnknownCommand Code = "unknown-command"
	UnknownFlag    Code = "unknown-flag"
	WrongArguments Code = "wrong-arguments"
)

// The codes of faults of the machine.
const (
	DiskFull     Code = "disk-full"
	DiskReadOnly Code = "disk-read-only"
	Interrupted  Code = "interrupted"
	NotWritable  Code = "not-writable"
	System       Code = "system-error"
)

// A CodeDoc describes a code.
type CodeDoc struct {
	Code Code
	Doc  string
}

// codes is the one list of codes.
var codes = [...]CodeDoc{
	{BadLayout, "a declared layout that does not fit the file"},
	{BadName, "a name that cannot be used in output files"},
	{BadQuantity, "a value that is not a number with a unit of its kind"},
	{BadRecord, "a weather record that cannot be used"},
	{BadSyntax, "a file that is not well-formed"},
	{Conflict, "two values that contradict each other"},
	{DamagedFile, "a row that no such file can have"},
	{DoesNotFit, "watering that does not fit the limits of the site"},
	{Duplicate, "something given twice"},
	{EmptyFile, "a file without content or rows"},
	{EmptyValue, "a key or list without a value"},
	{GapTooLong, "a gap that no rule can fill"},
	{MissingColumn, "a record or table without a column that is needed"},
	{MissingKey, "a required key that is absent"},
	{MissingPlace, "a latitude or elevation that is needed and not stated"},
	{NeverWaters, "a strategy that never waters"},
	{NoDaysLeft, "a choice of dates or years that leaves no day"},
	{NoEffect, "a key that would do nothing"},
	{NoForecast, "forecasts for none of the days that need them"},
	{NoPermission, "a file that may not be read"},
	{NoSuchFile, "a file that does not exist"},
	{NoWholeYear, "a record without the whole years that are needed"},
	{NotADate, "a value that is not a date"},
	{NotAFile, "a folder or device in the place of a file"},
	{NotANumber, "a value that is not a number"},
	{NotATime, "a value that is not a time of day"},
	{NotSorted, "a file whose rows are not sorted by station"},
	{NotText, "a file that is not plain text"},
	{OtherStation, "files of different stations read as one record"},
	{OutOfRange, "a value outside its range"},
	{RowLength, "a row with too few or too many cells"},
	{SeveralStations, "a file with several stations, none of them chosen"},
	{TooFewDays, "a record too short to fit a weather generator to"},
	{TooLarge, "a file or list larger than can be read"},
	{TooManyGaps, "a year with more missing days than may be filled"},
	{UnitsUnclear, "values whose unit the file does not state or show"},
	{UnknownKey, "a key or column that is not known"},
	{UnknownLayout, "a weather file whose layout is not recognized"},
	{UnknownName, "a name that is not in its list"},
	{UnknownStation, "a station that is not in the file"},
	{UnknownUnit, "a column in a unit that is not known"},
	{Unsaid, "a kind of part does not say what its parts mean somewhere: an error of the program"},
	{Unsupported, "a feature of YAML that is not read"},
	{WrongOrder, "an end that is before its start"},
	{WrongReport, "an hourly or monthly report in the place of a daily one"},
	{WrongShape, "a list, a group or a value where another is due"},
	{WrongUnits, "units that the values contradict"},

	{BadFlag, "a flag whose value cannot be used"},
	{Exists, "an output file or folder that already exists"},
	{FlagConflict, "flags that exclude each other"},
	{MissingFlag, "a required flag that is absent"},
	{NoSuchFolder, "a folder for output that does not exist"},
	{NothingToEnter, "a strategy with nothing to enter on a controller"},
	{OutputRefused, "an output folder that cannot be used"},
	{UnknownCommand, "a command that is not known"},
	{UnknownFlag, "a flag that is not known"},
	{WrongArguments, "too few or too many arguments"},

	{DiskFull, "a full disk"},
	{DiskReadOnly, "a read-only disk"},
	{Interrupted, "a run stopped by the user"},
	{NotWritable, "a file or folder that may not be written"},
	{System, "any other fault of the machine"},
}

// Codes returns the description of every code. The slice is the caller's.
func Codes() []CodeDoc { return slices.Clone(codes[:]) }
