package quality

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/portable"
)

const (
	aheadYear     = 2040 // no station has observed it; a century mistyped is beyond it
	seasonDays    = 330  // days of the year with values that a season needs
	seasonLeastC  = 5    // amplitude of the yearly wave of temperature
	seasonShare   = 0.2  // amplitude of the wave of radiation, of its mean
	seasonLat     = 25   // degrees from the equator from which seasons are sure
	seasonOff     = 75   // days by which a peak may be early or late
	warmestDay    = 205  // late July in the north: a month after the solstice
	brightestDay  = 172  // the solstice
	halfYear      = 182
	swapC         = 8   // difference of two months that tells a swapped date
	swapDays      = 30  // days with such a difference needed
	swapShare     = 0.6 // share of them closer to the other month; in weather it is below 0.2
	yearOfTheWave = 365.25
)

// dates checks the dates by the seasons.
func (k *checker) dates() {
	k.ahead()
	k.shifted(weather.Tmax, warmestDay)
	k.shifted(weather.Rs, brightestDay)
	k.swapped()
}

// ahead reports observations dated far in the future; synthetic days may be.
func (k *checker) ahead() {
	t := tally{rule: rule{code: weather.CodeDatesAhead, whole: true, action: kept, source: ownThreshold,
		what: fmt.Sprintf("days dated after %d that are not marked as synthetic", aheadYear)}}
	for i := max(0, int(cal.Of(aheadYear+1, 1, 1)-k.s.Start)); i < k.s.Days; i++ {
		for c := range weather.Columns {
			if known(k.s.At(c, i)) && k.s.Mark[c][i] != weather.Synthetic && t.hit(i, 0) {
				t.detail = "from this day on"
			}
		}
	}
	if t.n > 0 {
		t.n = k.s.Days - t.at
	}
	k.tell(&t)
}

// shifted compares the warmest or brightest time of the year with the
// station's hemisphere.
func (k *checker) shifted(c weather.Column, peak float64) {
	lat := k.s.Station.LatDeg
	if !(math.Abs(lat) >= seasonLat && math.Abs(lat) <= 90) || !k.s.Has(c) {
		return
	}
	var sum [367]float64
	var n [367]int
	for i, v := range k.s.Data[c] {
		if known(v) {
			sum[k.days.doy[i]] += v
			n[k.days.doy[i]]++
		}
	}
	days, mean, cos, sin := 0, 0.0, 0.0, 0.0
	for d := range sum {
		if n[d] > 0 {
			v := sum[d] / float64(n[d])
			a := 2 * math.Pi * float64(d) / yearOfTheWave
			days, mean, cos, sin = days+1, mean+v, cos+float64(v*portable.Cos(a)), sin+float64(v*portable.Sin(a))
		}
	}
	amplitude := 2 * portable.Hypot(cos, sin) / float64(days)
	if days < seasonDays || c == weather.Tmax && amplitude < seasonLeastC || c == weather.Rs && amplitude < seasonShare*mean/float64(days) {
		return
	}
	at := math.Mod(float64(portable.Atan2(sin, cos)/(2*math.Pi)*yearOfTheWave)+yearOfTheWave, yearOfTheWave)
	if lat < 0 {
		peak += halfYear
	}
	off := math.Remainder(at-peak, yearOfTheWave)
	if math.Abs(off) <= seasonOff {
		return
	}
	side := "north"
	if lat < 0 {
		side = "south"
	}
	k.column(weather.CodeDatesShifted, c, k.s.Days, "", ownThreshold,
		fmt.Sprintf("the yearly wave of %s is highest within %d days of its season", c.Label(), seasonOff),
		"it is highest near day %.0f of the year, %+.0f days from the season at %.1f° %s: the dates are shifted, or the "+
			"sign of the latitude is wrong",
		at, off, math.Abs(lat), side)
}

// swapped reports dates whose day and month look exchanged: days up to the 12th
// then have the temperatures of the month that their day names.
func (k *checker) swapped() {
	tmax := k.s.Data[weather.Tmax]
	if tmax == nil {
		return
	}
	day := make([]int8, k.s.Days)
	var sum [13]float64
	var n [13]int
	for i := range day {
		if i == 0 || k.days.month[i] != k.days.month[i-1] {
			_, _, d := k.s.Date(i).YMD()
			day[i] = int8(d)
		} else {
			day[i] = day[i-1] + 1
		}
		if v := tmax[i]; known(v) && day[i] > 12 {
			sum[k.days.month[i]] += v
			n[k.days.month[i]]++
		}
	}
	var mean [13]float64
	for m := range sum {
		mean[m] = math.NaN()
		if n[m] >= 10 {
			mean[m] = sum[m] / float64(n[m])
		}
	}
	t := tally{rule: rule{code: weather.CodeDatesSwapped, whole: true, action: kept, source: ownThreshold,
		what: fmt.Sprintf("%g%% or more of the days up to the 12th have the temperature of the month that their day names: day "+
			"and month are swapped", 100*swapShare)}}
	all := 0
	for i, v := range tmax {
		m, d := k.days.month[i], day[i]
		if d > 12 || !(math.Abs(mean[m]-mean[d]) > swapC) || !known(v) {
			continue
		}
		all++
		if math.Abs(v-mean[d]) < math.Abs(v-mean[m]) && t.hit(i, math.Abs(v-mean[m])) {
			t.detail = fmt.Sprintf("Tmax %.1f °C; month %d has %.1f, month %d has %.1f", v, m, mean[m], d, mean[d])
		}
	}
	if all >= swapDays && float64(t.n) >= swapShare*float64(all) {
		t.detail = fmt.Sprintf("%d of %d days; worst %s", t.n, all, t.detail)
		k.tell(&t)
	}
}
