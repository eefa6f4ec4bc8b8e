package csvfile

import (
	"bytes"

	"loamledger/weather"
)

const gsodSource = "NOAA NCEI, Global Surface Summary of the Day: header and a row read, codes and flags from memory, not verified"

// The meaning of the flags in the summary of the day.
var (
	gsodHourly = kind{weather.CodeFromHourly, "extremes taken from hourly values, not from the 24-hour report (flag *)",
		"kept; the true extreme may be larger", gsodSource}
	gsodNoReport = kind{weather.CodeNoRainReport, "rain 0.00 with flag I: nothing was reported; it may have rained", "value dropped",
		gsodSource}
	gsodDoubtful = kind{weather.CodeRainIncomplete, "rain 0 with flag H although an hourly report had rain", "value dropped", gsodSource}
	gsodPartial  = kind{weather.CodeRainOfPartDay, "rain summed from reports over 6 to 18 hours (flags A, B, C and E)",
		"kept; the day may have had more", gsodSource}
)

func gsodLayout() Layout {
	return Layout{
		Name:  "gsod",
		Title: "NOAA Global Surface Summary of the Day",
		Doc: "One quoted row per station and day: STATION, DATE, LATITUDE, LONGITUDE, ELEVATION, NAME, then TEMP, DEWP, WDSP, MAX, " +
			"MIN and PRCP with a cell of _ATTRIBUTES after each. MAX, MIN, PRCP, DEWP and WDSP are read. Rain 0.00 with flag I was not " +
			"reported and counts as missing; with flag H it is incomplete and also missing; rain over part of the day (flags A, B, C " +
			"and E) is counted and kept. There is no radiation.",
		Units:      "fixed: °F, inches, knots",
		Missing:    "9999.9 in temperatures, 999.9 in wind, 99.99 in rain",
		WindHeight: "not stated: 10 m assumed, the standard height of airport and weather-service anemometers",
		Source:     gsodSource,
		match:      func(h *lead, n int) bool { return h.has(n, "STATION", "DATE", "MAX", "MIN", "PRCP") },
		read:       readGSOD,
	}
}

func readGSOD(r *reading) error {
	w := r.table(',', gsodSource)
	w.dated(w.at("DATE"), "2025-01-31", isoDate)
	station, name := w.at("STATION"), w.at("NAME")
	w.station = func(row []field) (id, nm []byte) {
		if name >= 0 {
			nm = row[name].text
		}
		return row[station].text, nm
	}
	lat, lon, elev := w.at("LATITUDE"), w.at("LONGITUDE"), w.at("ELEVATION")
	w.begin = func(row []field) {
		stationFact(&r.cur.st.LatDeg, row, lat)
		stationFact(&r.cur.st.LonDeg, row, lon)
		stationFact(&r.cur.st.ElevM, row, elev)
	}
	extreme := func(attr int) func(*cell) {
		return func(c *cell) {
			if attr >= 0 && c.v == c.v && bytes.IndexByte(c.row[attr].text, '*') >= 0 {
				c.note(gsodHourly, 0)
			}
		}
	}
	rain := w.at("PRCP_ATTRIBUTES")
	w.bind("MAX", bind{col: weather.Tmax, to: fahrenheit, codes: []float64{9999.9}, check: extreme(w.at("MAX_ATTRIBUTES"))})
	w.bind("MIN", bind{col: weather.Tmin, to: fahrenheit, codes: []float64{9999.9}, check: extreme(w.at("MIN_ATTRIBUTES"))})
	w.bind("PRCP", bind{col: weather.Rain, to: inches, codes: []float64{99.99}, check: func(c *cell) {
		if rain < 0 || c.v != c.v {
			return
		}
		switch flag := first(c.row[rain].text); {
		case flag == 'I' && c.v == 0:
			c.drop(gsodNoReport, 0)
		case flag == 'H' && c.v == 0:
			c.drop(gsodDoubtful, 0)
		case flag == 'A' || flag == 'B' || flag == 'C' || flag == 'E':
			c.note(gsodPartial, c.v)
		}
	}})
	w.bind("DEWP", bind{col: weather.Tdew, to: fahrenheit, codes: []float64{9999.9}})
	w.bind("WDSP", bind{col: weather.Wind, to: knots, codes: []float64{999.9}})
	r.proto.WindHeightM = 10
	r.assume("units °F, inches and knots, as the layout defines")
	r.assume("anemometer height 10 m: not in the file; the standard height of weather-service anemometers")
	r.assume("at many stations the day follows universal time, not local time")
	r.wide(w)
	return nil
}
