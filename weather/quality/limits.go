package quality

import (
	"fmt"
	"math"
	"slices"

	"loamledger/weather"
)

// limit is the possible range of a value.
type limit struct {
	column    weather.Column
	low, high float64
	source    string
}

// hardLimits are the ranges outside which a value is dropped. A daily mean of
// 700 W/m² is 60.5 MJ m⁻² d⁻¹; 8 kPa is a dew point of 41.5 °C. Networks drop
// humidity below 2%, which deserts do reach: here only 0 is dropped, the sign
// of a failing sensor, and the rest is reported.
var hardLimits = [...]limit{
	{weather.Tmax, -50, 60, limitSource},
	{weather.Tmin, -50, 60, limitSource},
	{weather.Rain, 0, 610, limitSource},
	{weather.RHmax, 0.1, 110, limitSource},
	{weather.RHmin, 0.1, 110, limitSource},
	{weather.RHmean, 0.1, 110, limitSource},
	{weather.Tdew, -60, 41.5, limitSource},
	{weather.Ea, 0, 8, limitSource},
	{weather.Rs, 0, 60.5, limitSource},
	{weather.Sun, 0, 24, "a day has 24 hours"},
	{weather.Wind, 0, 35, limitSource},
	{weather.ETo, -1, 20, ownThreshold},
	{weather.ETr, -1, 25, ownThreshold},
}

func (k *checker) limits() {
	for _, l := range hardLimits {
		if !k.s.Has(l.column) {
			continue
		}
		t := tally{rule: rule{code: weather.CodePastLimits, column: l.column, action: dropped, source: l.source,
			what: fmt.Sprintf("%s outside %g to %g %s is impossible", l.column.Label(), l.low, l.high, l.column.Unit())}}
		for i, v := range k.s.Data[l.column] {
			if v >= l.low && v <= l.high || math.IsNaN(v) {
				continue
			}
			if t.hit(i, max(l.low-v, v-l.high)) {
				t.detail = value(l.column, v)
			}
			k.drop(l.column, i)
		}
		k.tell(&t)
	}
}

// Median Rs divided by radiation at the top of the atmosphere: 0.25 under
// persistent cloud, 0.75 under a clear sky at sea level, and slightly more on a
// mountain.
const (
	leastShare = 0.25
	mostShare  = 0.80
)

// units reports columns that look like another unit.
func (k *checker) units() {
	if n, hot := k.above(weather.Tmax, 45); n >= 30 && 2*hot > n {
		v := k.ordered(weather.Tmax)
		k.column(weather.CodeTemperatureUnit, weather.Tmax, n, weather.OtherUnit, ownThreshold, "median Tmax is above 45 °C nowhere on Earth",
			"median %.1f °C, as if °F were read as °C", quantile(0.5, v))
	}
	sun := k.sun()
	if sun == nil || !k.s.Has(weather.Rs) {
		return
	}
	shares := make([]float64, 0, k.s.Days)
	low, high := 0, 0
	for i, v := range k.s.Data[weather.Rs] {
		if ra := sun.RaMJ[k.days.doy[i]]; known(v) && ra > sunUpMJ {
			shares = append(shares, v/ra)
			if v < leastShare*ra {
				low++
			} else if v > mostShare*ra {
				high++
			}
		}
	}
	if n := len(shares); n < unitDays || 2*low < n && 2*high < n {
		return
	}
	slices.Sort(shares)
	share := quantile(0.5, shares) // a median, so that single values do not count
	if share >= leastShare && share <= mostShare {
		return
	}
	// A record in another unit has a ratio of 0.5 (a typical Rs/Ra) times that factor.
	var suspect weather.Suspicion
	as := ""
	for _, u := range radiationUnits {
		if r := share / u.factor; r > 0.4 && r < 0.8 {
			as, suspect = ", as if "+u.read+" were read as MJ/m²", weather.OtherUnit
			break
		}
	}
	k.column(weather.CodeRadiationUnit, weather.Rs, len(shares), suspect, "FAO-56 ch. 3: 0.25 to 0.75; "+ownThreshold,
		fmt.Sprintf("median Rs is %g to %.2f of the radiation at the top of the atmosphere", leastShare, mostShare),
		"Rs has a median of %.3g of the radiation at the top of the atmosphere%s", share, as)
}
