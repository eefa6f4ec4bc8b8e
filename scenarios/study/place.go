package study

import (
	"fmt"
	"math"

	"loamledger/scenarios"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// What a record must have for a judgment of its seasons: every month with enough
// days, and months that differ as they do outside the tropics. Our choice.
const (
	leastMonthDays   = 20
	leastRangeC      = 6
	tropicLatDegrees = 12
)

// warnOfSeasons warns if the warmest month of the record is in winter at the latitude
// of the site, as with a forgotten minus sign.
func warnOfSeasons(sc *scenarios.Scenario, rec *weather.Record) {
	lat := sc.Site.LatDeg
	if math.IsNaN(lat) {
		lat = rec.Station.LatDeg
	}
	if !rec.Has(weather.Tmax) || !rec.Has(weather.Tmin) || !(math.Abs(lat) >= tropicLatDegrees) {
		return
	}
	var sum [12]float64
	var n [12]int
	for i, high := range rec.Data[weather.Tmax] {
		if mean := float64((high + rec.Data[weather.Tmin][i]) / 2); !math.IsNaN(mean) {
			m := rec.Date(i).Month() - 1
			sum[m] += mean
			n[m]++
		}
	}
	warmest, coldest := 0, 0
	for m := range sum {
		if n[m] < leastMonthDays {
			return
		}
		sum[m] /= float64(n[m])
		if sum[m] > sum[warmest] {
			warmest = m
		}
		if sum[m] < sum[coldest] {
			coldest = m
		}
	}
	northern := warmest >= 3 && warmest <= 9 // April to October
	southern := warmest >= 9 || warmest <= 3 // October to April
	if sum[warmest]-sum[coldest] < leastRangeC || lat > 0 && northern || lat < 0 && southern {
		return
	}
	side, other := "north", "south"
	if lat < 0 {
		side, other = other, side
	}
	sc.Warn(scenarios.Warning{Code: scenarios.SeasonsReversed, Pos: sc.Place("site.latitude"), Value: float64(warmest + 1), Unit: "month"},
		"the warmest month of the record is %s, mean %s, but latitude %g is %s of the equator: if the site is %s of it, change the sign",
		strategy.MonthNames[warmest], quantity.Format(sum[warmest], quantity.Temperature, sc.Units), lat, side, other)
}

// mostClockHours is how far a legal time zone may be from the sun [h]: 3 in the far
// west of some countries, and one for summer time.
const mostClockHours = 4

// warnOfTimeZone warns if the time zone that the weather file states is far from that
// of the longitude, as with a forgotten minus sign. Where both state a longitude, that
// of the site counts.
func warnOfTimeZone(sc *scenarios.Scenario, station weather.Station) {
	lon, at, whose := sc.Site.LonDeg, sc.Place("site.longitude"), "the site"
	if math.IsNaN(lon) {
		lon, at, whose = station.LonDeg, diag.Pos{}, "the station"
	}
	apart := math.Abs(math.Remainder(lon/15-station.UTCOffsetH, 24))
	if !(apart > mostClockHours) {
		return
	}
	sc.Warn(scenarios.Warning{Code: scenarios.OtherTimeZone, Pos: at, Value: apart, Unit: "h"},
		"longitude %g of %s is UTC%+.0f h by the sun, but the weather file states UTC%s h; west is negative", lon, whose, lon/15,
		fmt.Sprintf("%+g", station.UTCOffsetH))
}
