package generate

import (
	"fmt"
	"math"
)

// Normals are monthly figures such as a yearbook prints. The first four must
// be given; a nil pointer means that a figure is not known, and what then
// stands in for it is told in [Params.Assumptions].
type Normals struct {
	RainMM  [12]float64 // mean rain of the month [mm]
	WetDays [12]float64 // mean number of days with at least WetMM in the month
	TmaxC   [12]float64 // mean of the daily highs [°C]
	TminC   [12]float64 // mean of the daily lows [°C]

	WetMM float64 // least rain of a day counted in WetDays [mm]; 0 means [DefaultWetMM]

	TmaxSD *[12]float64 // standard deviation of the daily highs [°C]; nil: 4.5
	TminSD *[12]float64 // standard deviation of the daily lows [°C]; nil: 3.5
	RsMJ   *[12]float64 // mean solar radiation [MJ m⁻² d⁻¹]; nil: no radiation is made
	WindMS *[12]float64 // mean wind at the station's wind height [m/s]; nil: no wind is made
	DewC   *[12]float64 // mean dew point [°C], not above TminC; nil: no dew point is made

	Shape *[12]float64 // of the gamma distribution of rain, 0.2 to 5; nil: from the mean after [Geng]

	WetCoolerC float64 // how much lower Tmax is on wet days than on dry ones [°C]; 0 means 3
	WetSun     float64 // radiation on wet days over that on dry ones, to 1; 0 means 0.6
	YearSpread float64 // see [Params.YearSpread]; 0 means none
}

// What stands in for figures that are not given. Common practice, no source.
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

// Params works out what to draw from. Temperatures and radiation are split
// into dry and wet days so that the monthly means stay as given.
//
//	P(wet | dry) = 0.75 f
//	P(wet | wet) = 0.25 + P(wet | dry)
//
// with f the share of wet days. Source: [Geng], from memory. Figures that
// contradict each other, such as rain without a wet day, give an error.
func (n Normals) Params() (Params, error) {
	p := Params{
		WetMM: n.WetMM, YearSpread: n.YearSpread, WindCV: windCV, WindLag: windLag,
		Radiation: n.RsMJ != nil, Wind: n.WindMS != nil, Dew: n.DewC != nil,
	}
	assume := func(format string, args ...any) { p.Assumptions = append(p.Assumptions, fmt.Sprintf(format, args...)) }
	cooler, sun := n.WetCoolerC, n.WetSun
	if cooler == 0 {
		cooler = usualWetCooler
		assume("wet days are %g °C cooler by day than dry ones (common practice, no source)", cooler)
	}
	if sun == 0 {
		sun = usualWetSun
		if p.Radiation {
			assume("wet days have %g times the radiation of dry ones (common practice, no source)", sun)
		}
	}
	if !(sun > 0 && sun <= 1) {
		return p, fmt.Errorf("radiation on wet days is %g times that on dry ones: it lies in 0 to 1", sun)
	}
	assume("the chain of wet days carries over as Geng and others (1986) found: 0.75 of the share of wet days after a dry day")
	if n.Shape == nil {
		assume("the spread of wet days' rain follows from its mean after Geng and others (1986)")
	}
	if n.TmaxSD == nil || n.TminSD == nil {
		assume("temperatures vary from day to day by %g °C (Tmax) and %g °C (Tmin) where no figure is given (common practice, no source)", usualTmaxSD, usualTminSD)
	}
	if p.Radiation {
		assume("radiation varies from day to day by %g %% on dry days and %g %% on wet ones (common practice, no source)", 100*rsSpreadDry, 100*rsSpreadWet)
	}
	if p.Wind {
		assume("wind varies from day to day by %g %% with a carry-over of %g (common practice, no source)", 100*windCV, windLag)
	}
	assume("temperatures and radiation hang together and carry over by the correlations of Richardson (1981)")
	for i := range 12 {
		m, err := n.month(i, cooler, sun, p.wetMM())
		if err != nil {
			return p, fmt.Errorf("%s: %w", monthNames[i], err)
		}
		p.Month[i] = m
	}
	return p, p.check()
}

