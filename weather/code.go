package weather

import "slices"

// A Code names one kind of finding. It is stable: scripts and loamledger itself
// use it, never the words of a finding.
type Code string

// An Outcome says what happened to the values a finding is about.
type Outcome string

// The outcomes.
const (
	Kept      Outcome = "kept"       // used unchanged
	Changed   Outcome = "changed"    // converted, moved or limited
	Dropped   Outcome = "dropped"    // removed as wrong; gap filling sees a gap
	LeftEmpty Outcome = "left-empty" // there was no value, and none was filled here
	Filled    Outcome = "filled"     // a missing value was filled
	LeftOut   Outcome = "left-out"   // rows, days or a column not used
)

// A Suspicion says what a whole column looks like, if that deserves a warning.
// The empty Suspicion means none.
type Suspicion string

// The suspicions.
const (
	OtherUnit      Suspicion = "other-unit"      // in a different unit than assumed
	ColumnsSwapped Suspicion = "columns-swapped" // under the name of another column
)

// The codes of findings. [Codes] describes each.
const (
	CodeMissingDays               Code = "missing-days"
	CodeMissingValues             Code = "missing-values"
	CodeMissingCode               Code = "missing-code"
	CodeMissingHours              Code = "missing-hours"
	CodeFlagMissing               Code = "flag-missing"
	CodeEmptyColumn               Code = "empty-column"
	CodeEmptyRows                 Code = "empty-rows"
	CodeEmptyEnds                 Code = "empty-ends"
	CodeBeforeOpening             Code = "before-opening"
	CodeDuplicateRows             Code = "duplicate-rows"
	CodeDatesOutOfOrder           Code = "dates-out-of-order"
	CodeMisnamedDate              Code = "misnamed-date"
	CodeFilesDiffer               Code = "files-differ"
	CodeQualityFlag               Code = "quality-flag"
	CodeQualityNote               Code = "quality-note"
	CodeQualityNotChecked         Code = "quality-not-checked"
	CodeFlagEstimated             Code = "flag-estimated"
	CodeFlagUnknown               Code = "flag-unknown"
	CodeArchiveEstimate           Code = "archive-estimate"
	CodeFromHourly                Code = "from-hourly"
	CodePartialDay                Code = "partial-day"
	CodeShortDay                  Code = "short-day"
	CodeLeapDayAbsent             Code = "leap-day-absent"
	CodeLeapDayDropped            Code = "leap-day-dropped"
	CodeDay366Absent              Code = "day-366-absent"
	CodeMultiDayExtreme           Code = "multi-day-extreme"
	CodePastLimits                Code = "past-limits"
	CodeFlatLine                  Code = "flat-line"
	CodeFlatLineLong              Code = "flat-line-long"
	CodeLevelChange               Code = "level-change"
	CodeTemperatureUnit           Code = "temperature-unit"
	CodeTmaxBelowTmin             Code = "tmax-below-tmin"
	CodeTmaxEqualsTmin            Code = "tmax-equals-tmin"
	CodeFlaggedTmaxBelowTmin      Code = "flagged-tmax-below-tmin"
	CodeTemperatureRange          Code = "temperature-range"
	CodeHumidityAbove100          Code = "humidity-above-100"
	CodeHumidityBelow2            Code = "humidity-below-2"
	CodeRHAbove100                Code = "rh-above-100"
	CodeZeroHumidity              Code = "zero-humidity"
	CodeRHmaxBelowRHmin           Code = "rhmax-below-rhmin"
	CodeRHmeanOutside             Code = "rhmean-outside"
	CodeRHmaxNever100             Code = "rhmax-never-100"
	CodeDrySite                   Code = "dry-site"
	CodeDewPointAboveTmax         Code = "dew-point-above-tmax"
	CodeDewPointAboveTmin         Code = "dew-point-above-tmin"
	CodeVaporAboveSaturation      Code = "vapour-above-saturation"
	CodeVaporAgainstHumidity      Code = "vapour-against-humidity"
	CodeAridSite                  Code = "arid-site"
	CodeRadiationUnit             Code = "radiation-unit"
	CodeRadiationUnchecked        Code = "radiation-unchecked"
	CodeRadiationAboveAir         Code = "radiation-above-air"
	CodeRadiationNone             Code = "radiation-none"
	CodeRadiationOverClearSky     Code = "radiation-over-clear-sky"
	CodeRadiationDark             Code = "radiation-dark"
	CodeRadiationEnvelopeFar      Code = "radiation-envelope-far"
	CodeRadiationEnvelopeHigh     Code = "radiation-envelope-high"
	CodeRadiationEnvelopeLow      Code = "radiation-envelope-low"
	CodeDarkDay                   Code = "dark-day"
	CodeSunshineAboveDaylight     Code = "sunshine-above-daylight"
	CodeTraceSun                  Code = "trace-sun"
	CodeWindCalm                  Code = "wind-calm"
	CodeWindIsMaximum             Code = "wind-is-maximum"
	CodeTraceRain                 Code = "trace-rain"
	CodePresumedZero              Code = "presumed-zero"
	CodeMultiDayRain              Code = "multi-day-rain"
	CodeNoRainReport              Code = "no-rain-report"
	CodeRainIncomplete            Code = "rain-incomplete"
	CodeRainOfPartDay             Code = "rain-of-part-day"
	CodeRainUncertain             Code = "rain-uncertain"
	CodeRainUnusable              Code = "rain-unusable"
	CodeRainAfterGap              Code = "rain-after-gap"
	CodeWholeMMRain               Code = "whole-mm-rain"
	CodeFogOrDewRain              Code = "fog-or-dew-rain"
	CodeTypicalYearRain           Code = "typical-year-rain"
	CodeSnow                      Code = "snow"
	CodeGaugeDry                  Code = "gauge-dry"
	CodeGaugeWeekday              Code = "gauge-weekday"
	CodeGaugeGaps                 Code = "gauge-gaps"
	CodeNearerRainGauge           Code = "nearer-rain-gauge"
	CodeZeroETo                   Code = "zero-eto"
	CodeZeroEToDay366             Code = "zero-eto-day-366"
	CodeEToWithoutInputs          Code = "eto-without-inputs"
	CodeSwappedEToColumn          Code = "swapped-eto-column"
	CodeEToColumnMislabeled       Code = "eto-column-mislabelled"
	CodeSuppliedEToZero           Code = "supplied-eto-zero"
	CodeSuppliedEToFar            Code = "supplied-eto-far"
	CodeSuppliedEToParts          Code = "supplied-eto-parts"
	CodeSuppliedEToUnchecked      Code = "supplied-eto-unchecked"
	CodeSuppliedEToGaps           Code = "supplied-eto-gaps"
	CodeSuppliedETrParts          Code = "supplied-etr-parts"
	CodeETrBelowETo               Code = "etr-below-eto"
	CodeEToBelowZero              Code = "eto-below-zero"
	CodeEToUnknown                Code = "eto-unknown"
	CodeHumidityFromTmin          Code = "humidity-from-tmin"
	CodeHumidityFromMean          Code = "humidity-from-mean"
	CodeRadiationFromSunshine     Code = "radiation-from-sunshine"
	CodeRadiationFromRange        Code = "radiation-from-range"
	CodeWindAssumed               Code = "wind-assumed"
	CodeTemperaturesOnly          Code = "temperatures-only"
	CodeWindHeightUnknown         Code = "wind-height-unknown"
	CodeWindHeight                Code = "wind-height"
	CodeFilledInterpolated        Code = "filled-interpolated"
	CodeFilledSecondStation       Code = "filled-second-station"
	CodeFilledDayOfYear           Code = "filled-day-of-year"
	CodeFilledTmaxBelowTmin       Code = "filled-tmax-below-tmin"
	CodeFilledEarlier             Code = "filled-earlier"
	CodeSecondStationUnused       Code = "second-station-unused"
	CodeYearsLeftOut              Code = "years-left-out"
	CodeSyntheticDays             Code = "synthetic-days"
	CodeSyntheticRangeHeld        Code = "synthetic-range-held"
	CodeSyntheticRadiationHeld    Code = "synthetic-radiation-held"
	CodeSyntheticRadiationNormals Code = "synthetic-radiation-normals"
	CodeFitLightRain              Code = "fit-light-rain"
	CodeFitFewWetDays             Code = "fit-few-wet-days"
	CodeFitFewYears               Code = "fit-few-years"
	CodeFitFewDays                Code = "fit-few-days"
	CodeFitDewAboveTmin           Code = "fit-dew-above-tmin"
	CodeForecastNoRain            Code = "forecast-no-rain"
	CodeForecastFARHeld           Code = "forecast-far-held"
	CodeForecastHindsight         Code = "forecast-hindsight"
)

