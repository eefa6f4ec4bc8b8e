package quality

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather"
	"loamledger/weather/portable"
)

// A unitBreak says how to look for a change of unit in a column: the bulk of
// the values in a window before a day is compared with that in a window after.
type unitBreak struct {
	column  weather.Column
	window  int     // days on either side
	least   int     // values needed on either side; rain counts wet days
	span    int     // days of the record needed on either side; 0 for any
	at      float64 // quantile that is compared
	factors []breakFactor
}

// A breakFactor is the ratio by which a change of unit multiplies values. tol
// is the factor by which seasons and chance may move it.
type breakFactor struct {
	ratio, tol float64
	units      string
	least      int // values needed on either side for this factor, if more
}

// unitBreakRules returns what to look for. The tolerances are the widest for
// which no station of the tests has a break: own thresholds.
func unitBreakRules() []unitBreak {
	humidity := []breakFactor{{100, 1.7, "a fraction and percent", 0}}
	return []unitBreak{
		{weather.Rain, 365, 40, rainSpan, 0.9, []breakFactor{{25.4, 1.6, "inches and mm", 0}, {10, 1.3, "cm or tenths of a mm and mm", 0}}},
		{weather.Wind, 365, 120, 0, 0.5, []breakFactor{{3.6, 1.25, "m/s and km/h", 0}, {2.237, 1.12, "m/s and mph", 300},
			{1.944, 1.06, "m/s and knots", 300}}},
		{weather.Rs, 90, 45, 0, 0.9, []breakFactor{{3.6, 1.25, "kWh/m² and MJ/m²", 0}, {11.574, 1.4, "W/m² and MJ/m²", 0},
			{23.885, 1.4, "langleys and MJ/m²", 0}, {100, 1.5, "J/cm² and MJ/m²", 0}, {1000, 1.5, "kJ/m² and MJ/m²", 0}}},
		{weather.RHmax, 40, 25, 0, 0.5, humidity}, {weather.RHmin, 40, 25, 0, 0.5, humidity}, {weather.RHmean, 40, 25, 0, 0.5, humidity},
		{weather.ETo, 365, 200, 0, 0.5, []breakFactor{{25.4, 1.5, "inches and mm", 0}, {10, 1.4, "cm or tenths of a mm and mm", 0}}},
	}
}

// rainSpan is how much of the record must lie on either side of a change of the
// unit of rain, so that a wet season is not compared with a dry one: in one of 15
// records of one year, March rains of 15 mm before showers of 1 mm looked like one.
const rainSpan = 270

// breakGrid is the distance of the days at which a break is looked for.
const breakGrid = 10

// unitBreaks reports columns that change unit within the record.
func (k *checker) unitBreaks() {
	for _, u := range unitBreakRules() {
		if k.s.Has(u.column) {
			k.ratioBreaks(&u)
		}
	}
	for _, c := range [...]weather.Column{weather.Tmax, weather.Tmin, weather.Tdew} {
		if k.s.Has(c) {
			k.temperatureBreaks(c)
		}
	}
}

func breakRule(c weather.Column) rule {
	return rule{code: weather.CodeUnitBreak, column: c,
		what:   "values change by the ratio of two units from one day to the next and stay there",
		action: kept + ": split the file, or convert one part", source: ownThreshold}
}

