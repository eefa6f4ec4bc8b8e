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
	dryDay = 0
	wetDay = 1
)

// A monthParams has the generator parameters of one month. Pairs are the values on
// dry and on wet days.
type monthParams struct {
	wetAfterDry float64 // probability of a wet day after a dry one, 0 to 1
	wetAfterWet float64 // probability of a wet day after a wet one, 0 to 1

	// Wet-day rain minus Params.WetMM is gamma distributed.
	shape   float64
	scaleMM float64 // [mm]

	tmaxC, tmaxSD [2]float64 // [°C]
	tminC, tminSD [2]float64 // [°C]
	rsMJ, rsSD    [2]float64 // [MJ m⁻² d⁻¹]
	windMS        float64    // [m/s]
	dewBelowC     [2]float64 // how far the dew point is below Tmin [°C], 0 or more
}

// wetShare returns the long-term share of wet days, 0 to 1.
func (m monthParams) wetShare() float64 {
	d := 1 + m.wetAfterDry - m.wetAfterWet
	if d == 0 {
		return 0 // the state of the first day never changes
	}
	return m.wetAfterDry / d
}

// Params are the generator's parameters, from [Normals.Params] or [Fit].
type Params struct {
	WetMM float64 // wet-day threshold [mm]; 0 means [DefaultWetMM]
	month [12]monthParams

	// m0 and m1 are the correlations of the residuals of Tmax, Tmin and
	// radiation on the same day and with the previous day; m1[i][j] is that of
	// i today with j yesterday. Both zero means [publishedM0] and
	// [publishedM1].
	m0, m1 matrix

	// yearSpread makes dry and wet years: annual rain is multiplied by a
	// lognormal factor with mean 1 and this standard deviation of its
	// logarithm, half through more wet days and half through larger amounts.
	// With 0, years differ only by chance, less than in reality. At most 1.
	yearSpread float64

	windCV  float64 // standard deviation of daily wind over its mean
	windLag float64 // correlation of the logarithm of wind with the day before
	dewLag  float64 // correlation of the distance of the dew point from Tmin, as a normal score, with the day before

	// The columns to generate besides Tmax, Tmin and rain.
	radiation, wind, dew bool

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
	if !(p.yearSpread >= 0 && p.yearSpread <= 1) {
		return fmt.Errorf("year spread %g is outside 0 to 1", p.yearSpread)
	}
	if p.wind && !(p.windCV >= 0 && p.windCV <= 2 && math.Abs(p.windLag) < 1) {
		return fmt.Errorf("wind spread %g and correlation %g must be within 0 to 2 and -1 to 1", p.windCV, p.windLag)
	}
	if p.dew && !(math.Abs(p.dewLag) < 1) {
		return fmt.Errorf("dew point correlation %g must be within -1 to 1", p.dewLag)
	}
	for i, m := range p.month {
		if err := m.check(p); err != nil {
			return fmt.Errorf("%s: %w", monthNames[i], err)
		}
	}
	return nil
}

func (m monthParams) check(p *Params) error {
	share := func(v float64) bool { return v >= 0 && v <= 1 }
	if !share(m.wetAfterDry) || !share(m.wetAfterWet) {
		return fmt.Errorf("wet-day probabilities %g after a dry day and %g after a wet day must be within 0 to 1", m.wetAfterDry, m.wetAfterWet)
	}
	if m.wetAfterDry > 0 && !(m.shape > 0 && m.scaleMM > 0 && m.shape*m.scaleMM < 1000) {
		return fmt.Errorf("rain shape %g and scale %g mm must be positive, with a product below 1000 mm", m.shape, m.scaleMM)
	}
	for s := range 2 {
		if !(math.Abs(m.tmaxC[s]) <= 70 && math.Abs(m.tminC[s]) <= 90) {
			return fmt.Errorf("temperatures %g and %g °C must be within -90 to 70", m.tmaxC[s], m.tminC[s])
		}
		if !(m.tmaxSD[s] >= 0 && m.tmaxSD[s] <= 20 && m.tminSD[s] >= 0 && m.tminSD[s] <= 20) {
			return fmt.Errorf("standard deviations of temperature %g and %g °C must be within 0 to 20", m.tmaxSD[s], m.tminSD[s])
		}
		if p.radiation && !(m.rsMJ[s] >= 0 && m.rsMJ[s] <= 45 && m.rsSD[s] >= 0 && m.rsSD[s] <= 20) {
			return fmt.Errorf("radiation %g MJ/m² and its standard deviation %g must be within 0 to 45 and 0 to 20", m.rsMJ[s], m.rsSD[s])
		}
		if p.dew && !(m.dewBelowC[s] >= 0 && m.dewBelowC[s] <= 30) {
			return fmt.Errorf("dew point offset %g °C is outside 0 to 30", m.dewBelowC[s])
		}
	}
	if p.wind && !(m.windMS > 0 && m.windMS <= 25) {
		return fmt.Errorf("wind %g m/s is outside 0 to 25", m.windMS)
	}
	return nil
}

var errDays = errors.New("at least one day is required")

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
	"December"}

// monthDays is the mean length of each month [d].
var monthDays = [12]float64{31, 28.2425, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
