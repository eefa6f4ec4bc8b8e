package generate

import (
	"errors"
	"fmt"
	"math"
)

// DefaultWetMM is the least rain that makes a day wet [mm]: the hundredth of an
// inch that US gauges are read to.
const DefaultWetMM = 0.25

// leastWetMM is the lowest threshold that is not rounded to no rain [mm].
const leastWetMM = 0.05

// The states of a day, as indices.
const (
	Dry = 0
	Wet = 1
)

// A Month is what the generator draws from in one month. Pairs hold the value
// on dry days and the value on wet ones.
type Month struct {
	WetAfterDry float64 // chance that a day is wet after a dry one, 0 to 1
	WetAfterWet float64 // chance that a day is wet after a wet one, 0 to 1

	// Rain of a wet day less Params.WetMM is gamma distributed.
	Shape   float64
	ScaleMM float64 // [mm]

	TmaxC, TmaxSD [2]float64 // [°C]
	TminC, TminSD [2]float64 // [°C]
	RsMJ, RsSD    [2]float64 // [MJ m⁻² d⁻¹]
	WindMS        float64    // [m/s]
	DewBelowC     [2]float64 // how far the dew point lies below Tmin [°C], 0 and up
}

// WetShare returns the share of wet days to which the chain settles, 0 to 1.
func (m Month) WetShare() float64 {
	d := 1 + m.WetAfterDry - m.WetAfterWet
	if d == 0 {
		return 0 // the state of the first day stays for good
	}
	return m.WetAfterDry / d
}

// Params are all that the generator draws from. They come from [Normals.Params]
// or from [Fit].
type Params struct {
	WetMM float64 // least rain of a wet day [mm]; 0 means [DefaultWetMM]
	Month [12]Month

	// M0 and M1 are the correlations of the residuals of Tmax, Tmin and
	// radiation on the same day and with the day before; M1[i][j] is that of i
	// today with j yesterday. Both zero means [PublishedM0] and [PublishedM1].
	M0, M1 Matrix

	// YearSpread makes dry and wet years: the year's rain is multiplied by a
	// lognormal factor with mean 1 and this standard deviation of its
	// logarithm, half of it through more wet days and half through larger
	// amounts. 0 means that years differ by chance alone, which is less than
	// real ones do. At most 1.
	YearSpread float64

	WindCV  float64 // standard deviation of daily wind over its mean
	WindLag float64 // correlation of the logarithm of wind with the day before

	// Which columns besides Tmax, Tmin and rain are made.
	Radiation, Wind, Dew bool

	// Assumptions says in words what was not given and what stands in for it.
	Assumptions []string
}

func (p *Params) wetMM() float64 {
	if p.WetMM == 0 {
		return DefaultWetMM
	}
	return p.WetMM
}

// check returns the first value that cannot be drawn from.
func (p *Params) check() error {
	if p.WetMM != 0 && !(p.WetMM >= leastWetMM && p.WetMM <= 10) {
		return fmt.Errorf("a wet day of at least %g mm: the threshold lies in %g to 10 mm", p.WetMM, leastWetMM)
	}
	if !(p.YearSpread >= 0 && p.YearSpread <= 1) {
		return fmt.Errorf("a spread of years of %g: it lies in 0 to 1", p.YearSpread)
	}
	if p.Wind && !(p.WindCV >= 0 && p.WindCV <= 2 && math.Abs(p.WindLag) < 1) {
		return fmt.Errorf("wind with a relative spread of %g and a carry-over of %g: they lie in 0 to 2 and -1 to 1", p.WindCV, p.WindLag)
	}
	for i, m := range p.Month {
		if err := m.check(p); err != nil {
			return fmt.Errorf("%s: %w", monthNames[i], err)
		}
	}
	return nil
}

func (m Month) check(p *Params) error {
	share := func(v float64) bool { return v >= 0 && v <= 1 }
	if !share(m.WetAfterDry) || !share(m.WetAfterWet) {
		return fmt.Errorf("chances of a wet day of %g after a dry and %g after a wet one: they lie in 0 to 1", m.WetAfterDry, m.WetAfterWet)
	}
	if m.WetAfterDry > 0 && !(m.Shape > 0 && m.ScaleMM > 0 && m.Shape*m.ScaleMM < 1000) {
		return fmt.Errorf("rain with shape %g and scale %g mm: both are positive, and their product is below 1000 mm", m.Shape, m.ScaleMM)
	}
	for s := range 2 {
		if !(math.Abs(m.TmaxC[s]) <= 70 && math.Abs(m.TminC[s]) <= 90) {
			return fmt.Errorf("temperatures of %g and %g °C lie outside -90 to 70", m.TmaxC[s], m.TminC[s])
		}
		if !(m.TmaxSD[s] >= 0 && m.TmaxSD[s] <= 20 && m.TminSD[s] >= 0 && m.TminSD[s] <= 20) {
			return fmt.Errorf("standard deviations of temperature of %g and %g °C lie outside 0 to 20", m.TmaxSD[s], m.TminSD[s])
		}
		if p.Radiation && !(m.RsMJ[s] >= 0 && m.RsMJ[s] <= 45 && m.RsSD[s] >= 0 && m.RsSD[s] <= 20) {
			return fmt.Errorf("radiation of %g MJ/m² with a standard deviation of %g lies outside 0 to 45 and 0 to 20", m.RsMJ[s], m.RsSD[s])
		}
		if p.Dew && !(m.DewBelowC[s] >= 0 && m.DewBelowC[s] <= 30) {
			return fmt.Errorf("a dew point %g °C below the lowest temperature lies outside 0 to 30", m.DewBelowC[s])
		}
	}
	if p.Wind && !(m.WindMS > 0 && m.WindMS <= 25) {
		return fmt.Errorf("wind of %g m/s lies outside 0 to 25", m.WindMS)
	}
	return nil
}

var errDays = errors.New("weather is made for at least one day")

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// monthDays is the mean length of each month [d].
var monthDays = [12]float64{31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
