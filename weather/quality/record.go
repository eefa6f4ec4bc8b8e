package quality

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// leapDays reports archives that end leap years on December 30.
func (k *checker) leapDays() {
	empty := func(i int) bool {
		for c := range weather.Columns {
			if known(k.s.At(c, i)) {
				return false
			}
		}
		return true
	}
	t := tally{rule: rule{code: weather.CodeDay366Absent, whole: true, what: "December 31 of leap years has no values",
		action: kept + " as missing", source: noSource}}
	others := 0
	for y := k.s.Start.Year(); y <= k.s.End().Year(); y++ {
		i := int(cal.Of(y, 12, 31) - k.s.Start)
		if i < 0 || i >= k.s.Days {
			continue
		}
		switch {
		case !empty(i):
			others++
			if cal.IsLeap(y) {
				return
			}
		case cal.IsLeap(y) && t.hit(i, 0):
			t.detail = "first such day"
		}
	}
	if others > 0 {
		k.tell(&t)
	}
}

const (
	stepYears   = 3   // years on either side of a step
	stepYearMin = 300 // days a year must have
	stepC       = 2.0 // change of the mean [°C]
	stepRatio   = 1.4 // change of the mean wind
)

// steps reports years in which the mean changes as it does when a station or
// sensor is moved.
func (k *checker) steps() {
	for _, c := range [...]weather.Column{weather.Tmax, weather.Tmin, weather.Wind} {
		if !k.s.Has(c) {
			continue
		}
		means := k.yearMeans(c)
		t := tally{rule: rule{code: weather.CodeLevelChange, column: c,
			what: fmt.Sprintf("the means of %d years and of the %d years before differ by more than %g °C: the station or sensor may have moved",
				stepYears, stepYears, stepC), action: kept, source: noSource + "; " + ownThreshold}}
		if c == weather.Wind {
			t.what = fmt.Sprintf("the means of %d years and of the %d years before differ by more than a factor of %g: the anemometer may have "+
				"moved or worn out", stepYears, stepYears, stepRatio)
		}
		for y := stepYears; y+stepYears <= len(means); y++ {
			before, after := 0.0, 0.0
			for j := range stepYears {
				before, after = before+means[y-1-j]/stepYears, after+means[y+j]/stepYears
			}
			badness := math.Abs(after - before)
			if c == weather.Wind {
				badness = max(after/before, before/after) - stepRatio + stepC
			}
			if badness > stepC {
				at := max(0, int(cal.Of(k.s.Start.Year()+y, 1, 1)-k.s.Start))
				if t.hit(at, badness) {
					t.detail = fmt.Sprintf("%.2f before, %.2f %s after", before, after, c.Unit())
				}
			}
		}
		if t.n > 0 {
			t.n = 1 // One step shows up in several consecutive years.
		}
		k.tell(&t)
	}
}

// yearMeans returns the mean of c by calendar year, NaN if a year has too few days.
func (k *checker) yearMeans(c weather.Column) []float64 {
	first := k.s.Start.Year()
	n := k.s.End().Year() - first + 1
	sum, days := make([]float64, n), make([]int, n)
	for i, v := range k.s.Data[c] {
		if known(v) {
			y := int(k.days.year[i]) - first
			sum[y] += v
			days[y]++
		}
	}
	for y := range sum {
		sum[y] /= float64(days[y])
		if days[y] < stepYearMin {
			sum[y] = math.NaN()
		}
	}
	return sum
}
