package prepare

import (
	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/quality"
)

// Forecast checks the days of a forecast that has the form of a daily weather
// file, drops impossible values with a finding, fills nothing, and returns the
// reference ET of each day [mm]: supplied or computed, NaN if neither is
// possible.
func Forecast(rec *weather.Record, o et0.Options) (etoMM []float64) {
	rec.Findings = append(rec.Findings, quality.Check(rec)...)
	et, err := et0.Daily(&rec.Series, o)
	if err != nil {
		return rec.Data[weather.ETo] // nothing can be computed: supplied values, or nil
	}
	return et.EToMM
}
