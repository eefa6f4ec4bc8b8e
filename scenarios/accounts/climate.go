package accounts

import (
	"loamledger/sim/portfolio"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// A climate is the mean year of a station: of its whole calendar years, none if it has none.
type climate struct {
	Years         int
	RainMM, EToMM float64 // a year
}

// climateOf returns the mean year of a record that begins on start.
func climateOf(start cal.Date, rain, eto []float64) (c climate) {
	end := start + cal.Date(len(eto))
	y, _, _ := start.YMD()
	for ; ; y++ {
		from, to := tally.YearSpan(y, false)
		if to > end {
			break
		}
		if from < start {
			continue
		}
		c.Years++
		for d := from - start; d < to-start; d++ {
			c.RainMM += rain[d]
			c.EToMM += eto[d]
		}
	}
	if c.Years > 0 {
		c.RainMM /= float64(c.Years)
		c.EToMM /= float64(c.Years)
	}
	return c
}

// put writes the climate into the row of an account.
func (c *climate) put(a *portfolio.Account) {
	if c.Years > 0 {
		a.RainMM, a.EToMM = &c.RainMM, &c.EToMM
	}
}
