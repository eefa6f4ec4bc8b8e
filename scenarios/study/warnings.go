package study

import (
	"fmt"
	"math"

	"loamledger/scenarios"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// mostWarnings is the maximum number of warnings printed one by one; a large
// site may have hundreds of one kind.
const mostWarnings = 8

// warningLines lists the warnings about values that are valid but implausible.
func (l *Study) warningLines() (lines []string) {
	for i, warning := range l.Scenario.Warnings {
		if n := len(l.Scenario.Warnings) - i; i == mostWarnings && n > 1 {
			lines = append(lines, fmt.Sprintf("Warning: %s more.", quantity.Count(n, "warning", "warnings")))
			break
		}
		lines = append(lines, fmt.Sprintf("Warning: %v.", warning))
	}
	return lines
}

// FarKM and farLatDegrees are the maximum distance between station and site
// without a warning: beyond it, weather and solar radiation are those of
// another place. Common practice, no source.
const (
	FarKM         = 100
	farLatDegrees = 1
)

// kmPerDegree is the length of a degree of latitude on the mean sphere [km].
const kmPerDegree = 111.195

// warnOfPlace warns if the station is far from the site. It must be called
// before the site's location is used for a station without one.
func warnOfPlace(sc *scenarios.Scenario, station weather.Station) {
	site := siteStation(sc.Site)
	km, degrees := weather.DistanceKM(site, station), math.Abs(site.LatDeg-station.LatDeg)
	what := fmt.Sprintf("%.0f km away", km)
	if math.IsNaN(km) {
		if what = fmt.Sprintf("at least %.0f km away", degrees*kmPerDegree); math.IsNaN(degrees) {
			return // one of the two has no known location
		}
	}
	switch latitudes := fmt.Sprintf("latitude %g there, %g at the site", station.LatDeg, site.LatDeg); {
	case site.LatDeg*station.LatDeg < 0 && degrees > farLatDegrees:
		sc.Warn(scenarios.Warning{Code: scenarios.OtherHemisphere, Pos: sc.Place("site.latitude"), Value: degrees, Unit: "°"},
			"the weather is from the other side of the equator, %s: %s; south is negative", what, latitudes)
	case km > FarKM || degrees > farLatDegrees:
		far := scenarios.Warning{Code: scenarios.FarStation, Pos: sc.Place("site.latitude"), Value: km, Unit: "km"}
		if math.IsNaN(km) {
			far.Value, far.Unit = degrees, "°"
		}
		sc.Warn(far, "the weather is from %s: %s", what, latitudes)
	}
}

// warnOfDates warns if the scenario asks for days outside the record; it needs
// the dates of the record as read.
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

// warnOfFindings warns of columns that appear to be in another unit or under
// the wrong name: a finding among many others would be overlooked.
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

// warnOfNoTemperatures warns if plants that follow the season have no temperatures
// to follow.
func warnOfNoTemperatures(sc *scenarios.Scenario, job *replay.Job) {
	if len(job.Weather.TmaxC) > 0 && len(job.Weather.TminC) > 0 {
		return
	}
	n := 0
	for z := range job.Zones {
		if job.Zones[z].Season != nil || job.Zones[z].Overseed != nil && job.Zones[z].Overseed.Season != nil {
			n++
		}
	}
	if n > 0 {
		sc.Warn(scenarios.Warning{Code: scenarios.NoTemperatures, Value: float64(n), Unit: "zones"},
			"the record has no temperatures: the plants of %s use the catalog's yearly or monthly coefficient and never rest",
			quantity.Count(n, "zone", "zones"))
	}
}

// lackTmin refuses the strategies that need minimum temperatures if the record has
// none: without them, they would silently do something else.
func lackTmin(sc *scenarios.Scenario, w *Weather) error {
	if len(w.columns.TminC) > 0 {
		return nil
	}
	var l diag.List
	for _, need := range sc.NeedTmin() {
		l.Add(diag.MissingColumn, need.Pos, "remove "+need.What+", or use a record with temperatures",
			"strategy %q: the record has no minimum temperatures", need.Strategy)
	}
	return l.Err()
}