func (k *checker) ratioBreaks(u *unitBreak) {
	v := k.s.Data[u.column]
	if sun := k.sun(); u.column == weather.Rs && sun != nil {
		v = slices.Clone(v)
		for i := range v {
			v[i] /= max(sunUpMJ, sun.RaMJ[k.days.doy[i]]) // a share, so that the season does not count
		}
	}
	what := "values go"
	if u.column == weather.Rs && k.sun() != nil {
		what = "shares of the radiation at the top of the atmosphere go"
	}
	sums := runningSums(v)
	t := tally{rule: breakRule(u.column)}
	before, after := make([]float64, 0, u.window), make([]float64, 0, u.window)
	for g := max(breakGrid, (u.span+breakGrid-1)/breakGrid*breakGrid); g < len(v)-u.span; g += breakGrid {
		// Sorting is the cost: running sums tell most places where nothing changes.
		n1, mean1 := sums.mean(g-u.window, g)
		n2, mean2 := sums.mean(g, g+u.window)
		if q := mean2 / mean1; n1 < u.least || n2 < u.least || q < 1.35 && q > 1/1.35 {
			continue
		}
		before, after = positive(before, v, g-u.window, g), positive(after, v, g, g+u.window)
		a, b := quantileOf(u.at, before), quantileOf(u.at, after)
		ratio := max(a/b, b/a)
		for _, f := range u.factors {
			if ratio < f.ratio/f.tol || ratio > f.ratio*f.tol || min(len(before), len(after)) < f.least {
				continue
			}
			day := split(v, g, u.window/2, math.Sqrt(a*b), b > a)
			if t.hit(day, 1/math.Abs(portable.Log(ratio/f.ratio))) {
				t.detail = fmt.Sprintf("%s from %.3g to %.3g, a factor of %.3g, as between %s; first about this day", what, a, b, ratio, f.units)
			}
			t.suspect = weather.OtherUnit
			g = max(g, day+u.window/2)
			break
		}
	}
	k.tell(&t)
}

// running are the sum and number of the values above 0 before each day.
type running struct {
	sum []float64
	n   []int32
}

func runningSums(v []float64) running {
	r := running{make([]float64, len(v)+1), make([]int32, len(v)+1)}
	for i, x := range v {
		r.sum[i+1], r.n[i+1] = r.sum[i], r.n[i]
		if x > 0 && !math.IsInf(x, 1) {
			r.sum[i+1] += x
			r.n[i+1]++
		}
	}
	return r
}

// mean returns the number of values in days from..to, and their mean.
func (r running) mean(from, to int) (int, float64) {
	from, to = max(0, from), min(len(r.n)-1, to)
	n := r.n[to] - r.n[from]
	return int(n), (r.sum[to] - r.sum[from]) / float64(n)
}

