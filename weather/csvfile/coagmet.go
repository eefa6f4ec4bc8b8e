package csvfile

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const coagmetSource = "CoAgMET daily values: rows read in a real file, units by recomputing its published ETo"

var coagmetOver = kind{weather.CodeRHAbove100, "relative humidity above 100% (above 1 as a fraction), a reading beyond the sensor's range",
	"kept", coagmetSource}

// The limits that distinguish the units of radiation.
const (
	mostMJ    = 45  // MJ m⁻² d⁻¹; at the top of the atmosphere it is at most 44.7 between the polar circles, FAO-56 eq. 21
	mostWatts = 430 // W/m² over 24 h: a clear sky at 4,000 m lets 37.1 of those 44.7 MJ through, FAO-56 eq. 37
	manyDays  = 30  // days of which at least one must be bright
)

func coagmetLayout() Layout {
	return Layout{
		Name:  "coagmet",
		Title: "CoAgMET daily (Colorado)",
		Doc: "name or station, date, tavg, tmax, tmin, rhmax, rhmin, solar, windrun and reference ET: et_asce is the tall and " +
			"et_asce0 the short reference, et_pk an older equation that is not read. Humidity is a fraction and may exceed 1; its range " +
			"distinguishes it from percent. Rain (pp, precip or rain) is in the file only if it was requested.",
		Units: "not in the file: °C, mm, km/day, radiation as a 24-hour mean in W/m²; checked against possible values; or us (°F, " +
			"inches, miles/day, langleys) if given",
		Missing:    "an empty cell, -999 or -9999",
		WindHeight: "not in the file: 2 m, with which FAO-56 ETo matches the published short reference within 0.1%",
		Source:     coagmetSource,
		asksUnits:  true,
		match: func(h *lead, n int) bool {
			return h.has(n, "date", "tmax", "tmin") && (h.has(n, "windrun") || h.has(n, "et_asce") || h.has(n, "et_asce0"))
		},
		read: readCoagmet,
	}
}

func readCoagmet(r *reading) error {
	w := r.table(',', coagmetSource)
	w.dated(w.at("date"), "2020-01-31", func(b []byte) (cal.Date, bool) {
		if d, ok := isoDate(b); ok {
			return d, true
		}
		return monthFirst(b)
	})
	if at := max(w.at("name"), w.at("station")); at >= 0 {
		w.station = func(row []field) ([]byte, []byte) { return row[at].text, nil }
	}
	wind, sun, et := kmPerDay, watts, func(v float64) float64 { return v }
	switch r.o.Units {
	case unitsUS:
		wind, sun, et = milesPerDay, langleys, inches
	case unitsTenths:
		return r.fatal(diag.WrongUnits, r.header, 0, "use si or us", "this layout is never in tenths")
	}
	codes := []float64{-999, -9999}
	w.bind("tmax", bind{col: weather.Tmax, codes: codes})
	w.bind("tmin", bind{col: weather.Tmin, codes: codes})
	for _, name := range []string{"pp", "precip", "rain"} {
		if w.at(name) >= 0 {
			w.bind(name, bind{col: weather.Rain, codes: codes})
			break
		}
	}
	w.bind("rhmax", bind{col: weather.RHmax, codes: codes})
	w.bind("rhmin", bind{col: weather.RHmin, codes: codes})
	w.bind("solar", bind{col: weather.Rs, codes: codes})
	w.bind("windrun", bind{col: weather.Wind, to: wind, codes: codes})
	w.bind("et_asce0", bind{col: weather.ETo, to: et, codes: codes})
	w.bind("et_asce", bind{col: weather.ETr, to: et, codes: codes})
	w.begin = func([]field) {
		r.cur.settle = func(b *builder) error {
			b.settleHumidity()
			if err := r.settlePlain(b, "°C, mm and km/day"); err != nil {
				return err
			}
			if r.o.Units != "" {
				b.apply(weather.Rs, sun)
			} else if err := r.settleRadiation(b); err != nil {
				return err
			}
			b.oddCells()
			return nil
		}
	}
	r.proto.WindHeightM = 2
	r.assume("anemometer height 2 m: not in the file; with it FAO-56 ETo matches the published short reference within 0.1%%")
	if w.at("et_asce") >= 0 {
		r.other("et_asce", "it is the tall reference, and plant coefficients are for the short one")
		r.assume("et_asce is the tall reference, et_asce0 the short one: only et_asce0 is read as ETo")
	}
	r.wide(w)
	return nil
}

