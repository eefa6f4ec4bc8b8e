package generate

import (
	"math"

	"loamledger/weather/cal"
)

// yearDays is the length of the yearly curves: a leap year, so that a date has
// the same index every year.
const yearDays = 366

var monthStart = func() (start [13]int) {
	for m := range 13 {
		start[m] = int(cal.Of(2000, m+1, 1) - cal.Of(2000, 1, 1))
	}
	return start
}()

// place returns the month, from 0, and the index of d in the yearly curves.
func place(d cal.Date) (month, at int) {
	_, m, day := d.YMD()
	return m - 1, monthStart[m-1] + day - 1
}

// curve returns a line through the year, linear between mid-months, whose mean
// over each month equals that month's value. Knots at the values themselves
// would clip the warmest and coldest months.
func curve(month [12]float64) (days [yearDays]float64) {
	knots := month
	const rounds = 40 // each round at least halves the remaining error
	for range rounds {
		days = throughKnots(knots)
		worst := 0.0
		for m := range 12 {
			sum := 0.0
			for i := monthStart[m]; i < monthStart[m+1]; i++ {
				sum += days[i]
			}
			off := month[m] - sum/float64(monthStart[m+1]-monthStart[m])
			knots[m] += off
			worst = max(worst, math.Abs(off))
		}
		if worst < 1e-9 {
			break
		}
	}
	return days
}

func throughKnots(knots [12]float64) (days [yearDays]float64) {
	middle := func(m int) float64 { return float64(float64(monthStart[m]+monthStart[m+1]-1) / 2) }
	for m := range 12 {
		next := (m + 1) % 12
		from, to := middle(m), middle(next)
		if next == 0 {
			to += yearDays
		}
		for i := int(math.Ceil(from)); float64(i) < to; i++ {
			w := (float64(i) - from) / (to - from)
			days[i%yearDays] = knots[m] + float64(w*(knots[next]-knots[m]))
		}
	}
	return days
}