// positive appends the values above 0 of days from..to to out, which it reuses.
func positive(out, v []float64, from, to int) []float64 {
	out = out[:0]
	for _, x := range v[max(0, from):min(len(v), to)] {
		if x > 0 {
			out = append(out, x)
		}
	}
	return out
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

func quantileOf(p float64, v []float64) float64 {
	slices.Sort(v)
	return quantile(p, v)
}

// split returns the day within reach of g that best parts values on one side
// of mid from those on the other.
func split(v []float64, g, reach int, mid float64, up bool) int {
	from, to := max(0, g-reach), min(len(v), g+reach)
	score, best, at := 0, math.MinInt, g
	for i := from; i < to; i++ {
		if score > best {
			best, at = score, i
		}
		switch x := v[i]; {
		case math.IsNaN(x) || x == 0:
		case (x > mid) != up:
			score++
		default:
			score--
		}
	}
	return at
}

const (
	stepDays   = 20 // days on either side of a step in temperature
	stepLeast  = 12 // values needed on either side
	stepLeastC = 17 // a step in the median that no weather makes: 20 days in spring change by less
	stepFitC   = 8  // how well the step must fit a conversion
	sharpDays  = 4  // days on either side that must already differ
	sharpShare = 0.6
	loneRangeC = 30  // median daily range if only one of Tmax and Tmin has changed
	sharpRange = 1.3 // growth of the daily range, which °F multiplies by 1.8
	dewDays    = 90  // days on either side over which changes of the dew point from day to day are compared
	dewGrowth  = 1.3 // their growth, which °F multiplies by 1.8; moist air after dry air has smaller ones
)

// temperatureBreaks reports temperatures that change unit.
func (k *checker) temperatureBreaks(c weather.Column) {
	v := k.s.Data[c]
	t := tally{rule: breakRule(c)}
	before, after := make([]float64, 0, stepDays), make([]float64, 0, stepDays)
	for g := breakGrid; g < len(v); g += breakGrid / 2 {
		before, after = finite(before, v, g-stepDays, g), finite(after, v, g, g+stepDays)
		if len(before) < stepLeast || len(after) < stepLeast {
			continue
		}
		if math.Abs(mean(before)-mean(after)) < stepLeastC/2 {
			continue
		}
		a, b := quantileOf(0.5, before), quantileOf(0.5, after)
		low, high := min(a, b), max(a, b)
		if high-low < stepLeastC {
			continue
		}
		units, fahrenheit := "", false
		switch {
		case math.Abs(high-(float64(1.8*low)+32)) <= stepFitC:
			units, fahrenheit = "°C and °F", true
		case math.Abs(high-(low+273.15)) <= 2*stepFitC:
			units = "°C and K"
		case high-low > 2*stepLeastC && math.Abs(high-float64(10*low)) <= 5*stepFitC:
			units = "°C and tenths of °C"
		default:
			continue
		}
		day := split(v, g, stepDays, (a+b)/2, b > a)
		if !k.sharp(c, day, b > a, high-low) || c == weather.Tdew && fahrenheit && !k.livelier(day, b > a) {
			continue
		}
		if t.hit(day, high-low) {
			t.detail = fmt.Sprintf("medians of %d days from %.1f to %.1f, as between %s; first about this day", stepDays, a, b, units)
		}
		t.suspect = weather.OtherUnit
		g = max(g, day+stepDays/2)
	}
	k.tell(&t)
}

// sharp reports whether a step comes from one day to the next, and the daily
// range grows with it as no thaw makes it do.
func (k *checker) sharp(c weather.Column, day int, up bool, stepC float64) bool {
	v := k.s.Data[c]
	a, b := finite(nil, v, day-sharpDays, day), finite(nil, v, day, day+sharpDays)
	if len(a) == 0 || len(b) == 0 || math.Abs(quantileOf(0.5, a)-quantileOf(0.5, b)) < sharpShare*stepC {
		return false
	}
	if !k.s.Has(weather.Tmax) || !k.s.Has(weather.Tmin) || c == weather.Tdew {
		return true
	}
	median := func(from, to int, of func(i int) float64) float64 {
		var d []float64
		for i := max(0, from); i < min(to, k.s.Days); i++ {
			if x := of(i); known(x) {
				d = append(d, x)
			}
		}
		if len(d) == 0 {
			return math.NaN()
		}
		return quantileOf(0.5, d)
	}
	spread := func(i int) float64 { return math.Abs(k.s.Data[weather.Tmax][i] - k.s.Data[weather.Tmin][i]) }
	other := weather.Tmin
	if c == weather.Tmin {
		other = weather.Tmax
	}
	twin := func(i int) float64 { return k.s.Data[other][i] }
	low, high := median(day-stepDays, day, spread), median(day, day+stepDays, spread)
	from, to := median(day-stepDays, day, twin), median(day, day+stepDays, twin)
	if !up {
		low, high, from, to = high, low, to, from
	}
	switch {
	case high > loneRangeC: // only this column has changed
		return true
	case high < sharpRange*low:
		return false
	}
	return !(to-from < stepLeastC/2) && math.Abs(to-(float64(1.8*from)+32)) <= stepFitC || to-from > 200
}

// livelier reports whether the dew point changes more from day to day on the side of a step
// with the higher values, as it does in °F. When the summer rains of a desert set in, the dew
// point rises as far within days, and then changes less.
func (k *checker) livelier(day int, up bool) bool {
	v := k.s.Data[weather.Tdew]
	changes := func(from, to int) float64 {
		var d []float64
		for i := max(1, from+1); i < min(to, len(v)); i++ {
			if known(v[i]) && known(v[i-1]) {
				d = append(d, math.Abs(v[i]-v[i-1]))
			}
		}
		if len(d) == 0 {
			return math.NaN()
		}
		return quantileOf(0.5, d)
	}
	low, high := changes(day-dewDays, day), changes(day, day+dewDays)
	if !up {
		low, high = high, low
	}
	return !(high < dewGrowth*low)
}

func finite(out, v []float64, from, to int) []float64 {
	out = out[:0]
	for _, x := range v[max(0, from):min(len(v), to)] {
		if known(x) {
			out = append(out, x)
		}
	}
	return out
}
