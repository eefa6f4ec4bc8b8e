package generate

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/portable"
)

// windAndDew fits monthly wind with its spread and persistence, and how far the
// dew point is below Tmin, with its persistence.
func (f *fitter) windAndDew() error {
	if f.p.wind {
		if err := f.wind(); err != nil {
			return err
		}
	}
	if f.p.dew {
		f.dew()
	}
	return nil
}

func (f *fitter) wind() error {
	const calm = 0.1 // [m/s], the minimum generated
	var month [12]sums
	for i := range f.s.Days {
		if v := f.s.At(weather.Wind, i); !math.IsNaN(v) {
			m, _ := place(f.s.Date(i))
			month[m].add(max(v, calm))
		}
	}
	for m := range month {
		if month[m].n() < leastInBin {
			return fmt.Errorf("the record has wind on %.0f days of %s; a fit needs at least %d", month[m].n(), monthNames[m], leastInBin)
		}
		f.p.month[m].windMS = month[m].mean()
	}
	line := curve(f.p.monthly(func(m *monthParams) float64 { return m.windMS }))
	var ratio sums
	var carry correlation
	before := math.NaN()
	for i := range f.s.Days {
		_, at := place(f.s.Date(i))
		r := max(f.s.At(weather.Wind, i), calm) / line[at]
		if !math.IsNaN(r) {
			ratio.add(r)
		}
		carry.add(portable.Log(r), before)
		before = portable.Log(r)
	}
	f.p.windCV = min(2, ratio.sd()/ratio.mean())
	if len(carry.x) >= leastPairs {
		f.p.windLag = min(max(carry.value(), -0.95), 0.95)
	}
	return nil
}

func (f *fitter) dew() {
	var bins [12][2]sums
	above := 0
	for i := range f.s.Days {
		below := f.s.At(weather.Tmin, i) - f.s.At(weather.Tdew, i)
		state, ok := f.state(i)
		if !ok || math.IsNaN(below) {
			continue
		}
		if below < 0 {
			above++
		}
		m, _ := place(f.s.Date(i))
		bins[m][state].add(below)
	}
	f.note(weather.CodeFitDewAboveTmin, weather.Tdew.Key(), above,
		"averaged with the others; the generator keeps the dew point at or below Tmin",
		"days with a dew point above Tmin")
	for m := range bins {
		for s := range 2 {
			b := bins[m][s]
			if b.n() < leastInBin {
				b = bins[m][1-s]
			}
			f.p.month[m].dewBelowC[s] = min(30, max(0, b.mean()))
		}
	}
	f.dewLag()
}

// dewLag fits how dryness of the air lasts from day to day.
func (f *fitter) dewLag() {
	var carry correlation
	before := math.NaN()
	for i := range f.s.Days {
		z := math.NaN()
		m, _ := place(f.s.Date(i))
		state, ok := f.state(i)
		below := f.s.At(weather.Tmin, i) - f.s.At(weather.Tdew, i)
		if mean := f.p.month[m].dewBelowC[state]; ok && below > 0 && mean > 0 {
			shape := dewShape(mean)
			z = portable.NormalQuantile(portable.GammaCDF(shape, below*shape/mean))
		}
		if math.IsInf(z, 0) {
			z = math.NaN()
		}
		carry.add(z, before)
		before = z
	}
	if len(carry.x) >= leastPairs {
		f.p.dewLag = min(max(carry.value(), -0.95), 0.95)
	}
}
