package quality

import (
	"fmt"
	"slices"

	"loamledger/weather"
	"loamledger/weather/et0"
	"loamledger/weather/portable"
)

// humidity checks the relative humidities.
func (k *checker) humidity() {
	for _, c := range [...]weather.Column{weather.RHmax, weather.RHmin, weather.RHmean} {
		if !k.s.Has(c) {
			continue
		}
		t := tally{rule: rule{code: weather.CodeHumidityAbove100, column: c,
			what: "relative humidity above 100%; above 105% the sensor needs recalibration", action: held, source: annex5 + "; " + noSource}}
		for i, v := range k.s.Data[c] {
			if v > 100 {
				if t.hit(i, v) {
					t.detail = value(c, v)
				}
				k.s.Set(c, i, 100, k.s.Mark[c][i])
			}
		}
		k.tell(&t)
		low := tally{rule: rule{code: weather.CodeHumidityBelow2, column: c,
			what: "relative humidity below 2%: a desert afternoon, or a failing sensor", action: kept, source: limitSource}}
		for i, v := range k.s.Data[c] {
			if v < 2 && low.hit(i, -v) {
				low.detail = value(c, v)
			}
		}
		k.tell(&low)
	}
	if k.s.Has(weather.RHmax) && k.s.Has(weather.RHmin) {
		k.humidityOrder()
	}
	if k.s.Has(weather.RHmax) {
		k.humidityTop()
	}
}

// humidityOrder drops inverted extremes and reports means outside them.
func (k *checker) humidityOrder() {
	order := tally{rule: rule{code: weather.CodeRHmaxBelowRHmin, column: weather.RHmax, what: "RHmax below RHmin",
		action: "both values dropped", source: noSource}}
	mean := tally{rule: rule{code: weather.CodeRHmeanOutside, column: weather.RHmean, what: "RHmean outside RHmin to RHmax by more than 1%",
		action: kept, source: ownThreshold}}
	for i := range k.s.Days {
		hi, lo, m := k.s.At(weather.RHmax, i), k.s.At(weather.RHmin, i), k.s.At(weather.RHmean, i)
		switch {
		case hi < lo:
			if order.hit(i, lo-hi) {
				order.detail = fmt.Sprintf("RHmax %.0f, RHmin %.0f%%", hi, lo)
			}
			k.drop(weather.RHmax, i)
			k.drop(weather.RHmin, i)
		case m > hi+1, m < lo-1:
			if mean.hit(i, max(m-hi, lo-m)) {
				mean.detail = fmt.Sprintf("RHmean %.0f, range %.0f to %.0f%%", m, lo, hi)
			}
		}
	}
	k.tell(&order)
	k.tell(&mean)
}

const (
	topShare     = 0.01 // the top share of a year's RHmax
	topWanted    = 95.0 // its expected minimum: 100 minus sensor error
	topWet       = 90.0 // below this the site is dry or the sensor reads low
	minYearOfRH  = 180
	minDrySiteRH = 300
)

// humidityTop reports years whose most humid days stay below saturation.
func (k *checker) humidityTop() {
	t := tally{rule: rule{code: weather.CodeRHmaxNever100, column: weather.RHmax,
		what: fmt.Sprintf("the top 1%% of a year's RHmax stays below %g%%: the sensor may read low", topWanted), action: kept,
		source: annex5 + "; ASCE-EWRI 2005; " + ownThreshold}}
	rh := k.s.Data[weather.RHmax]
	for from := 0; from < len(rh); {
		to := from
		var year []float64
		for ; to < len(rh) && k.days.year[to] == k.days.year[from]; to++ {
			if known(rh[to]) {
				year = append(year, rh[to])
			}
		}
		if len(year) >= minYearOfRH {
			if top := topMean(year); top < topWanted && t.hit(from, -top) {
				t.detail = fmt.Sprintf("%.0f%% in %d", top, k.days.year[from])
			}
		}
		from = to
	}
	if t.n > 0 {
		t.what += "; counted in years"
	}
	k.tell(&t)
	var all []float64
	for _, v := range rh {
		if known(v) {
			all = append(all, v)
		}
	}
	if len(all) < minDrySiteRH {
		return
	}
	if top := topMean(all); top < topWet {
		k.findings = append(k.findings, weather.Finding{Code: weather.CodeDrySite, Column: weather.RHmax.Key(), Count: len(all), Worst: k.s.Start,
			What:   fmt.Sprintf("RHmax at a watered site sometimes exceeds %g%%", topWet),
			Detail: fmt.Sprintf("its top 1%% averages %.0f%%: a dry site or a sensor that reads low; ETo is too high", top), Action: kept,
			Source: annex5 + "; ASCE-EWRI 2005"})
	}
}

func topMean(v []float64) float64 {
	slices.Sort(v)
	n := max(1, int(topShare*float64(len(v))))
	return portable.Mean(v[len(v)-n:])
}

// dewPoint compares dew point and vapor pressure with the temperatures.
func (k *checker) dewPoint() {
	hot := tally{rule: rule{code: weather.CodeDewPointAboveTmax, column: weather.Tdew, what: "a mean dew point above Tmax", action: dropped,
		source: noSource}}
	front := tally{rule: rule{code: weather.CodeDewPointAboveTmin, column: weather.Tdew,
		what: "a dew point more than 2 °C above Tmin: a front, dry winter air, or a faulty sensor", action: kept,
		source: annex5 + "; " + ownThreshold}}
	for i := range k.s.Days {
		td, tmax, tmin := k.s.At(weather.Tdew, i), k.s.At(weather.Tmax, i), k.s.At(weather.Tmin, i)
		switch {
		case td > tmax+0.5:
			if hot.hit(i, td-tmax) {
				hot.detail = fmt.Sprintf("dew point %.1f, Tmax %.1f °C", td, tmax)
			}
			k.drop(weather.Tdew, i)
		case td > tmin+2:
			if front.hit(i, td-tmin) {
				front.detail = fmt.Sprintf("dew point %.1f, Tmin %.1f °C", td, tmin)
			}
		}
	}
	k.tell(&hot)
	k.tell(&front)
	if !k.s.Has(weather.Ea) {
		return
	}
	wet := tally{rule: rule{code: weather.CodeVaporAboveSaturation, column: weather.Ea, what: "vapor pressure above saturation at Tmax",
		action: dropped, source: "FAO-56 eq. 11"}}
	other := tally{rule: rule{code: weather.CodeVaporAgainstHumidity, column: weather.Ea,
		what: "vapor pressure and humidity differ by more than 30% and 0.2 kPa", action: kept, source: "FAO-56 eqs 14 and 17; " + ownThreshold}}
	for i, ea := range k.s.Data[weather.Ea] {
		tmax, tmin := k.s.At(weather.Tmax, i), k.s.At(weather.Tmin, i)
		top := et0.SaturationVaporPressure(tmax)
		if ea > 1.02*top {
			if wet.hit(i, ea/top) {
				wet.detail = fmt.Sprintf("%.2f kPa, saturation %.2f", ea, top)
			}
			k.drop(weather.Ea, i)
			continue
		}
		from := et0.VaporPressureFromRH(tmax, tmin, k.s.At(weather.RHmax, i), k.s.At(weather.RHmin, i))
		if !known(from) {
			from = et0.VaporPressureFromDewPoint(k.s.At(weather.Tdew, i))
		}
		if d := max(ea, from) - min(ea, from); d > 0.3*ea && d > 0.2 && other.hit(i, d) {
			other.detail = fmt.Sprintf("%.2f kPa given, %.2f from the day's humidity", ea, from)
		}
	}
	k.tell(&wet)
	k.tell(&other)
}
