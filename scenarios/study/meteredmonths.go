package study

import (
	"math"

	"loamledger/sim/money"
	"loamledger/weather/cal"
)

// meteredMonths returns what the meters of the site read in each calendar month, less
// the use indoors, as a depth over the zones [mm]: the mean use a day on the days on which
// every meter has reads, times the days of the month. It is NaN for a month without such
// days, and nil if no month has any. The use of a read is spread evenly over its days.
func (l *Study) meteredMonths() *[12]float64 {
	m := l.Money
	if m == nil || len(m.metered) == 0 {
		return nil
	}
	n := l.Job.Weather.Days()
	m3, meters := make([]float64, n), make([]int, n)
	for i := range m.metered {
		r := &m.metered[i]
		outdoors := r.Volume
		if r.Indoor != nil {
			outdoors = money.Max(outdoors.Sub(*r.Indoor), money.Num{})
		}
		day := outdoors.Mul(m.Rates.UnitL).Float64() / 1000 / float64(r.Days())
		for d := r.From; d < r.To; d++ {
			m3[d-l.Weather.Start] += day
			meters[d-l.Weather.Start]++
		}
	}
	area := 0.0
	for z := range l.Job.Zones {
		area += l.Job.Zones[z].AreaM2
	}
	var sum, days [12]float64
	for i := range n {
		if meters[i] == len(m.Meters) {
			month := (l.Weather.Start + cal.Date(i)).Month() - 1
			sum[month] += m3[i]
			days[month]++
		}
	}
	var out [12]float64
	known := false
	for month := range out {
		out[month] = math.NaN()
		if days[month] > 0 {
			out[month] = 1000 * sum[month] / days[month] * float64(cal.DaysIn(2023, month+1)) / area
			known = true
		}
	}
	if !known {
		return nil
	}
	return &out
}
