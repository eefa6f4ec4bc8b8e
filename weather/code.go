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
	CodeSyntheticDewHeld          Code = "synthetic-dew-held"
	CodeSyntheticRadiationNormals Code = "synthetic-radiation-normals"
	CodeFitLightRain              Code = "fit-light-rain"
	CodeFitFewWetDays             Code = "fit-few-wet-days"
	CodeFitFewYears               Code = "fit-few-years"
	CodeFitFewDays                Code = "fit-few-days"
	CodeFitDewAboveTmin           Code = "fit-dew-above-tmin"
	CodeForecastNoRain            Code = "forecast-no-rain"
	CodeForecastFARHeld           Code = "forecast-far-held"
	CodeForecastHindsight         Code = "forecast-hindsight"
	CodeUnitsContradicted         Code = "units-contradicted"
	CodeOddCell                   Code = "odd-cell"
	CodeOddValue                  Code = "odd-value"
	CodeUnitBreak                 Code = "unit-break"
	CodeDewPointUnit              Code = "dew-point-unit"
	CodeHumidityUnit              Code = "humidity-unit"
	CodeWindUnit                  Code = "wind-unit"
	CodeWindHeightDoubtful        Code = "wind-height-doubtful"
	CodeRainUnit                  Code = "rain-unit"
	CodeRainYear                  Code = "rain-year"
	CodeRainWettestDay            Code = "rain-wettest-day"
	CodeRainWetShare              Code = "rain-wet-share"
	CodeRainSeason                Code = "rain-season"
	CodeRainLoneDay               Code = "rain-lone-day"
	CodeRainRunningTotal          Code = "rain-running-total"
	CodeRainAccumulated           Code = "rain-accumulated"
	CodeRainOneWeekday            Code = "rain-one-weekday"
	CodeRainMostlyPresumed        Code = "rain-mostly-presumed"
	CodeGaugeDead                 Code = "gauge-dead"
	CodeLevelJump                 Code = "level-jump"
	CodeDatesShifted              Code = "dates-shifted"
	CodeDatesSwapped              Code = "dates-swapped"
	CodeDatesAhead                Code = "dates-ahead"
	CodeEToComputedEarlier        Code = "eto-computed-earlier"
)

// A CodeDoc describes a code: what it means and what happens to the values.
type CodeDoc struct {
	Code    Code
	Outcome Outcome
	Weight  Weight
	Doc     string
}