// A CodeDoc describes a code: what it means and what happens to the values.
type CodeDoc struct {
	Code    Code
	Outcome Outcome
	Doc     string
}

// codes is the one list of codes.
var codes = [...]CodeDoc{
	{CodeMissingDays, LeftEmpty, "dates inside the record without a row"},
	{CodeMissingValues, LeftEmpty, "days with a row but no value"},
	{CodeMissingCode, LeftEmpty, "cells with the layout's missing-value code"},
	{CodeMissingHours, LeftEmpty, "hours with the layout's missing-value code"},
	{CodeFlagMissing, LeftEmpty, "values that the archive flags as missing"},
	{CodeEmptyColumn, LeftOut, "a column without a value"},
	{CodeEmptyRows, LeftEmpty, "rows with a date but no values"},
	{CodeEmptyEnds, LeftOut, "days without temperature and rain at the start or end of the record"},
	{CodeBeforeOpening, LeftOut, "rows before the station opened"},
	{CodeDuplicateRows, LeftOut, "duplicate rows for one date"},
	{CodeDatesOutOfOrder, Changed, "rows out of date order"},
	{CodeMisnamedDate, Kept, "dates in a different form than the column name says"},
	{CodeFilesDiffer, Kept, "two files that disagree on a day"},
	{CodeQualityFlag, Dropped, "values that failed the archive's own check"},
	{CodeQualityNote, Kept, "flagged values that remain usable"},
	{CodeQualityNotChecked, Kept, "values the archive has not fully checked"},
	{CodeFlagEstimated, Kept, "values that the archive estimated"},
	{CodeFlagUnknown, Kept, "values with an unknown flag"},
	{CodeArchiveEstimate, Kept, "values that the archive estimated or interpolated"},
	{CodeFromHourly, Kept, "extremes taken from hourly values"},
	{CodePartialDay, Dropped, "days with too many missing readings"},
	{CodeShortDay, Kept, "days with a few missing readings"},
	{CodeLeapDayAbsent, LeftEmpty, "December 31 of leap years, which the layout's calendar omits"},
	{CodeLeapDayDropped, LeftOut, "February 29 of a typical year"},
	{CodeDay366Absent, LeftEmpty, "December 31 of leap years without values"},
	{CodeMultiDayExtreme, LeftEmpty, "an extreme temperature over several days"},
	{CodePastLimits, Dropped, "physically impossible values"},
	{CodeFlatLine, Kept, "the same value on many days in a row"},
	{CodeFlatLineLong, Dropped, "the same value on impossibly many days in a row"},
	{CodeLevelChange, Kept, "a mean that shifts between groups of years"},
	{CodeTemperatureUnit, Kept, "temperatures that look like another unit"},
	{CodeTmaxBelowTmin, Dropped, "Tmax below Tmin"},
	{CodeTmaxEqualsTmin, Kept, "Tmax equal to Tmin"},
	{CodeFlaggedTmaxBelowTmin, Dropped, "Tmax below Tmin, one of them flagged by the archive"},
	{CodeTemperatureRange, Kept, "a very large range within a day"},
	{CodeHumidityAbove100, Changed, "relative humidity above 100%"},
	{CodeHumidityBelow2, Kept, "relative humidity below 2%"},
	{CodeRHAbove100, Kept, "relative humidity above 100% in the file"},
	{CodeZeroHumidity, Dropped, "relative humidity of 0%"},
	{CodeRHmaxBelowRHmin, Dropped, "RHmax below RHmin"},
	{CodeRHmeanOutside, Kept, "RHmean outside RHmin to RHmax"},
	{CodeRHmaxNever100, Kept, "RHmax that never approaches 100%"},
	{CodeDrySite, Kept, "RHmax too low for a watered site"},
	{CodeDewPointAboveTmax, Dropped, "dew point above Tmax"},
	{CodeDewPointAboveTmin, Kept, "dew point far above Tmin"},
	{CodeVaporAboveSaturation, Dropped, "vapor pressure above saturation"},
	{CodeVaporAgainstHumidity, Kept, "vapor pressure that contradicts humidity"},
	{CodeAridSite, Kept, "air too dry for a watered site"},
	{CodeRadiationUnit, Kept, "radiation that looks like another unit"},
	{CodeRadiationUnchecked, Kept, "radiation that could not be checked"},
	{CodeRadiationAboveAir, Dropped, "more radiation than reaches the top of the atmosphere"},
	{CodeRadiationNone, Dropped, "less radiation than under the darkest cloud"},
	{CodeRadiationOverClearSky, Kept, "more radiation than under a clear sky"},
	{CodeRadiationDark, Kept, "very little radiation"},
	{CodeRadiationEnvelopeFar, Dropped, "clearest days far from clear-sky radiation"},
	{CodeRadiationEnvelopeHigh, Kept, "clearest days above clear-sky radiation"},
	{CodeRadiationEnvelopeLow, Kept, "clearest days below clear-sky radiation"},
	{CodeDarkDay, Dropped, "less radiation than any day on the grid"},
	{CodeSunshineAboveDaylight, Kept, "more sunshine than daylight"},
	{CodeTraceSun, Changed, "sunshine too short to measure"},
	{CodeWindCalm, Kept, "calm on many days in a row"},
	{CodeWindIsMaximum, LeftOut, "wind that is the day's maximum"},
	{CodeTraceRain, Changed, "rain too small to measure"},
	{CodePresumedZero, Changed, "rain the archive presumed zero"},
	{CodeMultiDayRain, LeftEmpty, "a multi-day total on one date"},
	{CodeNoRainReport, Dropped, "zero rain on a day without a report"},
	{CodeRainIncomplete, Dropped, "zero rain on a day with reported rain"},
	{CodeRainOfPartDay, Kept, "rain summed over part of a day"},
	{CodeRainUncertain, Dropped, "zero rain with an uncertain amount"},
	{CodeRainUnusable, LeftOut, "hourly rain that is impossible in mm"},
	{CodeRainAfterGap, Kept, "heavy rain after missing days"},
	{CodeWholeMMRain, Kept, "rain in whole millimeters"},
	{CodeFogOrDewRain, Kept, "winter rain that may be fog or dew"},
	{CodeTypicalYearRain, Kept, "rain of a typical year"},
	{CodeSnow, Kept, "rain that probably fell as snow"},
	{CodeGaugeDry, Kept, "a dry spell that is unlikely given the other years"},
	{CodeGaugeWeekday, Kept, "rain that depends on the day of the week"},
	{CodeGaugeGaps, Kept, "days without a reading from the nearer gauge"},
	{CodeNearerRainGauge, Changed, "rain taken from a nearer gauge"},
	{CodeZeroETo, Kept, "published ETo of 0"},
	{CodeZeroEToDay366, Dropped, "published ETo of 0 on December 31 of a leap year"},
	{CodeEToWithoutInputs, Dropped, "published ETo on days without its inputs"},
	{CodeSwappedEToColumn, LeftOut, "an ETo column with a different quantity"},
	{CodeEToColumnMislabeled, LeftOut, "supplied ETo that does not track computed ETo"},
	{CodeSuppliedEToZero, Dropped, "supplied ETo of 0 on a day when that is impossible"},
	{CodeSuppliedEToFar, Kept, "supplied ETo far from computed ETo on single days"},
	{CodeSuppliedEToParts, Kept, "supplied ETo that differs from computed ETo overall"},
	{CodeSuppliedEToUnchecked, Kept, "supplied ETo that could not be compared"},
	{CodeSuppliedEToGaps, Filled, "days without a supplied ETo"},
	{CodeSuppliedETrParts, Kept, "supplied ETr that differs from computed ETr overall"},
	{CodeETrBelowETo, Kept, "tall reference ET below short reference ET"},
	{CodeEToBelowZero, Changed, "computed ETo below 0"},
	{CodeEToUnknown, LeftEmpty, "days when ETo cannot be computed"},
	{CodeHumidityFromTmin, Filled, "dew point estimated from Tmin"},
	{CodeHumidityFromMean, Kept, "vapor pressure from the mean humidity alone"},
	{CodeRadiationFromSunshine, Changed, "radiation from hours of sunshine"},
	{CodeRadiationFromRange, Filled, "radiation from the temperature range"},
	{CodeWindAssumed, Filled, "default wind used because none is measured"},
	{CodeTemperaturesOnly, Filled, "ETo from temperatures alone"},
	{CodeWindHeightUnknown, Kept, "wind measured at an unknown height"},
	{CodeWindHeight, Changed, "wind converted to 2 m"},
	{CodeFilledInterpolated, Filled, "gaps interpolated"},
	{CodeFilledSecondStation, Filled, "gaps filled from a second station"},
	{CodeFilledDayOfYear, Filled, "gaps filled with typical values for the day of the year"},
	{CodeFilledTmaxBelowTmin, Changed, "a filled Tmax below Tmin"},
	{CodeFilledEarlier, Kept, "values filled by an earlier run"},
	{CodeSecondStationUnused, LeftOut, "a second station with too few days in common"},
	{CodeYearsLeftOut, Filled, "years excluded by the user, filled without limit"},
	{CodeSyntheticDays, Kept, "synthetic weather, not observed"},
	{CodeSyntheticRangeHeld, Changed, "a synthetic Tmax too close to Tmin"},
	{CodeSyntheticRadiationHeld, Changed, "synthetic radiation too low"},
	{CodeSyntheticRadiationNormals, Changed, "impossible monthly radiation"},
	{CodeFitLightRain, LeftOut, "light rain the fit counts as dry"},
	{CodeFitFewWetDays, Changed, "months with too few wet days to fit separately"},
	{CodeFitFewYears, Kept, "too few years to estimate year-to-year spread"},
	{CodeFitFewDays, Changed, "too few wet or dry days to fit separately"},
	{CodeFitDewAboveTmin, Kept, "dew points above Tmin in the fitted record"},
	{CodeForecastNoRain, LeftOut, "days with missing rain, for which no rain forecast is made"},
	{CodeForecastFARHeld, Changed, "months too wet for the requested POD and FAR"},
	{CodeForecastHindsight, Kept, "days of synthetic forecasts whose rain climate is from their own year"},
}

// Codes returns the description of every code. The slice is the caller's.
func Codes() []CodeDoc { return slices.Clone(codes[:]) }

// Outcome returns what happens to the values a finding with this code is about;
// empty for an unknown code.
func (c Code) Outcome() Outcome {
	for i := range codes {
		if codes[i].Code == c {
			return codes[i].Outcome
		}
	}
	return ""
}
