package weather

import "slices"

// A Code names one kind of finding. It is stable: scripts and the program itself
// go by it, never by the words of a finding.
type Code string

// An Outcome says what became of the values that a finding is about.
type Outcome string

// The outcomes.
const (
	Kept      Outcome = "kept"       // used as they are
	Changed   Outcome = "changed"    // converted, moved or held to a limit
	Dropped   Outcome = "dropped"    // taken out as wrong; gap filling sees a gap
	LeftEmpty Outcome = "left-empty" // there was no value, and none was put in here
	Filled    Outcome = "filled"     // a value was put in where there was none
	LeftOut   Outcome = "left-out"   // rows, days or a column not used
)

// A Suspicion says what a whole column looks like, where that is worth a
// warning. The empty Suspicion is none.
type Suspicion string

// The suspicions.
const (
	OtherUnit      Suspicion = "other-unit"      // in another unit than it is read in
	ColumnsSwapped Suspicion = "columns-swapped" // under another column's name
)

// The codes of findings. [Codes] tells what each means.
const (
	CodeMissingDays              Code = "missing-days"
	CodeMissingValues            Code = "missing-values"
	CodeMissingCode              Code = "missing-code"
	CodeMissingHours             Code = "missing-hours"
	CodeFlagMissing              Code = "flag-missing"
	CodeEmptyColumn              Code = "empty-column"
	CodeEmptyRows                Code = "empty-rows"
	CodeEmptyEnds                Code = "empty-ends"
	CodeBeforeOpening            Code = "before-opening"
	CodeDuplicateRows            Code = "duplicate-rows"
	CodeDatesOutOfOrder          Code = "dates-out-of-order"
	CodeMisnamedDate             Code = "misnamed-date"
	CodeFilesDiffer              Code = "files-differ"
	CodeQualityFlag              Code = "quality-flag"
	CodeQualityNote              Code = "quality-note"
	CodeQualityNotChecked        Code = "quality-not-checked"
	CodeFlagEstimated            Code = "flag-estimated"
	CodeFlagUnknown              Code = "flag-unknown"
	CodeArchiveEstimate          Code = "archive-estimate"
	CodeFromHourly               Code = "from-hourly"
	CodePartialDay               Code = "partial-day"
	CodeShortDay                 Code = "short-day"
	CodeLeapDayAbsent            Code = "leap-day-absent"
	CodeLeapDayDropped           Code = "leap-day-dropped"
	CodeDay366Absent             Code = "day-366-absent"
	CodeMultiDayExtreme          Code = "multi-day-extreme"
	CodePastLimits               Code = "past-limits"
	CodeFlatLine                 Code = "flat-line"
	CodeFlatLineLong             Code = "flat-line-long"
	CodeLevelChange              Code = "level-change"
	CodeTemperatureUnit          Code = "temperature-unit"
	CodeTmaxBelowTmin            Code = "tmax-below-tmin"
	CodeTmaxEqualsTmin           Code = "tmax-equals-tmin"
	CodeFlaggedTmaxBelowTmin     Code = "flagged-tmax-below-tmin"
	CodeTemperatureRange         Code = "temperature-range"
	CodeHumidityAbove100         Code = "humidity-above-100"
	CodeHumidityBelow2           Code = "humidity-below-2"
	CodeRHAbove100               Code = "rh-above-100"
	CodeZeroHumidity             Code = "zero-humidity"
	CodeRHmaxBelowRHmin          Code = "rhmax-below-rhmin"
	CodeRHmeanOutside            Code = "rhmean-outside"
	CodeRHmaxNever100            Code = "rhmax-never-100"
	CodeDrySite                  Code = "dry-site"
	CodeDewPointAboveTmax        Code = "dew-point-above-tmax"
	CodeDewPointAboveTmin        Code = "dew-point-above-tmin"
	CodeVaporAboveSaturation     Code = "vapour-above-saturation"
	CodeVaporAgainstHumidity     Code = "vapour-against-humidity"
	CodeAridSite                 Code = "arid-site"
	CodeRadiationUnit            Code = "radiation-unit"
	CodeRadiationUnchecked       Code = "radiation-unchecked"
	CodeRadiationAboveAir        Code = "radiation-above-air"
	CodeRadiationNone            Code = "radiation-none"
	CodeRadiationOverClearSky    Code = "radiation-over-clear-sky"
	CodeRadiationDark            Code = "radiation-dark"
	CodeRadiationEnvelopeFar     Code = "radiation-envelope-far"
	CodeRadiationEnvelopeHigh    Code = "radiation-envelope-high"
	CodeRadiationEnvelopeLow     Code = "radiation-envelope-low"
	CodeDarkDay                  Code = "dark-day"
	CodeSunshineAboveDaylight    Code = "sunshine-above-daylight"
	CodeTraceSun                 Code = "trace-sun"
	CodeWindCalm                 Code = "wind-calm"
	CodeWindIsMaximum            Code = "wind-is-maximum"
	CodeTraceRain                Code = "trace-rain"
	CodePresumedZero             Code = "presumed-zero"
	CodeMultiDayRain             Code = "multi-day-rain"
	CodeNoRainReport             Code = "no-rain-report"
	CodeRainIncomplete           Code = "rain-incomplete"
	CodeRainOfPartDay            Code = "rain-of-part-day"
	CodeRainUncertain            Code = "rain-uncertain"
	CodeRainUnusable             Code = "rain-unusable"
	CodeRainAfterGap             Code = "rain-after-gap"
	CodeWholeMMRain              Code = "whole-mm-rain"
	CodeFogOrDewRain             Code = "fog-or-dew-rain"
	CodeTypicalYearRain          Code = "typical-year-rain"
	CodeGaugeDry                 Code = "gauge-dry"
	CodeGaugeWeekday             Code = "gauge-weekday"
	CodeGaugeGaps                Code = "gauge-gaps"
	CodeNearerRainGauge          Code = "nearer-rain-gauge"
	CodeZeroETo                  Code = "zero-eto"
	CodeZeroEToDay366            Code = "zero-eto-day-366"
	CodeEToWithoutInputs         Code = "eto-without-inputs"
	CodeSwappedEToColumn         Code = "swapped-eto-column"
	CodeEToColumnMislabeled      Code = "eto-column-mislabelled"
	CodeSuppliedEToZero          Code = "supplied-eto-zero"
	CodeSuppliedEToFar           Code = "supplied-eto-far"
	CodeSuppliedEToParts         Code = "supplied-eto-parts"
	CodeSuppliedEToUnchecked     Code = "supplied-eto-unchecked"
	CodeSuppliedEToGaps          Code = "supplied-eto-gaps"
	CodeSuppliedETrParts         Code = "supplied-etr-parts"
	CodeETrBelowETo              Code = "etr-below-eto"
	CodeEToBelowZero             Code = "eto-below-zero"
	CodeEToUnknown               Code = "eto-unknown"
	CodeHumidityFromTmin         Code = "humidity-from-tmin"
	CodeHumidityFromMean         Code = "humidity-from-mean"
	CodeRadiationFromSunshine    Code = "radiation-from-sunshine"
	CodeRadiationFromRange       Code = "radiation-from-range"
	CodeWindAssumed              Code = "wind-assumed"
	CodeTemperaturesOnly         Code = "temperatures-only"
	CodeWindHeightUnknown        Code = "wind-height-unknown"
	CodeWindHeight               Code = "wind-height"
	CodeFilledInterpolated       Code = "filled-interpolated"
	CodeFilledSecondStation      Code = "filled-second-station"
	CodeFilledDayOfYear          Code = "filled-day-of-year"
	CodeFilledTmaxBelowTmin      Code = "filled-tmax-below-tmin"
	CodeFilledEarlier            Code = "filled-earlier"
	CodeSecondStationUnused      Code = "second-station-unused"
	CodeYearsLeftOut             Code = "years-left-out"
	CodeInventedDays             Code = "invented-days"
	CodeInventedRangeHeld        Code = "invented-range-held"
	CodeInventedRadiationHeld    Code = "invented-radiation-held"
	CodeInventedRadiationNormals Code = "invented-radiation-normals"
	CodeFitLightRain             Code = "fit-light-rain"
	CodeFitFewWetDays            Code = "fit-few-wet-days"
	CodeFitFewYears              Code = "fit-few-years"
	CodeFitFewDays               Code = "fit-few-days"
	CodeFitDewAboveTmin          Code = "fit-dew-above-tmin"
	CodeForecastNoRain           Code = "forecast-no-rain"
	CodeForecastFARHeld          Code = "forecast-far-held"
)

