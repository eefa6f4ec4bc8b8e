package generate

import (
	"errors"
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/portable"
)

// residualColumns are in the order of [matrix].
var residualColumns = [3]weather.Column{weather.Tmax, weather.Tmin, weather.Rs}

// temperatures fits the means and spreads of Tmax, Tmin and radiation.
func (f *fitter) temperatures() error {
	for j, c := range residualColumns {
		if j == 2 && !f.p.radiation {
			continue
		}
		mean, sd, pooled, err := f.byState(c)
		if err != nil {
			return err
		}
		f.note(weather.CodeFitFewDays, c.Key(), pooled, "the other state's values with the annual mean difference used",
			"months with fewer than %d dry or wet days that have %s", leastInBin, c.Label())
		for m := range 12 {
			p := &f.p.month[m]
			switch j {
			case 0:
				p.tmaxC, p.tmaxSD = mean[m], sd[m]
			case 1:
				p.tminC, p.tminSD = mean[m], sd[m]
			case 2:
				p.rsMJ, p.rsSD = mean[m], sd[m]
			}
		}
	}
	return nil
}

// byState returns the mean of c by month and state, and the standard deviation
// around the curve through the means.
func (f *fitter) byState(c weather.Column) (mean, sd [12][2]float64, pooled int, err error) {
	var bins [12][2]sums
	f.each(c, func(v float64, month, at, state int) { bins[month][state].add(v) })
	var apart sums // wet minus dry
	for m := range 12 {
		if bins[m][dryDay].n()+bins[m][wetDay].n() < leastInBin {
			return mean, sd, 0, fmt.Errorf("the record has %s on %.0f days of %s; a fit needs at least %d", c.Key(),
				bins[m][dryDay].n()+bins[m][wetDay].n(), monthNames[m], leastInBin)
		}
		if bins[m][dryDay].n() >= leastInBin && bins[m][wetDay].n() >= leastInBin {
			apart.add(bins[m][wetDay].mean() - bins[m][dryDay].mean())
		}
	}
	var few [12][2]bool
	for m := range 12 {
		for s := range 2 {
			mean[m][s] = bins[m][s].mean()
		}
		for s := range 2 {
			if bins[m][s].n() >= leastInBin {
				continue
			}
			pooled++
			few[m][s] = true
			sign := float64(2*s - 1)
			mean[m][s] = bins[m][1-s].mean() + float64(sign*apart.mean())
			if c == weather.Rs {
				mean[m][s] = max(0, mean[m][s])
			}
		}
	}
	line := [2][yearDays]float64{}
	for s := range 2 {
		var v [12]float64
		for m := range 12 {
			v[m] = mean[m][s]
		}
		line[s] = curve(v)
	}
	bins = [12][2]sums{}
	f.each(c, func(v float64, month, at, state int) { bins[month][state].add(v - line[state][at]) })
	for m := range 12 {
		for s := range 2 {
			from := s
			if few[m][s] {
				from = 1 - s
			}
			sd[m][s] = bins[m][from].sd()
		}
	}
	return mean, sd, pooled, nil
}

// each calls do for every day with c and a known state.
func (f *fitter) each(c weather.Column, do func(v float64, month, at, state int)) {
	for i := range f.s.Days {
		state, ok := f.state(i)
		if v := f.s.At(c, i); ok && !math.IsNaN(v) {
			month, at := place(f.s.Date(i))
			do(v, month, at, state)
		}
	}
}

var errPairs = errors.New("the record has too few consecutive days with rain and temperatures for correlations")

// correlations fits m0 and m1 to the residuals, each pair over the days that
// have both.
func (f *fitter) correlations() error {
	x := f.residuals()
	many := 2
	if f.p.radiation {
		many = 3
	}
	f.p.m0, f.p.m1 = matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}, matrix{}
	for i := range many {
		for j := range many {
			var r0, r1 correlation
			for t := range x {
				r0.add(x[t][i], x[t][j])
				if t > 0 {
					r1.add(x[t][i], x[t-1][j])
				}
			}
			if len(r1.x) < leastPairs {
				return errPairs
			}
			if i != j {
				f.p.m0[i][j] = r0.value()
			}
			f.p.m1[i][j] = r1.value()
		}
	}
	_, _, err := carry(f.p.m0, f.p.m1)
	return err
}

// residuals returns the standardized residuals, NaN if unknown.
func (f *fitter) residuals() [][3]float64 {
	x := make([][3]float64, f.s.Days)
	nan := math.NaN()
	for i := range x {
		x[i] = [3]float64{nan, nan, nan}
	}
	for j, c := range residualColumns {
		if j == 2 {
			f.radiationScores(x)
			continue
		}
		get := func(m *monthParams) (mean, sd *[2]float64) {
			if j == 0 {
				return &m.tmaxC, &m.tmaxSD
			}
			return &m.tminC, &m.tminSD
		}
		var line [2][yearDays]float64
		for s := range 2 {
			line[s] = curve(f.p.monthly(func(m *monthParams) float64 { mean, _ := get(m); return mean[s] }))
		}
		for i := range x {
			state, ok := f.state(i)
			if !ok {
				continue
			}
			month, at := place(f.s.Date(i))
			_, sd := get(&f.p.month[month])
			if sd[state] > 0 {
				x[i][j] = (f.s.At(c, i) - line[state][at]) / sd[state]
			}
		}
	}
	return x
}

// radiationScores stores the residuals of radiation in x, in the form they are drawn.
func (f *fitter) radiationScores(x [][3]float64) {
	if !f.p.radiation {
		return
	}
	sun := newSunshine(&f.p, f.s.Station)
	for i := range x {
		v := f.s.At(weather.Rs, i)
		if state, ok := f.state(i); ok && !math.IsNaN(v) {
			_, at := place(f.s.Date(i))
			x[i][2] = sun.score(state, at, v)
		}
	}
}

// A correlation accumulates pairs; pairs with an unknown value are ignored.
type correlation struct{ x, y []float64 }

func (c *correlation) add(x, y float64) {
	if math.IsNaN(x) || math.IsNaN(y) {
		return
	}
	c.x, c.y = append(c.x, x), append(c.y, y)
}

// value is 0 if either quantity is constant.
func (c *correlation) value() float64 {
	if r := portable.Correlation(c.x, c.y); !math.IsNaN(r) {
		return r
	}
	return 0
}
