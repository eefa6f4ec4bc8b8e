package generate

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather"
	"loamledger/weather/portable"
)

// The minimum data for a fit.
const (
	leastDays   = 3 * 365 // days with rain and both temperatures
	leastInBin  = 10      // days of one state in one month for a separate fit
	leastYears  = 8       // whole years for year-to-year spread
	leastPairs  = 300     // consecutive days for correlations
	leastRsDays = 365
)

// Fit estimates generator parameters from the weather of s by moments: the
// monthly means of rain, wet days, temperatures, radiation, wind and dew point,
// their spread, the correlations of their residuals, and the year-to-year
// spread. wetMM is the wet-day threshold [mm]; 0 means [DefaultWetMM]. Columns
// missing from s are not generated. A record with less than three years of rain
// and temperatures, or without some month, is an error.
func Fit(s *weather.Series, wetMM float64) (Params, []weather.Finding, error) {
	f := &fitter{s: s, p: Params{WetMM: wetMM}}
	for _, c := range []weather.Column{weather.Rain, weather.Tmax, weather.Tmin} {
		if !s.Has(c) {
			return f.p, nil, fmt.Errorf("the record has no %s, which the fit requires", c.Key())
		}
	}
	known := 0
	for i := range s.Days {
		if f.known(i, weather.Rain) && f.known(i, weather.Tmax) && f.known(i, weather.Tmin) {
			known++
		}
	}
	if known < leastDays {
		return f.p, nil, fmt.Errorf("the record has rain and temperatures on %d days; a fit needs at least %d", known, leastDays)
	}
	f.p.radiation = s.Days-s.CountMissing(weather.Rs) >= leastRsDays
	f.p.wind = s.Days-s.CountMissing(weather.Wind) >= leastRsDays
	f.p.dew = s.Days-s.CountMissing(weather.Tdew) >= leastRsDays
	steps := []func() error{f.rain, f.temperatures, f.correlations, f.windAndDew, f.spread, f.p.check}
	for _, step := range steps {
		if err := step(); err != nil {
			return f.p, f.found, err
		}
	}
	f.p.Assumptions = []string{fmt.Sprintf("fitted to the record of %s from %v to %v", stationName(s), s.Start, s.End())}
	return f.p, f.found, nil
}

func stationName(s *weather.Series) string {
	switch {
	case s.Station.Name != "":
		return s.Station.Name
	case s.Station.ID != "":
		return s.Station.ID
	}
	return "an unnamed station"
}

type fitter struct {
	s     *weather.Series
	p     Params
	found []weather.Finding
}

func (f *fitter) known(i int, c weather.Column) bool { return !math.IsNaN(f.s.At(c, i)) }

// state returns whether day i is wet; ok is false if rain is unknown.
func (f *fitter) state(i int) (state int, ok bool) {
	mm := f.s.At(weather.Rain, i)
	switch {
	case math.IsNaN(mm):
		return dryDay, false
	case mm >= f.p.wetMM():
		return wetDay, true
	}
	return dryDay, true
}

func (f *fitter) note(code weather.Code, column string, count int, action, format string, args ...any) {
	if count == 0 {
		return
	}
	f.found = append(f.found, weather.Finding{
		Code: code, What: fmt.Sprintf(format, args...), Column: column, Count: count,
		Worst: f.s.Start, Action: action, Source: "common practice, no source",
	})
}

// A sums accumulates numbers for their mean and variance.
type sums struct{ v []float64 }

func (m *sums) add(v float64) { m.v = append(m.v, v) }

func (m *sums) plus(o sums) { m.v = slices.Concat(m.v, o.v) }

func (m *sums) n() float64 { return float64(len(m.v)) }

// mean is 0 without numbers.
func (m *sums) mean() float64 {
	if len(m.v) == 0 {
		return 0
	}
	return portable.Mean(m.v)
}

// variance is 0 for fewer than two numbers.
func (m *sums) variance() float64 {
	if len(m.v) < 2 {
		return 0
	}
	return portable.Variance(m.v)
}

func (m *sums) sd() float64 { return math.Sqrt(m.variance()) }
