package et0

import (
	"fmt"
	"math"

	"loamledger/weather"
)

// findings adds what was assumed in computing and what the comparison with
// supplied ETo shows.
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
			r.find(weather.Finding{Code: code, What: what, Column: column, Count: n, Worst: s.Date(at), Detail: detail, Action: action, Source: source})
		}
	}
	add(weather.CodeEToUnknown, weather.ETo.Key(), "reference ET needs Tmax and Tmin with Tmax not below Tmin", "first such day", "no value",
		"FAO-56 ch. 3: temperatures are the minimum data set", func(m Method) bool { return m.Way == NoETo })
	add(weather.CodeHumidityFromTmin, weather.Ea.Key(), fmt.Sprintf("no humidity: dew point taken as Tmin − %g °C", o.TdewOffsetC), "set 0 °C in humid places and 2 °C in dry ones",
		"stand-in", "FAO-56 eq. 48, annex 6 eq. 6-6", func(m Method) bool { return m.Humidity == HumidityTmin })
	add(weather.CodeHumidityFromMean, weather.RHmean.Key(), "ea from the mean humidity alone, the least wanted of the measured sources", "ETo reads about 7 % low by the ASCE form and 14 % by the FAO form where humidity swings widely (measured on the 366 full days at Holyoke CO 2020)",
		"used", "ASCE-EWRI 2005 table 3 and eq. 14, FAO-56 eq. 19", func(m Method) bool { return m.Humidity == HumidityRHmean })
	add(weather.CodeRadiationFromSunshine, weather.Rs.Key(), "Rs from sunshine hours with coefficients 0.25 and 0.50", "", "converted",
		"FAO-56 eq. 35", func(m Method) bool { return m.Radiation == RadiationSunshine })
	add(weather.CodeRadiationFromRange, weather.Rs.Key(), fmt.Sprintf("no radiation: Rs from the temperature range with kRs %g, not above clear sky", o.KRs), "0.16 inland, 0.19 by the coast, not for islands; use as sums over several days",
		"stand-in", "FAO-56 eq. 50", func(m Method) bool { return m.Radiation == RadiationRange })
	add(weather.CodeWindAssumed, weather.Wind.Key(), fmt.Sprintf("no wind: %g m/s at 2 m taken", o.DefaultWindMS), "the costliest guess in windy places",
		"stand-in", "FAO-56 ch. 3: mean of 2,000 stations", func(m Method) bool { return m.Wind == WindDefault })
	add(weather.CodeTemperaturesOnly, weather.ETo.Key(), "no radiation, humidity or wind: Hargreaves", r.Calibration.String(),
		"stand-in", "FAO-56 eq. 52; reads low in wind above 3 m/s and high in humid air", func(m Method) bool { return m.Way == HargreavesOnly })

	if n, at := first(func(m Method) bool { return m.Wind == WindMeasured }); n > 0 {
		switch h := s.Station.WindHeightM; {
		case math.IsNaN(h):
			r.find(weather.Finding{Code: weather.CodeWindHeightUnknown, What: "wind must be brought to 2 m, and the height of the anemometer is not stated", Column: weather.Wind.Key(), Count: n, Worst: s.Date(at),
				Detail: fmt.Sprintf("give the wind height; wind read at 3 m counts %.3f, at 10 m %.3f", WindFactor(3), WindFactor(10)), Action: "taken as 2 m", Source: "FAO-56 eq. 47"})
		case h != 2:
			r.find(weather.Finding{Code: weather.CodeWindHeight, What: "wind is brought to 2 m over short grass", Column: weather.Wind.Key(), Count: n, Worst: s.Date(at),
				Detail: fmt.Sprintf("read at %g m, times %.3f", h, WindFactor(h)), Action: "converted", Source: "FAO-56 eq. 47"})
		}
	}
	if usesSupplied {
		add(weather.CodeSuppliedEToGaps, weather.ETo.Key(), "days on which the record carries no ETo of its own", "first such day", "computed",
			"common practice, no source", func(m Method) bool { return m.Way != SuppliedByInput && m.Way != NoETo })
	}
	if c := r.Compare; c.Parts() {
		action := "kept: the supplied one drives the balance"
		if !usesSupplied {
			action = "kept: the computed one drives the balance"
		}
		r.find(weather.Finding{Code: weather.CodeSuppliedEToParts, What: fmt.Sprintf("supplied and computed ETo should agree within %.0f %% in the mean and r² should reach %.2f", 100*maxMeanPart, minR2), Column: weather.ETo.Key(),
			Count: c.N, Worst: s.Date(c.WorstDay), Detail: c.String(), Action: action, Source: "common practice, no source"})
	}
}
