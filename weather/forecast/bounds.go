package forecast

import (
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// Perfect returns correct forecasts of the days of s, issued for leads 1 to
// leads. They show the most that holding watering for rain can achieve without
// stress. They do not limit the water saved: false alarms can save more while
// plants go short. The chance of rain is 100% on days with at least thresholdMM
// and 0 on others; etoMM may be nil.
func Perfect(s *weather.Series, etoMM []float64, thresholdMM float64, leads int) *Archive {
	return bound(s, leads, func(f *Forecast, i int) {
		f.RainMM, f.TmaxC, f.TminC = s.At(weather.Rain, i), s.At(weather.Tmax, i), s.At(weather.Tmin, i)
		if etoMM != nil {
			f.EToMM = etoMM[i]
		}
		switch {
		case f.RainMM >= thresholdMM:
			f.ProbabilityPct = 100
		case !math.IsNaN(f.RainMM):
			f.ProbabilityPct = 0
		}
	})
}

// None returns forecasts without skill that never hold watering: they always
// forecast no rain with a chance of 0% and leave temperature and ETo unknown.
func None(s *weather.Series, leads int) *Archive {
	return bound(s, leads, func(f *Forecast, i int) { f.RainMM, f.ProbabilityPct = 0, 0 })
}

func bound(s *weather.Series, leads int, fill func(f *Forecast, i int)) *Archive {
	a := &Archive{list: make([]Forecast, 0, s.Days*max(0, leads))}
	for i := range s.Days {
		for lead := leads; lead >= 1; lead-- { // the earliest issue first, in the order of compare
			f := Unknown(s.Date(i)-cal.Date(lead), s.Date(i))
			fill(&f, i)
			a.list = append(a.list, f)
		}
	}
	return a
}
