package generate

import (
	"errors"
	"fmt"
	"math"
)

// DefaultWetMM is the wet-day threshold [mm]: 0.01 inch, the resolution of US gauges.
const DefaultWetMM = 0.25

// leastWetMM is the lowest threshold that does not round to zero [mm].
const leastWetMM = 0.05

// The states of a day, as indices.
const (
	Dry = 0
	Wet = 1
)

// A Month has the generator parameters of one month. Pairs are the values on
// dry and on wet days.
type Month struct {
	WetAfterDry float64 // probability of a wet day after a dry one, 0 to 1
	WetAfterWet float64 // probability of a wet day after a wet one, 0 to 1

	// Wet-day rain minus Params.WetMM is gamma distributed.
	Shape   float64
	ScaleMM float64 // [mm]

	TmaxC, TmaxSD [2]float64 // [°C]
	TminC, TminSD [2]float64 // [°C]
	RsMJ, RsSD    [2]float64 // [MJ m⁻² d⁻¹]
	WindMS        float64    // [m/s]
	DewBelowC     [2]float64 // how far the dew point is below Tmin [°C], 0 or more
}

// WetShare returns the long-term share of wet days, 0 to 1.
func (m Month) WetShare() float64 {
	d := 1 + m.WetAfterDry - m.WetAfterWet
	if d == 0 {
		return 0 // the state of the first day never changes
	}
	return m.WetAfterDry / d
}

// Params are the generator's parameters, from [Normals.Params] or [Fit].
type Params struct {
	WetMM float64 // wet-day threshold [mm]; 0 means [DefaultWetMM]
	Month [12]Month

	// M0 and M1 are the correlations of the residuals of Tmax, Tmin and
	// radiation on the same day and with the previous day; M1[i][j] is that of
	// i today with j yesterday. Both zero means [PublishedM0] and
	// [PublishedM1].
	M0, M1 Matrix

	// YearSpread makes dry and wet years: annual rain is multiplied by a
	// lognormal factor with mean 1 and this standard deviation of its
	// logarithm, half through more wet days and half through larger amounts.
	// With 0, years differ only by chance, less than in reality. At most 1.
	YearSpread float64

	WindCV  float64 // standard deviation of daily wind over its mean
	WindLag float64 // correlation of the logarithm of wind with the day before
	DewLag  float64 // correlation of the distance of the dew point from Tmin, as a normal score, with the day before

	// The columns to generate besides Tmax, Tmin and rain.
	Radiation, Wind, Dew bool

	// Assumptions lists in words what was not given and the substitutes used.
	Assumptions []string
}

func (p *Params) wetMM() float64 {
	if p.WetMM == 0 {
		return DefaultWetMM
	}
	return p.WetMM
}

// check returns an error for the first invalid value.
func (p *Params) check() error {
	if p.WetMM != 0 && !(p.WetMM >= leastWetMM && p.WetMM <= 10) {
		return fmt.Errorf("wet-day threshold %g mm is outside %g to 10 mm", p.WetMM, leastWetMM)
	}
	if !(p.YearSpread >= 0 && p.YearSpread <= 1) {
		return fmt.Errorf("year spread %g is outside 0 to 1", p.YearSpread)
	}
	if p.Wind && !(p.WindCV >= 0 && p.WindCV <= 2 && math.Abs(p.WindLag) < 1) {
		return fmt.Errorf("wind spread %g and correlation %g must be within 0 to 2 and -1 to 1", p.WindCV, p.WindLag)
	}
	if p.Dew && !(math.Abs(p.DewLag) < 1) {
		return fmt.Errorf("dew point correlation %g must be within -1 to 1", p.DewLag)
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
		return fmt.Errorf("wet-day probabilities %g after a dry day and %g after a wet day must be within 0 to 1", m.WetAfterDry, m.WetAfterWet)
	}
	if m.WetAfterDry > 0 && !(m.Shape > 0 && m.ScaleMM > 0 && m.Shape*m.ScaleMM < 1000) {
		return fmt.Errorf("rain shape %g and scale %g mm must be positive, with a product below 1000 mm", m.Shape, m.ScaleMM)
	}
	for s := range 2 {
		if !(math.Abs(m.TmaxC[s]) <= 70 && math.Abs(m.TminC[s]) <= 90) {
			return fmt.Errorf("temperatures %g and %g °C must be within -90 to 70", m.TmaxC[s], m.TminC[s])
		}
		if !(m.TmaxSD[s] >= 0 && m.TmaxSD[s] <= 20 && m.TminSD[s] >= 0 && m.TminSD[s] <= 20) {
			return fmt.Errorf("standard deviations of temperature %g and %g °C must be within 0 to 20", m.TmaxSD[s], m.TminSD[s])
		}
		if p.Radiation && !(m.RsMJ[s] >= 0 && m.RsMJ[s] <= 45 && m.RsSD[s] >= 0 && m.RsSD[s] <= 20) {
			return fmt.Errorf("radiation %g MJ/m² and its standard deviation %g must be within 0 to 45 and 0 to 20", m.RsMJ[s], m.RsSD[s])
		}
		if p.Dew && !(m.DewBelowC[s] >= 0 && m.DewBelowC[s] <= 30) {
			return fmt.Errorf("dew point offset %g °C is outside 0 to 30", m.DewBelowC[s])
		}
	}
	if p.Wind && !(m.WindMS > 0 && m.WindMS <= 25) {
		return fmt.Errorf("wind %g m/s is outside 0 to 25", m.WindMS)
	}
	return nil
}

var errDays = errors.New("at least one day is required")

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
	"December"}

// monthDays is the mean length of each month [d].
var monthDays = [12]float64{31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
