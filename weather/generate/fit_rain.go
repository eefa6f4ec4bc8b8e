package generate

import (
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

// rain fits the chain of wet days and their amounts, month by month.
func (f *fitter) rain() error {
	var after [12][2][2]float64 // days by month, previous state and state
	var amount [12]sums         // above the threshold
	var all sums
	below, lost := 0, 0.0
	before, knownBefore := dryDay, false
	for i := range f.s.Days {
		state, ok := f.state(i)
		if ok {
			m, _ := place(f.s.Date(i))
			mm := f.s.At(weather.Rain, i)
			switch {
			case state == wetDay:
				amount[m].add(mm - f.p.wetMM())
				all.add(mm - f.p.wetMM())
			case mm > 0:
				below++
				lost += mm
			}
			if knownBefore {
				after[m][before][state]++
			}
		}
		before, knownBefore = state, ok
	}
	f.note(weather.CodeFitLightRain, weather.Rain.Key(), below, "counted as dry",
		"rain below the wet-day threshold of %g mm, %.1f mm in total", f.p.wetMM(), lost)
	pooled := 0
	for m := range 12 {
		p := &f.p.month[m]
		dry, wet := after[m][dryDay], after[m][wetDay]
		p.wetAfterDry = share(dry[wetDay], dry[dryDay], 0)
		p.wetAfterWet = share(wet[wetDay], wet[dryDay], p.wetAfterDry)
		a := amount[m]
		if a.n() > 0 && a.n() < leastInBin {
			pooled++
			a.plus(amount[(m+1)%12])
			a.plus(amount[(m+11)%12])
			if a.n() < leastInBin {
				a = all
			}
		}
		p.shape, p.scaleMM = byMoments(a)
	}
	f.note(weather.CodeFitFewWetDays, weather.Rain.Key(), pooled,
		"amounts pooled with the neighboring months, or with the whole year if those are also few",
		"months with fewer than %d wet days in the record", leastInBin)
	return nil
}

func share(yes, no, none float64) float64 {
	if yes+no == 0 {
		return none
	}
	return yes / (yes + no)
}

// byMoments returns the shape and scale of the gamma distribution with the mean
// and variance of the amounts, so that generated rain has both. Maximum
// likelihood would depend on the smallest amounts, which gauges round.
func byMoments(a sums) (shape, scaleMM float64) {
	const leastMM, leastShape, mostShape = 0.01, 0.1, 50
	mean := max(a.mean(), leastMM)
	shape = 1.0
	if v := a.variance(); v > 0 {
		shape = min(max(mean*mean/v, leastShape), mostShape)
	}
	return shape, mean / shape
}

// spread sets how much years differ beyond the chain's own variation.
//
//	var(year) = Σ n [f v + m² f (1-f) (1+d)/(1-d)]
//
// with n the days of the month, f the share of wet days, d the persistence of
// the chain, m and v the mean and variance of a wet day's rain: the variance of
// a sum over a two-state chain, for long months. Excess variance in the record
// goes to YearSpread. Source: Katz and Parlange (1998), from memory, for the
// need; the variance is the standard one for a Markov chain.
func (f *fitter) spread() error {
	var years sums
	for y := f.s.Start.Year(); y <= f.s.End().Year(); y++ {
		if total, ok := f.yearRain(y); ok {
			years.add(total)
		}
	}
	if years.n() < leastYears || years.mean() == 0 {
		f.note(weather.CodeFitFewYears, weather.Rain.Key(), leastYears-int(years.n()), "no year-to-year spread is added beyond chance",
			"the record has %d whole years of rain; year-to-year spread needs %d", int(years.n()), leastYears)
		return nil
	}
	excess := max(0, years.variance()-f.p.yearVariance())
	// A lognormal factor of spread σ has variance exp(σ²) - 1.
	f.p.yearSpread = min(1, math.Sqrt(portable.Log(1+excess/(years.mean()*years.mean()))))
	return nil
}

func (f *fitter) yearRain(y int) (total float64, ok bool) {
	from, to := cal.Of(y, 1, 1)-f.s.Start, cal.Of(y+1, 1, 1)-f.s.Start
	if from < 0 || int(to) > f.s.Days {
		return 0, false
	}
	const mostMissing = 5 // days per year that may be missing rain
	missing := 0
	for i := from; i < to; i++ {
		mm := f.s.At(weather.Rain, int(i))
		if math.IsNaN(mm) {
			missing++
			continue
		}
		if mm >= f.p.wetMM() {
			total += mm
		}
	}
	return total, missing <= mostMissing
}

// yearVariance is the variance of annual rain [mm²] without YearSpread.
func (p *Params) yearVariance() (v float64) {
	for i, m := range p.month {
		f, d := m.wetShare(), m.wetAfterWet-m.wetAfterDry
		mean := p.wetMM() + float64(m.shape*m.scaleMM)
		chain := 0.0
		if d < 1 {
			chain = f * (1 - f) * (1 + d) / (1 - d)
		}
		v += float64(monthDays[i] * (float64(f*m.shape*m.scaleMM*m.scaleMM) + float64(mean*mean*chain)))
	}
	return v
}