// codes is the one list of codes.
var codes = [...]CodeDoc{
	{CodeMissingDays, LeftEmpty, Note, "dates inside the record without a row"},
	{CodeMissingValues, LeftEmpty, Note, "days with a row but no value"},
	{CodeMissingCode, LeftEmpty, Note, "cells with the layout's missing-value code"},
	{CodeMissingHours, LeftEmpty, Note, "hours with the layout's missing-value code"},
	{CodeFlagMissing, LeftEmpty, Note, "values that the archive flags as missing"},
	{CodeEmptyColumn, LeftOut, Note, "a column without a value"},
	{CodeEmptyRows, LeftEmpty, Note, "rows with a date but no values"},
	{CodeEmptyEnds, LeftOut, Note, "days without temperature and rain at the start or end of the record"},
	{CodeBeforeOpening, LeftOut, Note, "rows before the station opened"},
	{CodeDuplicateRows, LeftOut, Note, "duplicate rows for one date"},
	{CodeDatesOutOfOrder, Changed, Note, "rows out of date order"},
	{CodeMisnamedDate, Kept, Note, "dates in a different form than the column name says"},
	{CodeFilesDiffer, Kept, Doubtful, "two files that disagree on a day"},
	{CodeQualityFlag, Dropped, Note, "values that failed the archive's own check"},
	{CodeQualityNote, Kept, Note, "flagged values that remain usable"},
	{CodeQualityNotChecked, Kept, Note, "values the archive has not fully checked"},
	{CodeFlagEstimated, Kept, Note, "values that the archive estimated"},
	{CodeFlagUnknown, Kept, Note, "values with an unknown flag"},
	{CodeArchiveEstimate, Kept, Note, "values that the archive estimated or interpolated"},
	{CodeFromHourly, Kept, Note, "extremes taken from hourly values"},
	{CodePartialDay, Dropped, Note, "days with too many missing readings"},
	{CodeShortDay, Kept, Note, "days with a few missing readings"},
	{CodeLeapDayAbsent, LeftEmpty, Note, "December 31 of leap years, which the layout's calendar omits"},
	{CodeLeapDayDropped, LeftOut, Note, "February 29 of a typical year"},
	{CodeDay366Absent, LeftEmpty, Note, "December 31 of leap years without values"},
	{CodeMultiDayExtreme, LeftEmpty, Note, "an extreme temperature over several days"},
	{CodePastLimits, Dropped, Note, "physically impossible values"},
	{CodeFlatLine, Kept, Note, "the same value on many days in a row"},
	{CodeFlatLineLong, Dropped, Note, "the same value on impossibly many days in a row"},
	{CodeLevelChange, Kept, Note, "a mean that shifts between groups of years"},
	{CodeTemperatureUnit, Kept, Decisive, "temperatures that look like another unit"},
	{CodeTmaxBelowTmin, Dropped, Note, "Tmax below Tmin"},
	{CodeTmaxEqualsTmin, Kept, Note, "Tmax equal to Tmin"},
	{CodeFlaggedTmaxBelowTmin, Dropped, Note, "Tmax below Tmin, one of them flagged by the archive"},
	{CodeTemperatureRange, Kept, Note, "a very large range within a day"},
	{CodeHumidityAbove100, Changed, Note, "relative humidity above 100%"},
	{CodeHumidityBelow2, Kept, Note, "relative humidity below 2%"},
	{CodeRHAbove100, Kept, Note, "relative humidity above 100% in the file"},
	{CodeZeroHumidity, Dropped, Note, "relative humidity of 0%"},
	{CodeRHmaxBelowRHmin, Dropped, Note, "RHmax below RHmin"},
	{CodeRHmeanOutside, Kept, Note, "RHmean outside RHmin to RHmax"},
	{CodeRHmaxNever100, Kept, Note, "RHmax that never approaches 100%"},
	{CodeDrySite, Kept, Note, "RHmax too low for a watered site"},
	{CodeDewPointAboveTmax, Dropped, Note, "dew point above Tmax"},
	{CodeDewPointAboveTmin, Kept, Note, "dew point far above Tmin"},
	{CodeVaporAboveSaturation, Dropped, Note, "vapor pressure above saturation"},
	{CodeVaporAgainstHumidity, Kept, Note, "vapor pressure that contradicts humidity"},
	{CodeAridSite, Kept, Note, "air too dry for a watered site"},
	{CodeRadiationUnit, Kept, Decisive, "radiation that looks like another unit"},
	{CodeRadiationUnchecked, Kept, Note, "radiation that could not be checked"},
	{CodeRadiationAboveAir, Dropped, Note, "more radiation than reaches the top of the atmosphere"},
	{CodeRadiationNone, Dropped, Note, "less radiation than under the darkest cloud"},
	{CodeRadiationOverClearSky, Kept, Note, "more radiation than under a clear sky"},
	{CodeRadiationDark, Kept, Note, "very little radiation"},
	{CodeRadiationEnvelopeFar, Dropped, Note, "clearest days far from clear-sky radiation"},
	{CodeRadiationEnvelopeHigh, Kept, Note, "clearest days above clear-sky radiation"},
	{CodeRadiationEnvelopeLow, Kept, Note, "clearest days below clear-sky radiation"},
	{CodeDarkDay, Dropped, Note, "less radiation than any day on the grid"},
	{CodeSunshineAboveDaylight, Kept, Note, "more sunshine than daylight"},
	{CodeTraceSun, Changed, Note, "sunshine too short to measure"},
	{CodeWindCalm, Kept, Note, "calm on many days in a row"},
	{CodeWindIsMaximum, LeftOut, Note, "wind that is the day's maximum"},
	{CodeTraceRain, Changed, Note, "rain too small to measure"},
	{CodePresumedZero, Changed, Note, "rain the archive presumed zero"},
	{CodeMultiDayRain, LeftEmpty, Note, "a multi-day total on one date"},
	{CodeNoRainReport, Dropped, Note, "zero rain on a day without a report"},
	{CodeRainIncomplete, Dropped, Note, "zero rain on a day with reported rain"},
	{CodeRainOfPartDay, Kept, Note, "rain summed over part of a day"},
	{CodeRainUncertain, Dropped, Note, "zero rain with an uncertain amount"},
	{CodeRainUnusable, LeftOut, Notable, "hourly rain that is impossible in mm"},
	{CodeRainAfterGap, Kept, Note, "heavy rain after missing days"},
	{CodeWholeMMRain, Kept, Note, "rain in whole millimeters"},
	{CodeFogOrDewRain, Kept, Note, "winter rain that may be fog or dew"},
	{CodeTypicalYearRain, Kept, Note, "rain of a typical year"},
	{CodeSnow, Kept, Note, "rain that probably fell as snow"},
	{CodeGaugeDry, Kept, Doubtful, "a dry spell that is unlikely given the other years"},
	{CodeGaugeWeekday, Kept, Doubtful, "rain that depends on the day of the week"},
	{CodeGaugeGaps, Kept, Note, "days without a reading from the nearer gauge"},
	{CodeNearerRainGauge, Changed, Note, "rain taken from a nearer gauge"},
	{CodeZeroETo, Kept, Note, "published ETo of 0"},
	{CodeZeroEToDay366, Dropped, Note, "published ETo of 0 on December 31 of a leap year"},
	{CodeEToWithoutInputs, Dropped, Note, "published ETo on days without its inputs"},
	{CodeSwappedEToColumn, LeftOut, Note, "an ETo column with a different quantity"},
	{CodeEToColumnMislabeled, LeftOut, Decisive, "supplied ETo that does not track computed ETo"},
	{CodeSuppliedEToZero, Dropped, Note, "supplied ETo of 0 on a day when that is impossible"},
	{CodeSuppliedEToFar, Kept, Note, "supplied ETo far from computed ETo on single days"},
	{CodeSuppliedEToParts, Kept, Note, "supplied ETo that differs from computed ETo overall"},
	{CodeSuppliedEToUnchecked, Kept, Note, "supplied ETo that could not be compared"},
	{CodeSuppliedEToGaps, Filled, Note, "days without a supplied ETo"},
	{CodeSuppliedETrParts, Kept, Note, "supplied ETr that differs from computed ETr overall"},
	{CodeETrBelowETo, Kept, Doubtful, "tall reference ET below short reference ET"},
	{CodeEToBelowZero, Changed, Note, "computed ETo below 0"},
	{CodeEToUnknown, LeftEmpty, Note, "days when ETo cannot be computed"},
	{CodeHumidityFromTmin, Filled, Note, "dew point estimated from Tmin"},
	{CodeHumidityFromMean, Kept, Note, "vapor pressure from the mean humidity alone"},
	{CodeRadiationFromSunshine, Changed, Note, "radiation from hours of sunshine"},
	{CodeRadiationFromRange, Filled, Note, "radiation from the temperature range"},
	{CodeWindAssumed, Filled, Note, "default wind used because none is measured"},
	{CodeTemperaturesOnly, Filled, Note, "ETo from temperatures alone"},
	{CodeWindHeightUnknown, Kept, Note, "wind measured at an unknown height"},
	{CodeWindHeight, Changed, Note, "wind converted to 2 m"},
	{CodeFilledInterpolated, Filled, Note, "gaps interpolated"},
	{CodeFilledSecondStation, Filled, Note, "gaps filled from a second station"},
	{CodeFilledDayOfYear, Filled, Note, "gaps filled with typical values for the day of the year"},
	{CodeFilledTmaxBelowTmin, Changed, Note, "a filled Tmax below Tmin"},
	{CodeFilledEarlier, Kept, Note, "values filled by an earlier run"},
	{CodeSecondStationUnused, LeftOut, Note, "a second station with too few days in common"},
	{CodeYearsLeftOut, Filled, Note, "years excluded by the user, filled without limit"},
	{CodeSyntheticDays, Kept, Note, "synthetic weather, not observed"},
	{CodeSyntheticRangeHeld, Changed, Note, "a synthetic Tmax too close to Tmin"},
	{CodeSyntheticRadiationHeld, Changed, Note, "synthetic radiation too low"},
	{CodeSyntheticDewHeld, Changed, Note, "synthetic air too dry, or dry too suddenly"},
	{CodeSyntheticRadiationNormals, Changed, Note, "impossible monthly radiation"},
	{CodeFitLightRain, LeftOut, Note, "light rain the fit counts as dry"},
	{CodeFitFewWetDays, Changed, Note, "months with too few wet days to fit separately"},
	{CodeFitFewYears, Kept, Note, "too few years to estimate year-to-year spread"},
	{CodeFitFewDays, Changed, Note, "too few wet or dry days to fit separately"},
	{CodeFitDewAboveTmin, Kept, Note, "dew points above Tmin in the fitted record"},
	{CodeForecastNoRain, LeftOut, Note, "days with missing rain, for which no rain forecast is made"},
	{CodeForecastFARHeld, Changed, Note, "months too wet for the requested POD and FAR"},
	{CodeForecastHindsight, Kept, Note, "days of synthetic forecasts whose rain climate is from their own year"},
	{CodeUnitsContradicted, Kept, Decisive, "declared units that the values contradict"},
	{CodeOddCell, Kept, Notable, "cells beyond the world records in the units of all others"},
	{CodeOddValue, Kept, Notable, "single values far from those of their season and of the days beside them"},
	{CodeUnitBreak, Kept, Decisive, "values that change unit within the record"},
	{CodeDewPointUnit, Kept, Decisive, "dew points that look like another unit"},
	{CodeHumidityUnit, Kept, Decisive, "humidity that looks like a fraction"},
	{CodeWindUnit, Kept, Decisive, "wind that looks like another unit"},
	{CodeWindHeightDoubtful, Kept, Doubtful, "a wind height that supplied ETo contradicts"},
	{CodeRainUnit, Kept, Decisive, "rain that looks like another unit"},
	{CodeRainYear, Kept, Doubtful, "yearly rain outside the envelope of its climate"},
	{CodeRainWettestDay, Kept, Notable, "a wettest day outside the envelope of its climate"},
	{CodeRainWetShare, Kept, Doubtful, "a share of wet days outside the envelope of its climate"},
	{CodeRainSeason, Kept, Doubtful, "rain concentrated in part of the year more than the envelope allows"},
	{CodeRainLoneDay, Kept, Notable, "one day with far more rain than any other"},
	{CodeRainRunningTotal, Kept, Decisive, "rain that is a running total"},
	{CodeRainAccumulated, Kept, Decisive, "rain of several days recorded on one"},
	{CodeRainOneWeekday, Kept, Decisive, "nearly all rain on one day of the week"},
	{CodeRainMostlyPresumed, Kept, Decisive, "rain that is mostly presumed zero"},
	{CodeGaugeDead, Kept, Decisive, "no rain at all for so long that the gauge must be dead"},
	{CodeLevelJump, Kept, Doubtful, "several columns whose level changes in the same month"},
	{CodeDatesShifted, Kept, Decisive, "seasons at the wrong time of the year"},
	{CodeDatesSwapped, Kept, Decisive, "dates whose day and month look swapped"},
	{CodeDatesAhead, Kept, Decisive, "observations dated far in the future"},
	{CodeEToComputedEarlier, LeftOut, Note, "reference ET computed by an earlier run"},
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

// Weight returns how much a finding with this code matters; [Note] for an
// unknown code.
func (c Code) Weight() Weight {
	for i := range codes {
		if codes[i].Code == c {
			return codes[i].Weight
		}
	}
	return Note
}
