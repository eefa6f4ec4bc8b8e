package quality

import (
	"fmt"
	"math"

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

// Mean Rs divided by radiation at the top of the atmosphere: 0.25 under
// persistent cloud, 0.75 under a clear sky at sea level, and slightly more on a
// mountain.
const (
	leastShare = 0.25
	mostShare  = 0.80
)

// units reports columns that look like another unit.
func (k *checker) units() {
	if mean, n := k.mean(weather.Tmax); n >= 30 && mean > 45 {
		k.findings = append(k.findings, weather.Finding{Code: weather.CodeTemperatureUnit, Column: weather.Tmax.Key(), Count: n, Worst: k.s.Start,
			What: "mean Tmax is above 45 °C nowhere on Earth", Detail: fmt.Sprintf("mean %.1f °C, as if °F were read as °C", mean),
			Suspect: weather.OtherUnit, Action: kept + ": check the unit", Source: ownThreshold})
	}
	sun := k.sun()
	if sun == nil || !k.s.Has(weather.Rs) {
		return
	}
	var rs, ra float64
	n := 0
	for i, v := range k.s.Data[weather.Rs] {
		if !math.IsNaN(v) {
			rs, ra, n = rs+v, ra+sun.RaMJ[k.days.doy[i]], n+1
		}
	}
	if n < 60 || ra == 0 || rs/ra >= leastShare && rs/ra <= mostShare {
		return
	}
	// A record in another unit has a ratio of 0.5 (a typical Rs/Ra) times that factor.
	var suspect weather.Suspicion
	detail := fmt.Sprintf("Rs averages %.3g of the radiation at the top of the atmosphere", rs/ra)
	for _, u := range [...]struct {
		factor float64
		read   string
	}{{1 / 3.6, "kWh/m²"}, {1 / 0.0864, "W/m²"}, {1 / 0.041868, "cal/cm²"}, {100, "J/cm²"}, {1000, "kJ/m²"}} {
		if r := rs / ra / u.factor; r > 0.4 && r < 0.75 {
			detail += ", as if " + u.read + " were read as MJ/m²"
			suspect = weather.OtherUnit
			break
		}
	}
	k.findings = append(k.findings, weather.Finding{Code: weather.CodeRadiationUnit, Column: weather.Rs.Key(), Count: n, Worst: k.s.Start,
		What: fmt.Sprintf("mean Rs is %g to %.2f of the radiation at the top of the atmosphere", leastShare, mostShare), Detail: detail,
		Suspect: suspect, Action: kept + ": check the unit", Source: "FAO-56 ch. 3: 0.25 to 0.75; " + ownThreshold})
}

func (k *checker) mean(c weather.Column) (float64, int) {
	sum, n := 0.0, 0
	for _, v := range k.s.Data[c] {
		if !math.IsNaN(v) {
			sum, n = sum+v, n+1
		}
	}
	return sum / float64(n), n
}
