package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// mostWarnings is how many warnings are printed one by one; a large site may
// have hundreds of one kind.
const mostWarnings = 8

// WarningLines tells what is read without a fault and hard to believe.
func (l *Study) WarningLines() (lines []string) {
	for i, warning := range l.Scenario.Warnings {
		if n := len(l.Scenario.Warnings) - i; i == mostWarnings && n > 1 {
			lines = append(lines, fmt.Sprintf("Warning: %s more.", quantity.Count(n, "warning", "warnings")))
			break
		}
		lines = append(lines, fmt.Sprintf("Warning: %v.", warning))
	}
	return lines
}

// How far a station may lie from the site without a word: beyond, its weather
// and the sun above it are another place's. Common practice, no source.
const (
	farKM         = 100
	farLatDegrees = 1
)

// kmPerDegree is the length of a degree of latitude on the mean sphere [km].
const kmPerDegree = 111.195

// warnOfPlace warns where the station lies far from the site. It has to be
// called before the site's place is put where the station's is not known.
func warnOfPlace(sc *scenarios.Scenario, station weather.Station) {
	site := siteStation(sc.Site)
	km, degrees := weather.DistanceKM(site, station), math.Abs(site.LatDeg-station.LatDeg)
	what := fmt.Sprintf("%.0f km away", km)
	if math.IsNaN(km) {
		if what = fmt.Sprintf("at least %.0f km away", degrees*kmPerDegree); math.IsNaN(degrees) {
			return // one of the two is not known to lie anywhere
		}
	}
	switch latitudes := fmt.Sprintf("latitude %g there, %g at the site", station.LatDeg, site.LatDeg); {
	case site.LatDeg*station.LatDeg < 0 && degrees > farLatDegrees:
		sc.Warn(scenarios.Warning{Code: scenarios.OtherHemisphere, Pos: sc.Place("site.latitude"), Value: degrees, Unit: "°"},
			"the weather is from the other side of the equator, %s: %s; south is negative", what, latitudes)
	case km > farKM || degrees > farLatDegrees:
		far := scenarios.Warning{Code: scenarios.FarStation, Pos: sc.Place("site.latitude"), Value: km, Unit: "km"}
		if math.IsNaN(km) {
			far.Value, far.Unit = degrees, "°"
		}
		sc.Warn(far, "the weather is from %s: %s", what, latitudes)
	}
}

// warnOfDates warns where days are asked for that the record does not have; it
// is used from and to where it ends.
func warnOfDates(sc *scenarios.Scenario, first, last cal.Date) {
	if from, ok := sc.Weather.Dates.First(); ok && from < first {
		w := scenarios.Warning{Code: scenarios.BeforeRecord, Pos: sc.Place("weather.from"), Value: float64(first - from), Unit: "d"}
		sc.Warn(w, "weather: from %v is before the record begins, on %v", from, first)
	}
	if to, ok := sc.Weather.Dates.Last(); ok && to > last {
		w := scenarios.Warning{Code: scenarios.AfterRecord, Pos: sc.Place("weather.to"), Value: float64(to - last), Unit: "d"}
		sc.Warn(w, "weather: to %v is after the record ends, on %v", to, last)
	}
}

// warnOfFindings warns of columns that look as if they were in another unit or
// under another's name: one finding among many others would be passed over.
func warnOfFindings(sc *scenarios.Scenario, rec *weather.Record) {
	for _, f := range rec.Findings {
		if f.Suspect != "" {
			code := scenarios.OtherUnit
			if f.Suspect == weather.ColumnsSwapped {
				code = scenarios.ColumnsSwapped
			}
			sc.Warn(scenarios.Warning{Code: code, Pos: diag.Pos{File: rec.File}, Column: f.Column}, "%s: %s", f.Column, f.Detail)
		}
	}
}

// warningTexts returns the warnings as sentences for the page, with the names
// of files but not their folders.
func (l *Study) warningTexts() []string {
	var out []string
	for _, warning := range l.Scenario.Warnings {
		text := strings.ToUpper(warning.Text[:1]) + warning.Text[1:]
		if pos := warning.Pos; pos.File != "" {
			pos.File = base(pos.File)
			text += " (" + pos.String() + ")"
		}
		out = append(out, text+".")
	}
	return out
}
