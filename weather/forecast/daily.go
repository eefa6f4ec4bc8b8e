package forecast

import (
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// FromDaily returns one forecast, issued on the given day, of each later day of
// s: a plain daily weather file does not say when it was issued. etoMM is the
// ETo of the days of s [mm], or nil for that in s. Days without a value are
// omitted; past is the number of days up to the issue day, which are no
// forecasts.
func FromDaily(s *weather.Series, etoMM []float64, issued cal.Date) (a *Archive, past int) {
	a = &Archive{}
	for i := range s.Days {
		if s.Date(i) <= issued {
			past++
			continue
		}
		f := Unknown(issued, s.Date(i))
		f.RainMM, f.TmaxC, f.TminC = s.At(weather.Rain, i), s.At(weather.Tmax, i), s.At(weather.Tmin, i)
		if etoMM != nil {
			f.EToMM = etoMM[i]
		} else {
			f.EToMM = s.At(weather.ETo, i)
		}
		if math.IsNaN(f.RainMM) && math.IsNaN(f.TmaxC) && math.IsNaN(f.TminC) && math.IsNaN(f.EToMM) {
			continue
		}
		a.list = append(a.list, f)
	}
	return a, past
}
