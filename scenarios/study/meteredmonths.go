package study

import (
	"math"

	"loamledger/weather/cal"
)

// meteredMonths returns what meters read in each calendar month, less base use, as a
// depth over their zones [mm]: the mean use a day on the days on which all of them have
// periods that count, before any change, times the days of the month. A month with less
// than base use has 0. It is NaN for a month without such days, and nil if no month has
// any, or the meters do not cover the given number of zones.
func (l *Study) meteredMonths(list []*ComparedMeter, zones int) *[12]float64 {
	days := make([]float64, l.Job.Weather.Days())
	area := 0.0
	for _, m := range list {
		outdoor := m.Site.Outdoor(m.Comparison)
		if outdoor == nil {
			return nil
		}
		for i, m3 := range outdoor {
			days[i] += m3
		}
		area += m.areaM2
		zones -= len(m.Zones)
	}
	if zones > 0 || !(area > 0) {
		return nil
	}
	var sum, n [12]float64
	for i, m3 := range days {
		if !math.IsNaN(m3) {
			month := (l.Weather.Start + cal.Date(i)).Month() - 1
			sum[month] += m3
			n[month]++
		}
	}
	var out [12]float64
	known := false
	for month := range out {
		out[month] = math.NaN()
		if n[month] > 0 {
			mean := 1000 * sum[month] / n[month] * float64(cal.DaysIn(2023, month+1)) / area
			out[month], known = max(mean, 0), true
		}
	}
	if !known {
		return nil
	}
	return &out
}
