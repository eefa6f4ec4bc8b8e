package csvfile

import (
	"bytes"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
)

const nceiSource = "NOAA NCEI daily summaries; columns read in real files, attributes from memory, not verified"

func ghcnWideLayout() Layout {
	return Layout{
		Name:  "ghcn-wide",
		Title: "GHCN-Daily, a row per day with attributes",
		Doc: "NOAA's access files: STATION, DATE, LATITUDE, LONGITUDE, ELEVATION, NAME, then pairs of an element and its _ATTRIBUTES " +
			"(measurement flag, quality flag, source flag, time). Flags are read as in ghcn-long. Downloads in other units have the " +
			"same header, so the values are checked and the file is not accepted if they cannot be tenths.",
		Units:      "tenths unless the values or the user say otherwise",
		Missing:    "an empty cell, -9999 or 9999",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     nceiSource,
		asksUnits:  true,
		match:      func(h *lead, n int) bool { return nceiHeader(h, n) && hasAttributes(h.cells(n)) },
		read:       func(r *reading) error { return readNCEI(r, unitsTenths) },
	}
}

func cdoTenthsLayout() Layout {
	return Layout{
		Name:  "cdo-tenths",
		Title: "Climate Data Online, older daily export",
		Doc: "STATION with the prefix GHCND:, STATION_NAME, DATE as 20120101 and one column per element in any order, possibly " +
			"followed by flag columns. Values that are not in tenths are rejected.",
		Units:      "tenths of °C, of mm and of m/s, unless the values or the user say otherwise",
		Missing:    "-9999 or 9999",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     nceiSource,
		asksUnits:  true,
		match:      func(h *lead, n int) bool { return nceiHeader(h, n) && !hasAttributes(h.cells(n)) && cdoPrefix(h, n) },
		read:       func(r *reading) error { return readNCEI(r, unitsTenths) },
	}
}

func nceiWideLayout() Layout {
	return Layout{
		Name:  "ncei-wide",
		Title: "NCEI daily summaries without units",
		Doc: "STATION, NAME, DATE as 2021-01-01 and one column per element. The same names are used for °F and inches, °C and mm, or " +
			"tenths; the values of the whole file are checked against possible values. Unless only one system remains, the error lists " +
			"the choices.",
		Units:      "not stated: inferred from the values or given by the user (us, si, tenths)",
		Missing:    "an empty cell, -9999 or 9999",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     nceiSource,
		asksUnits:  true,
		match:      func(h *lead, n int) bool { return nceiHeader(h, n) && !hasAttributes(h.cells(n)) && !cdoPrefix(h, n) },
		read:       func(r *reading) error { return readNCEI(r, "") },
	}
}

// nceiHeader recognizes the header shared by the three layouts. The summary of
// the day also has PRCP, but MAX and MIN.
func nceiHeader(h *lead, n int) bool {
	if !h.has(n, "STATION", "DATE") || h.has(n, "ELEMENT") || h.has(n, "MAX") || h.has(n, "WDSP") {
		return false
	}
	return h.has(n, "TMAX") || h.has(n, "TMIN") || h.has(n, "PRCP")
}

func hasAttributes(cells []string) bool {
	for _, c := range cells {
		if strings.HasSuffix(strings.ToUpper(c), "_ATTRIBUTES") {
			return true
		}
	}
	return false
}

// cdoPrefix reports whether the row below the header names its station as in
// older exports.
func cdoPrefix(h *lead, n int) bool {
	below, at := h.cells(n+1), place(h.cells(n), "STATION")
	return at < len(below) && strings.HasPrefix(below[at], "GHCND:")
}

func readNCEI(r *reading, usual string) error {
	line := r.skipTo(r.header)
	row, _ := split(nil, line, ',')
	w := &wideTable{names: cellNames(row), form: "2021-01-31 or 20210131", source: nceiSource}
	at := func(name string) int { return place(w.names, name) }
	dateAt, stationAt, nameAt := at("DATE"), at("STATION"), max(at("NAME"), at("STATION_NAME"))
	w.dateAt = []int{dateAt}
	w.date = func(row []field) (cal.Date, bool) { return ghcnDate(row[dateAt].text) }
	w.station = func(row []field) (id, name []byte) {
		if nameAt >= 0 {
			name = row[nameAt].text
		}
		return bytes.TrimPrefix(row[stationAt].text, []byte("GHCND:")), name
	}
	for _, name := range []string{"TMAX", "TMIN", "PRCP", "AWND", "TSUN"} {
		if k := at(name); k >= 0 {
			col, _, _ := ghcnElement([]byte(name))
			w.binds = append(w.binds, bind{at: k, col: col, codes: []float64{-9999, 9999}, words: []string{"T"}, check: nceiCheck(w.names, k)})
		}
	}
	lat, lon, elev, mdpr := at("LATITUDE"), at("LONGITUDE"), at("ELEVATION"), at("MDPR")
	w.begin = func(row []field) {
		put := func(to *float64, k int) {
			if k >= 0 {
				if v, ok := number(row[k].text); ok && v > -999 {
					*to = v
				}
			}
		}
		put(&r.cur.st.LatDeg, lat)
		put(&r.cur.st.LonDeg, lon)
		put(&r.cur.st.ElevM, elev)
		r.cur.settle = func(b *builder) error { return r.settleUnits(b, usual) }
	}
	w.after = func(c *cell) {
		if mdpr < 0 {
			return
		}
		if v, ok := number(c.row[mdpr].text); ok && v != -9999 && v != 9999 {
			r.cur.note(ghcnMultiDay, weather.Rain, hit{c.date, c.line, v, append([]byte("MDPR "), c.row[mdpr].text...)})
		}
	}
	r.assume("%s", ghcnDays)
	r.wide(w)
	return nil
}

// nceiCheck handles the flags of the element in cell k, which are in one cell
// after it ("M,Q,S") or in separate cells, and notes decimals.
func nceiCheck(names []string, k int) func(*cell) {
	attr := place(names, names[k]+"_ATTRIBUTES")
	single := k+2 < len(names) && strings.EqualFold(names[k+1], "Measurement Flag") && strings.EqualFold(names[k+2], "Quality Flag")
	return func(c *cell) {
		if c.v == c.v && bytes.IndexByte(c.text, '.') >= 0 {
			c.r.cur.decimals[c.col]++
		}
		if c.col == weather.Rain && len(c.text) == 1 && c.text[0] == 'T' {
			c.v = 0
			ghcnFlags(c, 'T', 0)
			return
		}
		switch {
		case attr >= 0:
			flags := c.row[attr].text
			m, rest, _ := bytes.Cut(flags, []byte(","))
			q, _, _ := bytes.Cut(rest, []byte(","))
			ghcnFlags(c, first(bytes.TrimSpace(m)), first(bytes.TrimSpace(q)))
		case single:
			ghcnFlags(c, first(c.row[k+1].text), first(c.row[k+2].text))
		}
	}
}
