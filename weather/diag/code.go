package diag

import "slices"

// A Code names one kind of error: in an input file, in the command line or in
// the system. It is stable: scripts and loamledger itself use it, never the
// words of a message.
type Code string

// Codes for errors in input files. [Codes] describes each.
const (
	Ambiguous       Code = "ambiguous"
	BadLayout       Code = "bad-layout"
	BadName         Code = "bad-name"
	BadQuantity     Code = "bad-quantity"
	BadRecord       Code = "bad-record"
	BadResults      Code = "bad-results"
	BadSyntax       Code = "bad-syntax"
	CannotFinish    Code = "cannot-finish"
	Circular        Code = "circular-ranking"
	Conflict        Code = "conflict"
	DamagedFile     Code = "damaged-file"
	DoesNotFit      Code = "does-not-fit"
	DoubtfulWeather Code = "doubtful-weather"
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
	OtherDefault    Code = "other-default"
	OtherStation    Code = "other-station"
	OtherVersion    Code = "other-version"
	OutsideFolder   Code = "outside-folder"
	OutOfRange      Code = "out-of-range"
	RepeatedHeader  Code = "repeated-header"
	RowLength       Code = "row-length"
	SeveralStations Code = "several-stations"
	TooFewAccounts  Code = "too-few-accounts"
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
	Unwatered       Code = "unwatered"
	WrongOrder      Code = "wrong-order"
	WrongReport     Code = "wrong-report"
	WrongShape      Code = "wrong-shape"
	WrongUnits      Code = "wrong-units"
)

// Codes for errors in the command line.
const (
	BadFlag        Code = "bad-flag"
	Exists         Code = "exists"
	FlagConflict   Code = "flag-conflict"
	MissingFlag    Code = "missing-flag"
	NoEngine       Code = "no-engine"
	NoSuchFolder   Code = "no-such-folder"
	NothingToEnter Code = "nothing-to-enter"
	OutputRefused  Code = "output-refused"
	UnknownCommand Code = "unknown-command"
	UnknownFlag    Code = "unknown-flag"
	WrongArguments Code = "wrong-arguments"
)

// Codes for system errors.
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
	{Ambiguous, "a word that can mean more than one thing"},
	{BadLayout, "a layout file that does not match the weather file"},
	{BadName, "a name that cannot be used in output files"},
	{BadQuantity, "a value that is not a number with a unit of its kind"},
	{BadRecord, "a weather record that cannot be used"},
	{BadResults, "results of many accounts that cannot be evaluated"},
	{BadSyntax, "a file with invalid syntax"},
	{CannotFinish, "watering that is not done when more is due, or within a day"},
	{Circular, "accounts ranked on what only the simulation knows"},
	{Conflict, "two values that contradict each other"},
	{DamagedFile, "a row that is impossible in this layout"},
	{DoesNotFit, "watering that violates the site's limits"},
	{Duplicate, "something given twice"},
	{DoubtfulWeather, "weather that is probably wrong and not accepted"},
	{EmptyFile, "an empty file, or one without rows"},
	{EmptyValue, "a key or list without a value"},
	{GapTooLong, "a gap that no rule can fill"},
	{MissingColumn, "a missing column in a record or table"},
	{MissingKey, "a missing required key"},
	{MissingPlace, "a missing latitude or elevation"},
	{NeverWaters, "a strategy that never waters"},
	{NoDaysLeft, "a choice of dates or years that leaves no days"},
	{NoEffect, "a key that would do nothing"},
	{NoForecast, "forecasts for none of the days that need them"},
	{NoPermission, "a file without read permission"},
	{NoSuchFile, "a file that does not exist"},
	{NoWholeYear, "a record without enough whole years"},
	{NotADate, "a value that is not a date"},
	{NotAFile, "a folder or device instead of a file"},
	{NotANumber, "a value that is not a number"},
	{NotATime, "a value that is not a time of day"},
	{NotSorted, "a file whose rows are not sorted by station"},
	{NotText, "a file that is not plain text"},
	{OtherDefault, "a run record made with different defaults"},
	{OtherStation, "files from different stations given as one record"},
	{OtherVersion, "a results file of another version"},
	{OutsideFolder, "a file outside the folder of the scenario that names it"},
	{OutOfRange, "a value outside its range"},
	{RepeatedHeader, "a header line among the rows"},
	{RowLength, "a row with too few or too many cells"},
	{SeveralStations, "a file with several stations and none selected"},
	{TooFewAccounts, "fewer accounts than anything may be said of"},
	{TooFewDays, "a record too short to fit a weather generator"},
	{TooLarge, "a file or list that is too large"},
	{TooManyGaps, "a year with more missing days than may be filled"},
	{UnitsUnclear, "values in an unknown unit"},
	{UnknownKey, "an unknown key or column"},
	{UnknownLayout, "a weather file in an unknown layout"},
	{UnknownName, "an unknown name"},
	{UnknownStation, "a station missing from the file"},
	{UnknownUnit, "a column in an unknown unit"},
	{Unsaid, "a kind of part whose meaning is undocumented somewhere: a bug in loamledger"},
	{Unwatered, "a zone that a proposed setting leaves without water"},
	{Unsupported, "a YAML feature that is not supported"},
	{WrongOrder, "an end before its start"},
	{WrongReport, "an hourly or monthly report instead of a daily one"},
	{WrongShape, "a list, a group or a value where another is expected"},
	{WrongUnits, "units that the values contradict"},

	{BadFlag, "a flag with an invalid value"},
	{Exists, "an output file or folder that already exists"},
	{FlagConflict, "flags that exclude each other"},
	{MissingFlag, "a missing required flag"},
	{NoEngine, "a page asked of a program without its engine"},
	{NoSuchFolder, "a missing output folder"},
	{NothingToEnter, "a strategy without controller settings"},
	{OutputRefused, "an output folder that cannot be used"},
	{UnknownCommand, "an unknown command"},
	{UnknownFlag, "an unknown flag"},
	{WrongArguments, "too few or too many arguments"},

	{DiskFull, "a full disk"},
	{DiskReadOnly, "a read-only disk"},
	{Interrupted, "a run stopped by the user"},
	{NotWritable, "a file or folder without write permission"},
	{System, "any other system error"},
}

// Codes returns the description of every code. The slice is the caller's.
func Codes() []CodeDoc { return slices.Clone(codes[:]) }
