package generate

import (
	"fmt"
	"math"
)

// Normals are monthly means such as a climate yearbook prints. The first four
// are required; a nil pointer means unknown, and [Params.Assumptions] lists the
// substitutes.
type Normals struct {
	RainMM  [12]float64 // mean monthly rain [mm]
	WetDays [12]float64 // mean number of days with at least WetMM in the month
	TmaxC   [12]float64 // mean daily high [°C]
	TminC   [12]float64 // mean daily low [°C]

	WetMM float64 // threshold of a day counted in WetDays [mm]; 0 means [DefaultWetMM]

	TmaxSD *[12]float64 // standard deviation of the daily highs [°C]; nil: 4.5
	TminSD *[12]float64 // standard deviation of the daily lows [°C]; nil: 3.5
	RsMJ   *[12]float64 // mean solar radiation [MJ m⁻² d⁻¹]; nil: no radiation is generated
	WindMS *[12]float64 // mean wind at the station's wind height [m/s]; nil: no wind is generated
	DewC   *[12]float64 // mean dew point [°C], not above TminC; nil: no dew point is generated

	Shape *[12]float64 // of the gamma distribution of rain, 0.2 to 5; nil: from the mean after [Geng]

	DewLag     float64 // see [Params.dewLag]; 0: dew points of days in a row are independent
	WetCoolerC float64 // how much lower Tmax is on wet than on dry days [°C]; 0 means 3
	WetSun     float64 // radiation on wet days relative to dry days, up to 1; 0 means 0.6
	YearSpread float64 // see [Params.yearSpread]; 0 means none
}

// Substitutes for values that are not given. Common practice, no source.
const (
	usualTmaxSD    = 4.5
	usualTminSD    = 3.5
	usualWetCooler = 3.0
	usualWetSun    = 0.6
	rsSpreadDry    = 0.20 // standard deviation of radiation over its mean
	rsSpreadWet    = 0.40
	windCV         = 0.40
	windLag        = 0.40
)

// DefaultDewLag is a usual value of [Normals.DewLag]. Source: ours; two arid stations have 0.67
// and 0.68, two humid ones 0.45 and 0.48. Without it single days stand out that the checks of
// weather take for errors.
const DefaultDewLag = 0.65

// Params calculates the generator parameters. Temperatures and radiation are
// split between dry and wet days so that the monthly means are kept.
//
//	P(wet | dry) = 0.75 f
//	P(wet | wet) = 0.25 + P(wet | dry)
//
// with f the share of wet days. Source: [Geng], from memory. Contradictory
// values, such as rain without a wet day, are an error.
func (n Normals) Params() (Params, error) {
	p := Params{
		WetMM: n.WetMM, yearSpread: n.YearSpread, windCV: windCV, windLag: windLag,
		dewLag: n.DewLag, radiation: n.RsMJ != nil, wind: n.WindMS != nil, dew: n.DewC != nil,
	}
	assume := func(format string, args ...any) { p.Assumptions = append(p.Assumptions, fmt.Sprintf(format, args...)) }
	cooler, sun := n.WetCoolerC, n.WetSun
	if cooler == 0 {
		cooler = usualWetCooler
		assume("daytime is %g °C cooler on wet days than on dry ones (common practice, no source)", cooler)
	}
	if sun == 0 {
		sun = usualWetSun
		if p.radiation {
			assume("wet days have %g times the radiation of dry ones (common practice, no source)", sun)
		}
	}
	if !(sun > 0 && sun <= 1) {
		return p, fmt.Errorf("wet_sun %g is outside 0 to 1: radiation on wet days relative to dry ones", sun)
	}
	assume("wet days follow dry days with a probability of 0.75 times the share of wet days (Geng et al. 1986)")
	if n.Shape == nil {
		assume("the spread of rain on wet days is estimated from its mean (Geng et al. 1986)")
	}
	if n.TmaxSD == nil || n.TminSD == nil {
		assume("day-to-day temperature spread, if not given, is %g °C (Tmax) and %g °C (Tmin) (common practice, no source)", usualTmaxSD,
			usualTminSD)
	}
	if p.radiation {
		assume("day-to-day radiation spread is %g%% on dry days and %g%% on wet ones (common practice, no source)", 100*rsSpreadDry,
			100*rsSpreadWet)
	}
	if p.wind {
		assume("day-to-day wind spread is %g%% with a correlation of %g (common practice, no source)", 100*windCV, windLag)
	}
	if p.dew && n.DewLag != 0 {
		assume("dry and humid air lasts for days: the dew point has a correlation of %g with the day before (own estimate from two arid "+
			"stations)", n.DewLag)
	}
	assume("temperatures and radiation have the correlations of Richardson (1981)")
	for i := range 12 {
		m, err := n.month(i, cooler, sun, p.wetMM())
		if err != nil {
			return p, fmt.Errorf("%s: %w", monthNames[i], err)
		}
		p.month[i] = m
	}
	return p, p.check()
}

