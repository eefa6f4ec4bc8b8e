package study

import (
	"loamledger/sim"
	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/prepare"
)

// simWeather returns the columns that a replay needs.
func simWeather(r *prepare.Ready) sim.Weather {
	return sim.Weather{Start: r.Start, RainMM: r.Data[weather.Rain], EToMM: r.ET.EToMM, TmaxC: r.Data[weather.Tmax],
		TminC:  r.Data[weather.Tmin],
		WindMS: windAt2M(&r.Series), Filled: filledDays(r)}
}

// filledDays marks the days with a filled or synthetic value that affects the
// replay; nil if there are none.
func filledDays(r *prepare.Ready) []bool {
	var out []bool
	for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain, weather.ETo, weather.Rs, weather.Wind, weather.Tdew} {
		if !r.Has(c) {
			continue
		}
		for i, m := range r.Mark[c] {
			if m.Filled() {
				if out == nil {
					out = make([]bool, r.Days)
				}
				out[i] = true
			}
		}
	}
	return out
}

// windAt2M returns the wind at 2 m [m/s], NaN if unknown; nil if the record has
// no wind. An anemometer of unknown height is assumed at 2 m, as for reference
// ET.
func windAt2M(s *weather.Series) []float64 {
	if !s.Has(weather.Wind) {
		return nil
	}
	factor := 1.0
	if h := s.Station.WindHeightM; h > 0 {
		factor = et0.WindFactor(h)
	}
	out := make([]float64, s.Days)
	for i, v := range s.Data[weather.Wind] {
		out[i] = v * factor
	}
	return out
}
