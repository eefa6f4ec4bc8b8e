package et0

import (
	"fmt"
	"math"

	"loamledger/weather"
)

// findings adds the assumptions made and the result of the comparison with
// supplied ETo.
func (r *Result) findings(s *weather.Series, o Options, usesSupplied bool) {
	first := func(is func(Method) bool) (n, at int) {
		for i, m := range r.Methods {
			if is(m) {
				if n == 0 {
					at = i
				}
				n++
			}
		}
		return n, at
	}
	add := func(code weather.Code, column, what, detail, action, source string, is func(Method) bool) {
		if n, at := first(is); n > 0 {
			r.find(weather.Finding{Code: code, What: what, Column: column, Count: n, Worst: s.Date(at), Detail: detail, Action: action,
				Source: source})
		}
	}
	add(weather.CodeEToUnknown, weather.ETo.Key(), "reference ET needs Tmax and Tmin, with Tmax not below Tmin", "first such day", "no value",
		"FAO-56 ch. 3: temperatures are the minimum data set", func(m Method) bool { return m.Way == NoETo })
	add(weather.CodeHumidityFromTmin, weather.Ea.Key(), fmt.Sprintf("no humidity: dew point estimated as Tmin − %g °C", o.TdewOffsetC),
		"set 0 °C in humid places and 2 °C in dry ones",
		"estimated", "FAO-56 eq. 48, annex 6 eq. 6-6", func(m Method) bool { return m.Humidity == HumidityTmin })
	add(weather.CodeHumidityFromMean, weather.RHmean.Key(), "ea from mean humidity alone, the least accurate measured source",
		"ETo is about 7% too low by the ASCE form and 14% by the FAO form if humidity varies widely (measured on the 366 full days at Holyoke "+
			"CO 2020)",
		"used", "ASCE-EWRI 2005 table 3 and eq. 14, FAO-56 eq. 19", func(m Method) bool { return m.Humidity == HumidityRHmean })
	add(weather.CodeRadiationFromSunshine, weather.Rs.Key(), "Rs from sunshine hours with coefficients 0.25 and 0.50", "", "converted",
		"FAO-56 eq. 35", func(m Method) bool { return m.Radiation == RadiationSunshine })
	add(weather.CodeRadiationFromRange, weather.Rs.Key(),
		fmt.Sprintf("no radiation: Rs from the temperature range with kRs %g, at most clear-sky radiation", o.KRs),
		"0.16 inland, 0.19 on coasts, not for islands; use sums over several days",
		"estimated", "FAO-56 eq. 50", func(m Method) bool { return m.Radiation == RadiationRange })
	add(weather.CodeWindAssumed, weather.Wind.Key(), fmt.Sprintf("no wind: %g m/s at 2 m assumed", o.DefaultWindMS),
		"the largest source of error in windy places",
		"estimated", "FAO-56 ch. 3: mean of 2,000 stations", func(m Method) bool { return m.Wind == WindDefault })
	add(weather.CodeTemperaturesOnly, weather.ETo.Key(), "no radiation, humidity or wind: Hargreaves", r.Calibration.String(),
		"estimated", "FAO-56 eq. 52; too low in wind above 3 m/s and too high in humid air",
		func(m Method) bool { return m.Way == HargreavesOnly })

	if n, at := first(func(m Method) bool { return m.Wind == WindMeasured }); n > 0 {
		switch h := s.Station.WindHeightM; {
		case math.IsNaN(h):
			r.find(weather.Finding{Code: weather.CodeWindHeightUnknown,
				What: "wind must be converted to 2 m, but the anemometer height is not stated", Column: weather.Wind.Key(), Count: n, Worst: s.Date(at),
				Detail: fmt.Sprintf("set the anemometer height; the factor is %.3f at 3 m and %.3f at 10 m", WindFactor(3), WindFactor(10)),
				Action: "2 m assumed", Source: "FAO-56 eq. 47"})
		case h != 2:
			r.find(weather.Finding{Code: weather.CodeWindHeight, What: "wind is converted to 2 m over short grass", Column: weather.Wind.Key(),
				Count: n, Worst: s.Date(at),
				Detail: fmt.Sprintf("measured at %g m, multiplied by %.3f", h, WindFactor(h)), Action: "converted", Source: "FAO-56 eq. 47"})
		}
	}
	if usesSupplied {
		add(weather.CodeSuppliedEToGaps, weather.ETo.Key(), "days without ETo in the record", "first such day", "computed",
			"common practice, no source", func(m Method) bool { return m.Way != SuppliedByInput && m.Way != NoETo })
	}
	if c := r.Compare; c.Parts() {
		action := "kept: supplied ETo drives the water balance"
		if !usesSupplied {
			action = "kept: computed ETo drives the water balance"
		}
		r.find(weather.Finding{Code: weather.CodeSuppliedEToParts,
			What:   fmt.Sprintf("mean supplied and computed ETo should agree within %.0f%%, with r² of at least %.2f", 100*maxMeanPart, minR2),
			Column: weather.ETo.Key(),
			Count:  c.N, Worst: s.Date(c.WorstDay), Detail: c.String(), Action: action, Source: "common practice, no source"})
	}
}
