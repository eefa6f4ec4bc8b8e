package quality

import (
	"fmt"
	"slices"

	"loamledger/weather"
	"loamledger/weather/et0"
)

const (
	envelopeDays = 60   // length of a period whose clearest days are checked
	envelopeTop  = 6    // how many of them
	envelopeLow  = 0.97 // between these their mean Rs/Rso is normal
	envelopeHigh = 1.03
	envelopeMin  = 0.5 // outside these the period is dropped
	envelopeMax  = 1.5
	sunUpMJ      = 2.0   // Rso below which the ratio is meaningless
	darkMJ       = 0.432 // a daily mean of 5 W/m²
	clearOver    = 1.05  // Rs/Rso above which a day is reported
	noneShare    = 0.02  // Rs/Rso below the darkest cloud; overcast winter days in the north reach 0.03
	darkShare    = 0.2   // Rs/Rso below which a day is reported
)

// sun returns the sun's year at the station, nil if its latitude is unknown.
func (k *checker) sun() *et0.SunYear {
	lat := k.s.Station.LatDeg
	if !(lat >= -90 && lat <= 90) {
		return nil
	}
	if k.sunYear == nil {
		k.sunYear = et0.NewSunYear(lat)
	}
	return k.sunYear
}

// clearSky returns Rso by day of the year, at sea level if the elevation is unknown.
func (k *checker) clearSky(sun *et0.SunYear) (rso [367]float64) {
	z := k.s.Station.ElevM
	if !known(z) {
		z = 0
	}
	for j, ra := range sun.RaMJ {
		rso[j] = et0.ClearSkyRadiation(ra, z)
	}
	return rso
}

// radiation compares Rs and sunshine with what is possible.
func (k *checker) radiation() {
	hasRs, hasSun := k.s.Has(weather.Rs), k.s.Has(weather.Sun)
	if !hasRs && !hasSun {
		return
	}
	sun := k.sun()
	if sun == nil {
		c := weather.Rs
		if !hasRs {
			c = weather.Sun
		}
		k.findings = append(k.findings, weather.Finding{Code: weather.CodeRadiationUnchecked, Column: c.Key(), Count: k.s.Days, Worst: k.s.Start,
			What: "radiation is compared with clear-sky radiation", Detail: "set the latitude", Action: "not checked",
			Source: annex5})
		return
	}
	if hasSun {
		long := tally{rule: rule{code: weather.CodeSunshineAboveDaylight, column: weather.Sun,
			what: "sunshine exceeds the length of the day by more than half an hour", action: kept + ", counted as the full day length",
			source: "FAO-56 eq. 34; " + ownThreshold}}
		for i, v := range k.s.Data[weather.Sun] {
			if n := sun.DaylightH[k.days.doy[i]]; v > n+0.5 && long.hit(i, v-n) {
				long.detail = fmt.Sprintf("%.1f h of %.1f h", v, n)
			}
		}
		k.tell(&long)
	}
	if hasRs {
		rso := k.clearSky(sun)
		k.radiationByDay(sun, &rso)
		k.envelope(&rso)
	}
}