// settleHumidity converts fractions to percent if nearly all values are at
// most 1.5, and counts values above 100%.
func (b *builder) settleHumidity() {
	most := math.Inf(-1)
	cols := []weather.Column{weather.RHmax, weather.RHmin, weather.RHmean}
	for _, c := range cols {
		if v := b.sorted(c); len(v) > 0 {
			_, _, high := bulk(v)
			most = max(most, high)
		}
	}
	if math.IsInf(most, -1) {
		return
	}
	if most <= 1.5 {
		b.assumed = append(b.assumed, fmt.Sprintf("humidity is a fraction: 98%% of the values are at most %g", most))
		for _, c := range cols {
			b.apply(c, func(v float64) float64 { return v * 100 })
		}
	} else {
		b.assumed = append(b.assumed, fmt.Sprintf("humidity is in percent: it reaches %g", most))
	}
	for _, c := range cols {
		for i, v := range b.data[c] {
			if v > 100+1e-9 {
				b.note(coagmetOver, c, hit{b.base + cal.Date(i), int(b.lines[i]), v, fmt.Appendf(nil, "%.4g%%", v)})
			}
		}
	}
}

// A file in W/m² has a median above darkWatts, one in MJ m⁻² d⁻¹ below: the
// medians of the stations of the tests are 12 to 22 MJ, that is 140 to 260 W/m².
const darkWatts = 45

// settleRadiation decides between MJ m⁻² d⁻¹ and a 24-hour mean in W/m² by the
// bulk of the values, and converts.
func (r *reading) settleRadiation(b *builder) error {
	all := b.sorted(weather.Rs)
	n := len(all)
	if n == 0 {
		return nil
	}
	_, mid, high := bulk(all)
	_, single, _ := b.extent(weather.Rs)
	at := int(b.lines[single.date-b.base])
	switch {
	case high > mostWatts, n < manyValues && single.v > mostWatts:
		return r.fatal(diag.UnitsUnclear, at, 0, "describe the layout, with its radiation unit, in a layout file",
			"radiation of %g on %v is neither MJ/m² (at most %d) nor W/m² over 24 h (at most %d)", single.v, single.date, mostMJ, mostWatts)
	case high > mostMJ && mid < darkWatts:
		return r.fatal(diag.UnitsUnclear, at, 0, "describe the layout, with its radiation unit, in a layout file, or split the file where its "+
			"unit changes", "the evidence on the unit of radiation is divided: the brightest 2%% of %d days begin at %g, which is not MJ/m², and "+
			"half of the days are below %g, which is not W/m²", n, high, mid)
	case high > mostMJ:
		b.assumed = append(b.assumed, fmt.Sprintf("radiation is a 24-hour mean in W/m²: the brightest days reach %g, more than sunlight at the "+
			"top of the atmosphere in MJ/m² (%d)", high, mostMJ))
		b.apply(weather.Rs, watts)
	case n < manyDays:
		return r.fatal(diag.UnitsUnclear, at, 0,
			"use a longer record, set the units, or describe the layout in a layout file", "%d days of radiation up to %g could be MJ/m² or W/m²",
			n, single.v)
	default:
		b.assumed = append(b.assumed, fmt.Sprintf("radiation is in MJ/m²: in %d days the brightest reach %g, which would be dark in W/m²", n,
			high))
	}
	return nil
}
