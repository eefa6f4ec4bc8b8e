package quality

import (
	"fmt"
	"slices"

	"loamledger/weather"
	"loamledger/weather/portable"
	"loamledger/weather/quantity"
)

const (
	unitDays     = 60 // values needed for a verdict on a column's unit
	tail         = 0.02
	fractionTop  = 1.6 // 98% of a humidity in fractions is below this; the dampest night in percent is above
	mostWindMS   = 9   // median wind; the stations of the tests have 0.7 to 4.5
	dewOverTminC = 6   // median dew point above Tmin
	dewBelowC    = 35  // and below it; deserts reach 20
	unitWetDays  = 40

	// The wettest tenth of the wet days of the stations of the tests begins at 8
	// to 30 mm.
	leastTenthMM, mostTenthMM = 3.5, 70
	mostMJ                    = 45 // the top of the atmosphere between the polar circles, FAO-56 eq. 21
)

// columnUnits reports whole columns in another unit. Quantiles decide, so that
// single values do not.
func (k *checker) columnUnits() {
	for _, c := range [...]weather.Column{weather.RHmax, weather.RHmin, weather.RHmean} {
		if n, low := k.above(c, fractionTop); n >= unitDays && float64(low) <= tail*float64(n) {
			k.column(weather.CodeHumidityUnit, c, n, weather.OtherUnit, ownThreshold, "relative humidity in percent is above 1.6 on most days",
				"98%% of the values are at most %.3g, as if fractions were read as percent", quantile(1-tail, k.ordered(c)))
		}
	}
	if n, high := k.above(weather.Wind, mostWindMS); n >= unitDays && 2*high > n {
		k.column(weather.CodeWindUnit, weather.Wind, n, weather.OtherUnit, ownThreshold, "median wind is below 9 m/s at places with plants",
			"median %.1f m/s, as if km/h, mph or knots were read as m/s", quantile(0.5, k.ordered(weather.Wind)))
	}
	k.rainUnit()
	k.dewPointUnit()
	if n, high := k.above(weather.Rs, mostMJ); k.sun() == nil && n >= unitDays {
		if float64(high) > tail*float64(n) {
			v := k.ordered(weather.Rs)
			top := quantile(1-tail, v)
			detail := ""
			for _, u := range radiationUnits {
				if q := top / u.factor; q > 18 && q < 42 && u.factor > 1 {
					detail = ", as if " + u.read + " were read as MJ/m²"
					break
				}
			}
			k.column(weather.CodeRadiationUnit, weather.Rs, len(v), weather.OtherUnit, "FAO-56 eq. 21",
				"radiation is at most 45 MJ/m² between the polar circles", "the brightest 2%% of days begin at %.4g%s", top, detail)
		}
	}
}

// A radiationUnit is a unit that may have been read as MJ/m² a day.
type radiationUnit struct {
	factor float64 // its number for 1 MJ/m² a day
	read   string
}

// radiationUnits are in the order in which they are tried.
var radiationUnits = [...]radiationUnit{{1 / 3.6, "kWh/m²"}, {2, "sums counted twice"}, {1 / 0.0864, "W/m²"},
	{1 / 0.041868, "cal/cm² (langleys)"},
	{100, "J/cm²"}, {1000, "kJ/m²"}}

// rainUnit reports rain whose wet days are all far too light or heavy.
func (k *checker) rainUnit() {
	v := k.wetDays()
	if len(v) < unitWetDays {
		return
	}
	top := quantile(0.9, v)
	if top >= leastTenthMM && top <= mostTenthMM {
		return
	}
	as := "as if tenths of a mm were read as mm"
	if q := top * quantity.InchMM; top < leastTenthMM {
		as = "as if cm were read as mm"
		if q >= leastTenthMM && q <= mostTenthMM {
			as = "as if inches were read as mm"
		}
	} else if top > 10*mostTenthMM/2 {
		as = "as if mm were read as inches"
	}
	k.column(weather.CodeRainUnit, weather.Rain, len(v), weather.OtherUnit, ownThreshold,
		"the wettest tenth of wet days begins at 3.5 to 70 mm", "it begins at %.3g mm, %s", top, as)
}

// wetDays returns the rain of the days that had some, in order.
func (k *checker) wetDays() []float64 {
	var out []float64
	for _, v := range k.s.Data[weather.Rain] {
		if v > 0 {
			out = append(out, v)
		}
	}
	slices.Sort(out)
	return out
}

// dewPointUnit compares dew points with the nights.
func (k *checker) dewPointUnit() {
	if !k.s.Has(weather.Tdew) || !k.s.Has(weather.Tmin) {
		return
	}
	n, over, under := 0, 0, 0
	for i, v := range k.s.Data[weather.Tdew] {
		switch x := v - k.s.Data[weather.Tmin][i]; {
		case x > dewOverTminC:
			over++
			n++
		case x < -dewBelowC:
			under++
			n++
		case known(x):
			n++
		}
	}
	if n >= unitDays && 2*max(over, under) > n {
		way := fmt.Sprintf("more than %d °C above Tmin on %d", dewOverTminC, over)
		if under > over {
			way = fmt.Sprintf("more than %d °C below Tmin on %d", dewBelowC, under)
		}
		k.column(weather.CodeDewPointUnit, weather.Tdew, n, weather.OtherUnit, ownThreshold,
			"the median dew point is at most 6 °C above and 35 °C below Tmin", "%s of %d days, as if one of them was in another unit", way, n)
	}
}

// above returns how many values c has and how many of them are above limit.
// Counting is faster than sorting, which is left for the rare suspicion.
func (k *checker) above(c weather.Column, limit float64) (n, high int) {
	for _, v := range k.s.Data[c] {
		if v > limit {
			high++
			n++
		} else if known(v) {
			n++
		}
	}
	return n, high
}

// ordered returns the known values of c in order.
func (k *checker) ordered(c weather.Column) []float64 {
	out := make([]float64, 0, len(k.s.Data[c]))
	for _, v := range k.s.Data[c] {
		if known(v) {
			out = append(out, v)
		}
	}
	slices.Sort(out)
	return out
}

// quantile returns the p-quantile of sorted values.
func quantile(p float64, sorted []float64) float64 {
	return portable.Quantile(p, sorted)
}
