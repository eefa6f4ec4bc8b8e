package forecast

import (
	"math"
	"slices"

	"loamledger/weather"
	"loamledger/weather/portable"
)

// A month summarizes the events of one calendar month.
type month struct {
	known, events int
	amounts       []float64 // of events, ascending; of the whole year if the month has few
}

func (m *month) baseRate() float64 {
	if m.known == 0 {
		return 0
	}
	return float64(m.events) / float64(m.known)
}

// A climate is what a forecaster knows of each month, January first.
type climate [12]month

// falseAlarm draws from the events of month m; squaring a uniform number favors
// light ones.
func (c *climate) falseAlarm(m int, e errs) float64 {
	u := portable.NormalCDF(e.amount)
	from := c[m].amounts
	return from[min(int(u*u*float64(len(from))), len(from)-1)]
}

// climates holds the days of a record by year and month, and the climate of the
// year asked for last.
type climates struct {
	firstYear int
	years     []climate // events in the order of the record

	year int // of the two below
	last climate
	own  [12]bool
}

func newClimates(s *weather.Series, thresholdMM float64) *climates {
	k := &climates{firstYear: s.Start.Year(), year: math.MinInt}
	k.years = make([]climate, s.End().Year()-k.firstYear+1)
	for i := range s.Days {
		v := s.At(weather.Rain, i)
		if math.IsNaN(v) {
			continue
		}
		y, m, _ := s.Date(i).YMD()
		one := &k.years[y-k.firstYear][m-1]
		one.known++
		if v >= thresholdMM {
			one.events++
			one.amounts = append(one.amounts, v)
		}
	}
	return k
}

// of returns the climate for forecasts of days in the given year: that of all
// other years. A month without days in other years is that of the year itself,
// which own reports.
func (k *climates) of(year int) (c *climate, own *[12]bool) {
	const few = 20 // events, below which the month's amounts are not representative
	if year == k.year {
		return &k.last, &k.own
	}
	k.year, k.last, k.own = year, climate{}, [12]bool{}
	var all []float64
	for m := range k.last {
		one := &k.last[m]
		for y := range k.years {
			if y != year-k.firstYear {
				one.add(&k.years[y][m])
			}
		}
		if here := &k.years[year-k.firstYear][m]; one.known == 0 && here.known > 0 {
			one.add(here)
			k.own[m] = true
		}
		slices.Sort(one.amounts)
		all = append(all, one.amounts...)
	}
	slices.Sort(all)
	for m := range k.last {
		if len(k.last[m].amounts) < few {
			k.last[m].amounts = all
		}
	}
	return &k.last, &k.own
}

// add adds the days of b.
func (m *month) add(b *month) {
	m.known += b.known
	m.events += b.events
	m.amounts = append(m.amounts, b.amounts...)
}
