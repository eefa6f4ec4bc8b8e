package study

import (
	"context"
	"fmt"
	"math"
	"slices"

	"loamledger/sim/soilwater"
	"loamledger/sim/tune"
	"loamledger/weather/quantity"
)

// A FitKey names a parameter that can be fitted to measured soil water.
type FitKey string

// The parameters.
const (
	FitK   FitKey = "k"   // plant coefficient, all year by one factor
	FitAWC FitKey = "awc" // available water capacity
)

// FitKeys lists the parameters.
func FitKeys() []FitKey { return []FitKey{FitK, FitAWC} }

// The bounds of a fit, as factors of the value before it. Choices of ours: wider
// would hide an error in the record rather than correct a parameter.
const (
	fitLow  = 0.5
	fitHigh = 1.5
)

// A MeasuredFit is the result of a fit to one half of a record.
type MeasuredFit struct {
	byYears bool // the halves are odd and even years; else odd and even months
	fitted  []fitParam
	Before  [2]soilwater.Score // of the half that was fitted, and of the half held out
	After   [2]soilwater.Score
	lines   []string // of the zone, to paste; empty if the held-out half is not clearly better
}

// leastFitDays is the number of days of each half below which nothing is fitted. A
// choice of ours.
const leastFitDays = 30

// clearGain is the share by which the error of the held-out half must fall for a
// fit to be worth pasting. A choice of ours.
const clearGain = 0.05

// Better reports whether the fit follows the held-out half clearly better than
// before.
func (f *MeasuredFit) Better() bool { return f.After[1].RMSEMM <= (1-clearGain)*f.Before[1].RMSEMM }

// A fitParam is one fitted parameter. Values are K in full growth or the highest K
// of a month, and AWC [mm/m].
type fitParam struct {
	Key           FitKey
	Before, After float64
	Low, High     float64 // bounds
	AtBound       bool
}

// fitMeasured fits parameters in the order named, each by a search over its bounds
// while the others stay, in rounds until none changes.
func (l *Study) fitMeasured(ctx context.Context, m *Measured, first int) (*MeasuredFit, error) {
	f := &MeasuredFit{}
	fitted := f.half(m)
	score := func(by changed) ([2]soilwater.Score, error) {
		s, err := l.measuredRun(ctx, m, first, by)
		if err != nil {
			return [2]soilwater.Score{}, err
		}
		return [2]soilwater.Score{
			s.Scores(func(i int) bool { return fitted(s, i) })[soilwater.WholeYear],
			s.Scores(func(i int) bool { return !fitted(s, i) })[soilwater.WholeYear],
		}, nil
	}
	best := changed{k: 1, awc: 1}
	var err error
	if f.Before, err = score(best); err != nil {
		return nil, err
	}
	f.After = f.Before
	if min(f.Before[0].Days, f.Before[1].Days) < leastFitDays {
		return nil, nil
	}
	const rounds = 4
	for range rounds {
		was := best
		for _, key := range m.options.Fit {
			if best, err = fitOne(key, best, f, score); err != nil {
				return nil, err
			}
		}
		if best == was {
			break
		}
	}
	f.params(l, m, best)
	if f.Better() {
		f.lines = l.fitLines(m, best)
	}
	return f, nil
}

// half returns which days are fitted: odd years if odd and even ones were measured,
// else odd months.
func (f *MeasuredFit) half(m *Measured) func(s *soilwater.Series, i int) bool {
	days := [2]int{}
	for i, v := range m.Series.MeasuredMM {
		if !math.IsNaN(v) {
			days[m.Series.Date(i).Year()%2]++
		}
	}
	const enough = 120
	if f.byYears = days[0] >= enough && days[1] >= enough; f.byYears {
		return func(s *soilwater.Series, i int) bool { return tune.Odd(s.Date(i).Year()) }
	}
	return func(s *soilwater.Series, i int) bool { return s.Date(i).Month()%2 == 1 }
}

// fitOne searches the bounds of one parameter, coarsely and then finely.
func fitOne(key FitKey, best changed, f *MeasuredFit, score func(changed) ([2]soilwater.Score, error)) (changed, error) {
	const steps = 10
	from := best
	at := &from.k
	if key == FitAWC {
		at = &from.awc
	}
	low, high := fitLow, fitHigh
	for range 3 {
		width := (high - low) / steps
		center := best
		for i := range steps + 1 {
			*at = low + float64(float64(i)*width)
			got, err := score(from)
			if err != nil {
				return best, err
			}
			if got[0].RMSEMM < f.After[0].RMSEMM {
				f.After, center = got, from
			}
		}
		best = center
		middle := best.k
		if key == FitAWC {
			middle = best.awc
		}
		low, high = max(middle-width, fitLow), min(middle+width, fitHigh)
	}
	return best, nil
}

// params lists the parameters before and after.
func (f *MeasuredFit) params(l *Study, m *Measured, by changed) {
	z := &l.Job.Zones[m.options.Zone]
	for _, key := range m.options.Fit {
		v, factor := m.TAWMM/m.reachM, by.awc
		if key == FitK {
			v, factor = 0, by.k
			for _, k := range z.K {
				v = max(v, k)
			}
			if s := z.Season; s != nil && !s.ActivityOnly {
				v = s.Ka
			}
		}
		f.fitted = append(f.fitted, fitParam{Key: key, Before: v, After: v * factor, Low: v * fitLow, High: v * fitHigh,
			AtBound: factor < fitLow+1e-6 || factor > fitHigh-1e-6})
	}
}

// fitLines writes the keys of the zone that differ in the fitted replay. K is that
// of the scenario, before density and microclimate.
func (l *Study) fitLines(m *Measured, by changed) []string {
	z := &l.Scenario.Zones[m.options.Zone]
	var plant, soil []string
	if m.options.Soil != SoilOfScenario || slices.Contains(m.options.Fit, FitAWC) { // the replay had another than the scenario's
		soil = []string{"    awc: " + exactly(m.TAWMM/m.reachM*by.awc, quantity.Capacity, l.Scenario.Units)}
	}
	if slices.Contains(m.options.Fit, FitK) {
		switch s := z.Season; {
		case s != nil && !s.ActivityOnly:
			plant = []string{fmt.Sprintf("    k_growing: %.3g", z.PlantSeason.Ka*by.k), fmt.Sprintf("    k_resting: %.3g", z.PlantSeason.Kd*by.k)}
		default:
			plant = []string{"    k: " + months(z.PlantK, by.k)}
		}
	}
	lines := []string{"- name: " + quoted(z.Name)}
	if plant != nil {
		lines = append(append(lines, "  plant:"), plant...)
	}
	if soil != nil {
		lines = append(append(lines, "  soil:"), soil...)
	}
	return lines
}

// months writes twelve coefficients times by, or one if they are equal.
func months(k [12]float64, by float64) string {
	list, same := "[", true
	for i, v := range k {
		if i > 0 {
			list += ", "
		}
		list += fmt.Sprintf("%.3g", v*by)
		same = same && v == k[0]
	}
	if same {
		return fmt.Sprintf("%.3g", k[0]*by)
	}
	return list + "]"
}

// exactly writes a value with its unit, to four significant digits.
func exactly(v float64, dim quantity.Dimension, sys quantity.System) string {
	return fmt.Sprintf("%.4g %s", quantity.Convert(v, dim, sys), quantity.Label(dim, sys))
}

func quoted(name string) string { return fmt.Sprintf("%q", name) }