// A CodeDoc describes a code: what it means and what is done about it.
type CodeDoc struct {
	Code    Code
	Outcome Outcome
	Doc     string
}

// codes is the one list of codes.
var codes = [...]CodeDoc{
	{CodeMissingDays, LeftEmpty, "dates between the first and the last that have no row"},
	{CodeMissingValues, LeftEmpty, "days that have a row but no value"},
	{CodeMissingCode, LeftEmpty, "cells that hold the layout's code for a missing value"},
	{CodeMissingHours, LeftEmpty, "hours that hold the layout's code for a missing value"},
	{CodeFlagMissing, LeftEmpty, "values that the archive flags as missing"},
	{CodeEmptyColumn, LeftOut, "a column without a value"},
	{CodeEmptyRows, LeftEmpty, "rows that hold a date and no value"},
	{CodeEmptyEnds, LeftOut, "days at the ends of the record without temperature and rain"},
	{CodeBeforeOpening, LeftOut, "rows before the station opened"},
	{CodeDuplicateRows, LeftOut, "two equal rows for one date"},
	{CodeDatesOutOfOrder, Changed, "rows that are not in order of date"},
	{CodeMisnamedDate, Kept, "dates in a form other than the column's name says"},
	{CodeFilesDiffer, Kept, "two files with different values for one day"},
	{CodeQualityFlag, Dropped, "values that the archive's own check failed"},
	{CodeQualityNote, Kept, "values with a flag that leaves them in use"},
	{CodeQualityNotChecked, Kept, "values that the archive has not checked completely"},
	{CodeFlagEstimated, Kept, "values that the archive estimated"},
	{CodeFlagUnknown, Kept, "values with a flag that is not in the legend"},
	{CodeArchiveEstimate, Kept, "values that the archive estimated or interpolated"},
	{CodeFromHourly, Kept, "extremes taken from hourly values"},
	{CodePartialDay, Dropped, "days of which too many readings are missing"},
	{CodeShortDay, Kept, "days of which a few readings are missing"},
	{CodeLeapDayAbsent, LeftEmpty, "31 December of leap years, absent by the layout's calendar"},
	{CodeLeapDayDropped, LeftOut, "29 February of a typical year"},
	{CodeDay366Absent, LeftEmpty, "31 December of leap years without values"},
	{CodeMultiDayExtreme, LeftEmpty, "an extreme temperature over several days"},
	{CodePastLimits, Dropped, "values past what is physically possible"},
	{CodeFlatLine, Kept, "the same value on many days in a row"},
	{CodeFlatLineLong, Dropped, "the same value on so many days in a row that it cannot be"},
	{CodeLevelChange, Kept, "a mean that differs between groups of years"},
	{CodeTemperatureUnit, Kept, "temperatures as if in another unit"},
	{CodeTmaxBelowTmin, Dropped, "Tmax below Tmin"},
	{CodeTmaxEqualsTmin, Kept, "Tmax equal to Tmin"},
	{CodeFlaggedTmaxBelowTmin, Dropped, "Tmax below Tmin, one of them flagged by the archive"},
	{CodeTemperatureRange, Kept, "a very large range within a day"},
	{CodeHumidityAbove100, Changed, "relative humidity above 100 %"},
	{CodeHumidityBelow2, Kept, "relative humidity below 2 %"},
	{CodeRHAbove100, Kept, "relative humidity above 100 % in the file"},
	{CodeZeroHumidity, Dropped, "relative humidity of 0 %"},
	{CodeRHmaxBelowRHmin, Dropped, "RHmax below RHmin"},
	{CodeRHmeanOutside, Kept, "RHmean outside RHmin to RHmax"},
	{CodeRHmaxNever100, Kept, "RHmax that never comes near 100 %"},
	{CodeDrySite, Kept, "RHmax too low for a watered place"},
	{CodeDewPointAboveTmax, Dropped, "dew point above Tmax"},
	{CodeDewPointAboveTmin, Kept, "dew point well above Tmin"},
	{CodeVaporAboveSaturation, Dropped, "vapour pressure above saturation"},
	{CodeVaporAgainstHumidity, Kept, "vapour pressure and humidity that contradict each other"},
	{CodeAridSite, Kept, "drier air than a watered place has"},
	{CodeRadiationUnit, Kept, "radiation as if in another unit"},
	{CodeRadiationUnchecked, Kept, "radiation that could not be checked"},
	{CodeRadiationAboveAir, Dropped, "more radiation than reaches the top of the air"},
	{CodeRadiationNone, Dropped, "less radiation than the darkest cloud lets through"},
	{CodeRadiationOverClearSky, Kept, "more radiation than a clear sky"},
	{CodeRadiationDark, Kept, "very little radiation"},
	{CodeRadiationEnvelopeFar, Dropped, "the clearest days far from a clear sky"},
	{CodeRadiationEnvelopeHigh, Kept, "the clearest days above a clear sky"},
	{CodeRadiationEnvelopeLow, Kept, "the clearest days below a clear sky"},
	{CodeDarkDay, Dropped, "less radiation than any day of the grid has"},
	{CodeSunshineAboveDaylight, Kept, "more sunshine than daylight"},
	{CodeTraceSun, Changed, "sunshine too short to measure"},
	{CodeWindCalm, Kept, "calm on many days in a row"},
	{CodeWindIsMaximum, LeftOut, "wind that is the day's highest"},
	{CodeTraceRain, Changed, "rain too small to measure"},
	{CodePresumedZero, Changed, "rain that the archive presumed to be zero"},
	{CodeMultiDayRain, LeftEmpty, "a total of several days on one date"},
	{CodeNoRainReport, Dropped, "rain of 0 on a day without a report"},
	{CodeRainIncomplete, Dropped, "rain of 0 on a day with a report of rain"},
	{CodeRainOfPartDay, Kept, "rain summed over part of a day"},
	{CodeRainUncertain, Dropped, "rain of 0 whose amount is uncertain"},
	{CodeRainUnusable, LeftOut, "hourly rain that cannot be in mm"},
	{CodeRainAfterGap, Kept, "heavy rain after missing days"},
	{CodeWholeMMRain, Kept, "rain in whole millimetres"},
	{CodeFogOrDewRain, Kept, "winter rain that may be fog or dew"},
	{CodeTypicalYearRain, Kept, "rain of a typical year"},
	{CodeGaugeDry, Kept, "a dry spell that the other years make unlikely"},
	{CodeGaugeWeekday, Kept, "rain that depends on the day of the week"},
	{CodeGaugeGaps, Kept, "days without a reading of the nearer gauge"},
	{CodeNearerRainGauge, Changed, "rain taken from a nearer gauge"},
	{CodeZeroETo, Kept, "published ETo of 0"},
	{CodeZeroEToDay366, Dropped, "published ETo of 0 on 31 December of a leap year"},
	{CodeEToWithoutInputs, Dropped, "published ETo on days without its inputs"},
	{CodeSwappedEToColumn, LeftOut, "an ETo column that holds another quantity"},
	{CodeEToColumnMislabeled, LeftOut, "supplied ETo that does not follow the computed one"},
	{CodeSuppliedEToZero, Dropped, "supplied ETo of 0 on a day that cannot have it"},
	{CodeSuppliedEToFar, Kept, "supplied ETo far from the computed one on single days"},
	{CodeSuppliedEToParts, Kept, "supplied ETo that differs from the computed one on the whole"},
	{CodeSuppliedEToUnchecked, Kept, "supplied ETo that could not be compared"},
	{CodeSuppliedEToGaps, Filled, "days without a supplied ETo"},
	{CodeSuppliedETrParts, Kept, "supplied ETr that differs from the computed one on the whole"},
	{CodeETrBelowETo, Kept, "tall reference ET below short reference ET"},
	{CodeEToBelowZero, Changed, "computed ETo below 0"},
	{CodeEToUnknown, LeftEmpty, "days on which ETo cannot be computed"},
	{CodeHumidityFromTmin, Filled, "dew point taken from Tmin"},
	{CodeHumidityFromMean, Kept, "vapour pressure from the mean humidity alone"},
	{CodeRadiationFromSunshine, Changed, "radiation from hours of sunshine"},
	{CodeRadiationFromRange, Filled, "radiation from the temperature range"},
	{CodeWindAssumed, Filled, "a mean wind taken where none is measured"},
	{CodeTemperaturesOnly, Filled, "ETo from temperatures alone"},
	{CodeWindHeightUnknown, Kept, "wind of an unknown height"},
	{CodeWindHeight, Changed, "wind brought to 2 m"},
	{CodeFilledInterpolated, Filled, "gaps interpolated"},
	{CodeFilledSecondStation, Filled, "gaps filled from a second station"},
	{CodeFilledDayOfYear, Filled, "gaps filled with the usual of the day of the year"},
	{CodeFilledTmaxBelowTmin, Changed, "a filled Tmax below Tmin"},
	{CodeFilledEarlier, Kept, "values that an earlier run put in"},
	{CodeSecondStationUnused, LeftOut, "a second station with too few common days"},
	{CodeYearsLeftOut, Filled, "years that the user leaves out, filled without limit"},
	{CodeInventedDays, Kept, "weather of a random generator, never observed"},
	{CodeInventedRangeHeld, Changed, "an invented Tmax too near Tmin"},
	{CodeInventedRadiationHeld, Changed, "invented radiation too low"},
	{CodeInventedRadiationNormals, Changed, "monthly radiation that the sky cannot give"},
	{CodeFitLightRain, LeftOut, "light rain that the fit counts as dry"},
	{CodeFitFewWetDays, Changed, "months with too few wet days for a fit of their own"},
	{CodeFitFewYears, Kept, "too few years for a spread between years"},
	{CodeFitFewDays, Changed, "too few days of one state for a fit of its own"},
	{CodeFitDewAboveTmin, Kept, "dew points above Tmin in a fitted record"},
	{CodeForecastNoRain, LeftOut, "days without rain in the record, for which no forecast is made up"},
	{CodeForecastFARHeld, Changed, "months so wet that POD and FAR cannot both hold"},
}

// Codes returns the description of every code. The slice is the caller's.
func Codes() []CodeDoc { return slices.Clone(codes[:]) }

// Outcome returns what becomes of the values that a finding of this code is
// about; empty for a code that is not in the list.
func (c Code) Outcome() Outcome {
	for i := range codes {
		if codes[i].Code == c {
			return codes[i].Outcome
		}
	}
	return ""
}