// radiationByDay drops impossible values and reports unlikely ones.
func (k *checker) radiationByDay(sun *et0.SunYear, rso *[367]float64) {
	above := tally{rule: rule{code: weather.CodeRadiationAboveAir, column: weather.Rs,
		what: "more radiation than reaches the top of the atmosphere", action: dropped, source: "FAO-56 eq. 21"}}
	none := tally{rule: rule{code: weather.CodeRadiationNone, column: weather.Rs,
		what: fmt.Sprintf("less than %.3g MJ/m² (5 W/m²) and less than %g%% of clear-sky radiation: even the darkest cloud lets more through",
			darkMJ, 100*noneShare), action: dropped, source: limitSource + "; " + ownThreshold}}
	over := tally{rule: rule{code: weather.CodeRadiationOverClearSky, column: weather.Rs,
		what: fmt.Sprintf("Rs above %.2f of clear-sky radiation", clearOver), action: kept + ", counted as clear",
		source: annex5 + ": clouds can reflect for a short time; " + ownThreshold}}
	dark := tally{rule: rule{code: weather.CodeRadiationDark, column: weather.Rs,
		what: fmt.Sprintf("Rs below %.1f of clear-sky radiation: very dark, or a faulty sensor", darkShare), action: kept,
		source: "FAO-56 ch. 3: overcast is about a third; " + ownThreshold}}
	for i, v := range k.s.Data[weather.Rs] {
		if !known(v) {
			continue
		}
		doy := k.days.doy[i]
		ra, clear := sun.RaMJ[doy], rso[doy]
		t, badness := (*tally)(nil), 0.0
		switch {
		case v > ra+0.5: // Allow half a megajoule for polar twilight.
			t, badness = &above, v-ra
			k.drop(weather.Rs, i)
		case v < darkMJ && v < noneShare*clear:
			t, badness = &none, clear-v
			k.drop(weather.Rs, i)
		case clear < sunUpMJ:
			continue
		case v > clearOver*clear:
			t, badness = &over, v/clear
		case v < darkShare*clear:
			t, badness = &dark, clear/v
		default:
			continue
		}
		if t.hit(i, badness) {
			t.detail = fmt.Sprintf("%.1f MJ/m²; clear sky %.1f, top of the atmosphere %.1f", v, clear, ra)
		}
	}
	for _, t := range []*tally{&above, &none, &over, &dark} {
		k.tell(t)
	}
}

// envelope compares the clearest days of each period with clear-sky radiation,
// which they should reach.
func (k *checker) envelope(rso *[367]float64) {
	far := tally{rule: rule{code: weather.CodeRadiationEnvelopeFar, column: weather.Rs,
		what: fmt.Sprintf("the %d clearest of %d days average outside %g to %g of clear-sky radiation", envelopeTop, envelopeDays, envelopeMin,
			envelopeMax), action: "values of those days dropped", source: annex5 + "; limits of agricultural weather networks"}}
	high := tally{rule: rule{code: weather.CodeRadiationEnvelopeHigh, column: weather.Rs,
		what: fmt.Sprintf("the %d clearest of %d days average above %g of clear-sky radiation: the sensor may read high", envelopeTop,
			envelopeDays, envelopeHigh), action: kept, source: annex5 + "; limits of agricultural weather networks"}}
	low := tally{rule: rule{code: weather.CodeRadiationEnvelopeLow, column: weather.Rs,
		what: fmt.Sprintf("the %d clearest of %d days average below %g of clear-sky radiation: the sensor may read low, or no day was clear",
			envelopeTop, envelopeDays, envelopeLow), action: kept, source: annex5 + "; limits of agricultural weather networks"}}
	rs := k.s.Data[weather.Rs]
	ratios := make([]float64, 0, envelopeDays)
	for from := 0; from < len(rs); from += envelopeDays {
		to := min(from+envelopeDays, len(rs))
		ratios = ratios[:0]
		for i := from; i < to; i++ {
			if clear := rso[k.days.doy[i]]; known(rs[i]) && clear >= sunUpMJ {
				ratios = append(ratios, rs[i]/clear)
			}
		}
		if len(ratios) < envelopeDays/2 {
			continue
		}
		slices.Sort(ratios)
		mean := 0.0
		for _, r := range ratios[len(ratios)-envelopeTop:] {
			mean += r / envelopeTop
		}
		t, badness, n := (*tally)(nil), 0.0, len(ratios)
		switch {
		case mean < envelopeMin, mean > envelopeMax:
			t, badness, n = &far, max(mean, 1/mean), 0
			for i := from; i < to; i++ {
				if known(rs[i]) {
					k.drop(weather.Rs, i)
					n++
				}
			}
		case mean > envelopeHigh:
			t, badness = &high, mean
		case mean < envelopeLow:
			t, badness = &low, 1/mean
		default:
			continue
		}
		if t.hit(from, badness) {
			t.detail = fmt.Sprintf("%.2f from this day on", mean)
		}
		t.n += n - 1 // Count days, not periods.
	}
	for _, t := range []*tally{&far, &high, &low} {
		k.tell(t)
	}
}
