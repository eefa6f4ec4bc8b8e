package csvfile

import (
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const cimisSource = "CIMIS daily reports (California Department of Water Resources): layout, units and flags read in real files; the " +
	"anemometer height from the network's description, from memory, not verified"

var (
	cimisDrop = kind{weather.CodeQualityFlag, "values flagged as far out of range, missing or unusable (R, M, S, I)", "value dropped",
		cimisSource}
	cimisKeep = kind{weather.CodeQualityNote, "flagged values that remain usable (Y, P, H and others)", "kept", cimisSource}
	cimisFog  = kind{weather.CodeFogOrDewRain, "days from November to February with 0.1 to 0.4 mm of rain, often fog drip or dew in the gauge",
		"kept", cimisSource}
)

func cimisLayout() Layout {
	return Layout{
		Name:  "cimis",
		Title: "CIMIS (California), daily report",
		Doc: "Stn Id, Stn Name, CIMIS Region, Date as 6/30/2012, Jul, then the selected sensors with their units in parentheses, " +
			"each followed by its own qc column; also the version with a Station Number column and a QC column after each sensor. Rows " +
			"may be from several " +
			"stations. Monthly reports are not accepted.",
		Units:      "in the column names (in, Ly/day, mBars, F, mph or mm, W/sq.m, kPa, C, m/s)",
		Missing:    "an empty cell",
		WindHeight: "2 m, according to the network's station description (from memory, not verified)",
		Source:     cimisSource,
		match: func(h *lead, n int) bool {
			return (h.has(n, "Stn Id") || h.has(n, "Station Number")) && h.has(n, "CIMIS Region")
		},
		read: readCimis,
	}
}

// cimisColumn returns the column for a sensor.
func cimisColumn(name string) (weather.Column, bool) {
	switch strings.ToLower(name) {
	case "eto":
		return weather.ETo, true
	case "precip":
		return weather.Rain, true
	case "sol rad", "avg sol rad":
		return weather.Rs, true
	case "avg vap pres":
		return weather.Ea, true
	case "max air temp":
		return weather.Tmax, true
	case "min air temp":
		return weather.Tmin, true
	case "max rel hum":
		return weather.RHmax, true
	case "min rel hum":
		return weather.RHmin, true
	case "avg rel hum":
		return weather.RHmean, true
	case "dew point":
		return weather.Tdew, true
	case "avg wind speed":
		return weather.Wind, true
	}
	return 0, false
}

func readCimis(r *reading) error {
	line := r.skipTo(r.header)
	row, _ := split(nil, line, ',')
	w := &wideTable{names: cellNames(row), form: "6/30/2012", source: cimisSource}
	dateAt := place(w.names, "Date")
	if k := max(place(w.names, "Month Year"), place(w.names, "Month")); dateAt < 0 && k >= 0 {
		return r.fatal(diag.WrongReport, r.header, row[k].col, "download the daily report",
			"this is a monthly report; a replay needs daily values")
	}
	if dateAt < 0 {
		return r.fatal(diag.MissingColumn, r.header, 1, "download the daily report",
			"missing column Date: this may be an hourly or monthly report")
	}
	if k := max(place(w.names, "Hour (PST)"), place(w.names, "Hour")); k >= 0 {
		return r.fatal(diag.WrongReport, r.header, row[k].col, "download the daily report",
			"this is an hourly report; a replay needs daily values")
	}
	w.dateAt = []int{dateAt}
	w.date = func(row []field) (cal.Date, bool) { return monthFirst(row[dateAt].text) }
	id, name := max(place(w.names, "Stn Id"), place(w.names, "Station Number")),
		max(place(w.names, "Stn Name"), place(w.names, "Station Name"))
	w.station = func(row []field) ([]byte, []byte) {
		if name < 0 {
			return row[id].text, nil
		}
		return row[id].text, row[name].text
	}
	for i, cell := range w.names {
		sensor, unit := headed(cell)
		col, ok := cimisColumn(sensor)
		if !ok {
			continue
		}
		to, ok := toColumn(col, unit)
		if !ok {
			return r.fatal(diag.UnknownUnit, r.header, row[i].col, "download the report in English or metric units", "%s has the unknown unit %q",
				sensor, unit)
		}
		b := bind{at: i, col: col, to: to}
		if next := strings.ToLower(strings.Join(w.names[min(i+1, len(w.names)):min(i+2, len(w.names))], "")); next == "qc" ||
			strings.HasSuffix(next, " qc") {
			b.check = cimisFlag(i + 1)
		}
		w.binds = append(w.binds, b)
		if col == weather.ETo {
			r.assume("published ETo is CIMIS Penman, summed from hours, not the daily FAO-56 method")
		}
	}
	r.proto.WindHeightM = 2
	r.assume("wind at 2 m, according to the network's station description (from memory, not verified)")
	r.assume("days run from midnight to midnight of Pacific Standard Time all year; common practice, no source")
	w.after = cimisRain
	r.wide(w)
	return nil
}

// cimisFlag handles the flag in the cell after a value. A good value has a
// blank or nothing there.
func cimisFlag(at int) func(*cell) {
	return func(c *cell) {
		flag := c.row[at].text
		if c.v != c.v || len(flag) == 0 {
			return
		}
		worth := 0.0
		value := append(append(append([]byte(nil), c.text...), ' '), flag...)
		c.text = value
		switch first(flag) {
		case 'R', 'M', 'S', 'I':
			c.drop(cimisDrop, worth)
		default:
			c.note(cimisKeep, worth)
		}
	}
}

func cimisRain(c *cell) {
	b := c.r.cur
	rain := b.data[weather.Rain]
	if rain == nil {
		return
	}
	if v := rain[int(c.date-b.base)]; v > 0 && v <= 0.4 {
		if m := c.date.Month(); m >= 11 || m <= 2 {
			b.note(cimisFog, weather.Rain, hit{date: c.date, line: c.line, worth: v})
		}
	}
}