func (n *Normals) month(i int, cooler, sun, wetMM float64) (m monthParams, err error) {
	f := n.WetDays[i] / monthDays[i]
	if err := n.contradiction(i, f, wetMM); err != nil {
		return m, err
	}
	m.wetAfterDry = float64(0.75 * f)
	if f > 0 {
		m.wetAfterWet = 0.25 + m.wetAfterDry
		mean := n.RainMM[i] / n.WetDays[i]
		over := mean - wetMM
		m.shape = usualShape(mean)
		if n.Shape != nil {
			m.shape = n.Shape[i]
		}
		m.scaleMM = over / m.shape
	}
	m.tmaxC = [2]float64{n.TmaxC[i] + float64(f*cooler), n.TmaxC[i] - float64((1-f)*cooler)}
	m.tminC = [2]float64{n.TminC[i], n.TminC[i]}
	m.tmaxSD = [2]float64{usualTmaxSD, usualTmaxSD}
	m.tminSD = [2]float64{usualTminSD, usualTminSD}
	if n.TmaxSD != nil {
		m.tmaxSD = within(n.TmaxSD[i], f, cooler)
	}
	if n.TminSD != nil {
		m.tminSD = [2]float64{n.TminSD[i], n.TminSD[i]}
	}
	if n.RsMJ != nil {
		dry := n.RsMJ[i] / (1 - f + float64(f*sun))
		m.rsMJ = [2]float64{dry, sun * dry}
		m.rsSD = [2]float64{rsSpreadDry * dry, rsSpreadWet * sun * dry}
	}
	if n.WindMS != nil {
		m.windMS = n.WindMS[i]
	}
	if n.DewC != nil {
		// On wet days the air is near saturation at dawn: a third of the dry-day offset.
		const wetShare = 1.0 / 3
		dry := (n.TminC[i] - n.DewC[i]) / (1 - f + float64(f*wetShare))
		m.dewBelowC = [2]float64{dry, wetShare * dry}
	}
	return m, nil
}

func (n *Normals) contradiction(i int, f, wetMM float64) error {
	switch {
	case !(f >= 0 && f < 1):
		return fmt.Errorf("%g wet days are more than the month has", n.WetDays[i])
	case !(n.RainMM[i] >= 0 && n.RainMM[i] < 5000):
		return fmt.Errorf("rain %g mm is outside 0 to 5000 mm", n.RainMM[i])
	case f == 0 && n.RainMM[i] > 0:
		return fmt.Errorf("%g mm of rain on no wet day", n.RainMM[i])
	case f > 0 && n.RainMM[i] <= n.WetDays[i]*wetMM:
		return fmt.Errorf("%g mm of rain on %g wet days of at least %g mm each", n.RainMM[i], n.WetDays[i], wetMM)
	case !(n.TmaxC[i] >= n.TminC[i]):
		return fmt.Errorf("mean high %g °C is below mean low %g °C", n.TmaxC[i], n.TminC[i])
	case n.Shape != nil && !(n.Shape[i] >= 0.2 && n.Shape[i] <= 5):
		return fmt.Errorf("gamma shape %g is outside 0.2 to 5", n.Shape[i])
	case n.DewC != nil && !(n.DewC[i] <= n.TminC[i]):
		return fmt.Errorf("mean dew point %g °C is above mean low %g °C", n.DewC[i], n.TminC[i])
	}
	return nil
}

// usualShape returns the gamma shape of wet-day rain with the given mean.
//
//	scale = 1.83 mean - 2.16, shape = mean/scale
//
// Source: [Geng], from memory. The line reaches the exponential distribution
// (shape 1) near 2.6 mm; below that mean the shape is capped at 1.
func usualShape(meanMM float64) float64 {
	scale := float64(1.83*meanMM) - 2.16
	if scale < meanMM {
		return 1
	}
	return meanMM / scale
}

// within removes the part of a standard deviation that is due to the difference
// between dry and wet days.
func within(sd, f, difference float64) [2]float64 {
	rest := float64(sd*sd) - float64(f*(1-f)*difference*difference)
	v := math.Sqrt(max(rest, sd*sd/4)) // keep at least half
	return [2]float64{v, v}
}
