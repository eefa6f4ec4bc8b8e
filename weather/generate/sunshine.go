package generate

import (
	"math"

	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/portable"
)

// sunshine holds the distribution of radiation for each state and day of the
// year. The deficit below clear-sky radiation is lognormal: clear days cluster
// below the limit, none exceed it, and cloudy days tail off, as in real
// records.
type sunshine struct {
	mu, sd    [2][yearDays]float64 // of the logarithm of the deficit
	low, high [yearDays]float64    // [MJ m⁻² d⁻¹]
	moved     int                  // days of the year whose mean had to be limited
}

// darkMJ is radiation too low to matter.
const darkMJ = 0.01

// skylessMJ limits radiation if the latitude is unknown.
const skylessMJ = 45

func newSunshine(p *Params, st weather.Station) *sunshine {
	s := &sunshine{}
	for at := range yearDays {
		s.low[at], s.high[at] = skyLimits(st, at)
	}
	for w := range 2 {
		mean := curve(p.monthly(func(m *monthParams) float64 { return m.rsMJ[w] }))
		for month := range 12 {
			sd := p.month[month].rsSD[w]
			for at := monthStart[month]; at < monthStart[month+1]; at++ {
				low, high := s.low[at], s.high[at]
				room := high - low
				// Too close to the limit, there is no room for spread.
				want := min(max(mean[at], low+float64(0.05*room)), high-float64(0.03*room))
				if math.Abs(want-mean[at]) > 0.01 {
					s.moved++
				}
				if room < darkMJ {
					s.mu[w][at] = math.Inf(-1) // no deficit in the polar night
					continue
				}
				s.mu[w][at], s.sd[w][at] = lognormal(high-want, sd, room)
			}
		}
	}
	return s
}

// skyLimits returns the minimum and maximum radiation of a day: 5% of that at
// the top of the atmosphere, and clear-sky radiation.
func skyLimits(st weather.Station, at int) (low, high float64) {
	if math.IsNaN(st.LatDeg) {
		return 0, skylessMJ
	}
	// The curves include February 29, so a date can be either of two days of
	// the year; the darker one sets the limit.
	ra := min(et0.Ra(st.LatDeg, at+1), et0.Ra(st.LatDeg, max(at, 1)))
	elev := st.ElevM
	if math.IsNaN(elev) {
		elev = 0
	}
	return 0.05 * ra, et0.ClearSkyRadiation(ra, elev)
}

// day returns the radiation of a day with residual z, rounded to a tenth and
// never above clear-sky radiation.
func (s *sunshine) day(wet, at int, z float64) (rs float64, held bool) {
	rs = s.high[at] - portable.Exp(s.mu[wet][at]-float64(s.sd[wet][at]*z))
	if rs < s.low[at] {
		rs, held = s.low[at], true
	}
	r := tenth(rs)
	if r > s.high[at] {
		r = math.Floor(s.high[at]*10) / 10
	}
	return max(0, r), held
}

// score returns the residual of a day's radiation. Measured radiation above the
// computed clear-sky value counts as just below it.
func (s *sunshine) score(wet, at int, rsMJ float64) float64 {
	sd := s.sd[wet][at]
	if sd == 0 {
		return math.NaN()
	}
	const nearest = 0.02 // of the clear sky
	lacks := max(s.high[at]-rsMJ, nearest*s.high[at])
	return (s.mu[wet][at] - portable.Log(lacks)) / sd
}
