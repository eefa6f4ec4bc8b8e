package generate

import (
	"math"

	"loamledger/weather"
	"loamledger/weather/et0"
)

// sunshine holds the distribution of radiation for each state and day of the
// year. What lacks to a clear sky is lognormal: clear days crowd below the
// limit, none pass it, and dull days trail off, as in records.
type sunshine struct {
	mu, sd    [2][yearDays]float64 // of the logarithm of what lacks
	low, high [yearDays]float64    // [MJ m⁻² d⁻¹]
	moved     int                  // days of the year whose mean had to be brought within the limits
}

// darkMJ is less radiation than a day is told by.
const darkMJ = 0.01

// skylessMJ bounds radiation where the latitude is unknown.
const skylessMJ = 45

func newSunshine(p *Params, st weather.Station) *sunshine {
	s := &sunshine{}
	for at := range yearDays {
		s.low[at], s.high[at] = skyLimits(st, at)
	}
	for w := range 2 {
		mean := curve(p.monthly(func(m *Month) float64 { return m.RsMJ[w] }))
		for month := range 12 {
			sd := p.Month[month].RsSD[w]
			for at := monthStart[month]; at < monthStart[month+1]; at++ {
				low, high := s.low[at], s.high[at]
				room := high - low
				// Within the last hundredths of the room no spread is left to draw from.
				want := min(max(mean[at], low+0.05*room), high-0.03*room)
				if math.Abs(want-mean[at]) > 0.01 {
					s.moved++
				}
				if room < darkMJ {
					s.mu[w][at] = math.Inf(-1) // nothing lacks in the polar night
					continue
				}
				s.mu[w][at], s.sd[w][at] = lognormal(high-want, sd, room)
			}
		}
	}
	return s
}

// skyLimits returns the least and the most radiation of a day: a twentieth of
// what arrives above the air, and what passes a clear sky.
func skyLimits(st weather.Station, at int) (low, high float64) {
	if math.IsNaN(st.LatDeg) {
		return 0, skylessMJ
	}
	// The curves count a 29 February that most years lack, so a date is one of
	// two days of the year; the darker one sets the limit.
	ra := min(et0.Ra(st.LatDeg, at+1), et0.Ra(st.LatDeg, max(at, 1)))
	elev := st.ElevM
	if math.IsNaN(elev) {
		elev = 0
	}
	return 0.05 * ra, et0.ClearSkyRadiation(ra, elev)
}

// day returns the radiation of a day with residual z, to a tenth and never past
// the clear sky.
func (s *sunshine) day(wet, at int, z float64) (rs float64, held bool) {
	rs = s.high[at] - math.Exp(s.mu[wet][at]-s.sd[wet][at]*z)
	if rs < s.low[at] {
		rs, held = s.low[at], true
	}
	r := tenth(rs)
	if r > s.high[at] {
		r = math.Floor(s.high[at]*10) / 10
	}
	return max(0, r), held
}

// score returns the residual that belongs to a day's radiation. Measured
// radiation may pass the reckoned clear sky; it counts as just below it.
func (s *sunshine) score(wet, at int, rsMJ float64) float64 {
	sd := s.sd[wet][at]
	if sd == 0 {
		return math.NaN()
	}
	const nearest = 0.02 // of the clear sky
	lacks := max(s.high[at]-rsMJ, nearest*s.high[at])
	return (s.mu[wet][at] - math.Log(lacks)) / sd
}