func (n *Normals) month(i int, cooler, sun, wetMM float64) (m Month, err error) {
	f := n.WetDays[i] / monthDays[i]
	if err := n.contradiction(i, f, wetMM); err != nil {
		return m, err
	}
	m.WetAfterDry = 0.75 * f
	if f > 0 {
		m.WetAfterWet = 0.25 + m.WetAfterDry
		mean := n.RainMM[i] / n.WetDays[i]
		over := mean - wetMM
		m.Shape = usualShape(mean)
		if n.Shape != nil {
			m.Shape = n.Shape[i]
		}
		m.ScaleMM = over / m.Shape
	}
	m.TmaxC = [2]float64{n.TmaxC[i] + f*cooler, n.TmaxC[i] - (1-f)*cooler}
	m.TminC = [2]float64{n.TminC[i], n.TminC[i]}
	m.TmaxSD = [2]float64{usualTmaxSD, usualTmaxSD}
	m.TminSD = [2]float64{usualTminSD, usualTminSD}
	if n.TmaxSD != nil {
		m.TmaxSD = within(n.TmaxSD[i], f, cooler)
	}
	if n.TminSD != nil {
		m.TminSD = [2]float64{n.TminSD[i], n.TminSD[i]}
	}
	if n.RsMJ != nil {
		dry := n.RsMJ[i] / (1 - f + f*sun)
		m.RsMJ = [2]float64{dry, sun * dry}
		m.RsSD = [2]float64{rsSpreadDry * dry, rsSpreadWet * sun * dry}
	}
	if n.WindMS != nil {
		m.WindMS = n.WindMS[i]
	}
	if n.DewC != nil {
		// On wet days the air is near saturation at dawn: a third of the dry days' distance.
		const wetShare = 1.0 / 3
		dry := (n.TminC[i] - n.DewC[i]) / (1 - f + f*wetShare)
		m.DewBelowC = [2]float64{dry, wetShare * dry}
	}
	return m, nil
}

func (n *Normals) contradiction(i int, f, wetMM float64) error {
	switch {
	case !(f >= 0 && f < 1):
		return fmt.Errorf("%g wet days: they are fewer than the days of the month", n.WetDays[i])
	case !(n.RainMM[i] >= 0 && n.RainMM[i] < 5000):
		return fmt.Errorf("%g mm of rain: it lies in 0 to 5000 mm", n.RainMM[i])
	case f == 0 && n.RainMM[i] > 0:
		return fmt.Errorf("%g mm of rain on no wet day", n.RainMM[i])
	case f > 0 && n.RainMM[i] <= n.WetDays[i]*wetMM:
		return fmt.Errorf("%g mm of rain on %g wet days of at least %g mm each", n.RainMM[i], n.WetDays[i], wetMM)
	case !(n.TmaxC[i] >= n.TminC[i]):
		return fmt.Errorf("a mean high of %g °C below the mean low of %g °C", n.TmaxC[i], n.TminC[i])
	case n.Shape != nil && !(n.Shape[i] >= 0.2 && n.Shape[i] <= 5):
		return fmt.Errorf("a gamma shape of %g: it lies in 0.2 to 5", n.Shape[i])
	case n.DewC != nil && !(n.DewC[i] <= n.TminC[i]):
		return fmt.Errorf("a mean dew point of %g °C above the mean low of %g °C", n.DewC[i], n.TminC[i])
	}
	return nil
}

// usualShape returns the gamma shape of wet days' rain with the given mean.
//
//	scale = 1.83 mean - 2.16, shape = mean/scale
//
// Source: [Geng], from memory. The line crosses the exponential distribution
// (shape 1) near 2.6 mm; below, and above a shape of 1, it is held there.
func usualShape(meanMM float64) float64 {
	scale := 1.83*meanMM - 2.16
	if scale < meanMM {
		return 1
	}
	return meanMM / scale
}

// within takes the part of a standard deviation that comes of the difference
// between dry and wet days out of it.
func within(sd, f, difference float64) [2]float64 {
	rest := sd*sd - f*(1-f)*difference*difference
	v := math.Sqrt(max(rest, sd*sd/4)) // never less than half is left
	return [2]float64{v, v}
}
