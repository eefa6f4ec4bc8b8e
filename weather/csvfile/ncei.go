package csvfile

import (
	"bytes"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
)

const nceiSource = "NOAA NCEI daily summaries; columns read in real files, attributes from memory"

func ghcnWideLayout() Layout {
	return Layout{
		Name:  "ghcn-wide",
		Title: "GHCN-Daily, a row per day with attributes",
		Doc: "NOAA's access files: STATION, DATE, LATITUDE, LONGITUDE, ELEVATION, NAME, then an element and its _ATTRIBUTES (measurement flag, quality flag, " +
			"source flag, time) in turn. Flags are read as in ghcn-long. The same header is used by downloads in other units, so the values are checked " +
			"against tenths and the file is refused when they cannot be.",
		Units:      "tenths unless the values speak against it or the user says otherwise",
		Missing:    "an empty cell, -9999 or 9999",
		WindHeight: "not stated: give it",
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
		Doc: "STATION with the prefix GHCND:, STATION_NAME, DATE as 20120101 and a column an element in any order, each perhaps followed by columns of flags. " +
			"Values that cannot be tenths are refused.",
		Units:      "tenths of °C, of mm and of m/s, unless the values speak against it or the user says otherwise",
		Missing:    "-9999 or 9999",
		WindHeight: "not stated: give it",
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
		Doc: "STATION, NAME, DATE as 2021-01-01 and a column an element. The same names stand above °F and inches, °C and mm, or tenths; the values of the " +
			"whole file are held against what is possible, and unless one system alone remains the file is refused with the choices.",
		Units:      "not stated: settled by the values or by the user (us, si, tenths)",
		Missing:    "an empty cell, -9999 or 9999",
		WindHeight: "not stated: give it",
		Source:     nceiSource,
		asksUnits:  true,
		match:      func(h *lead, n int) bool { return nceiHeader(h, n) && !hasAttributes(h.cells(n)) && !cdoPrefix(h, n) },
		read:       func(r *reading) error { return readNCEI(r, "") },
	}
}

// nceiHeader recognises the header that the three layouts share. The summary of
// the day has PRCP too, but MAX and MIN.
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

// cdoPrefix reports whether the row below the header names its station as older
// exports do.
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

// nceiCheck acts on the flags of the element in cell k, which stand in one cell
// behind it ("M,Q,S") or in one each, and notes where decimals are written.
func nceiCheck(names []string, k int) func(*cell) {
	attr := place(names, names[k]+"_ATTRIBUTES")
	single := k+2 < len(names) && strings.EqualFold(names[k+1], "Measurement Flag") && strings.EqualFold(names[k+2], "Quality Flag")
	return func(c *cell) {
		if c.v == c.v && !c.r.cur.decimals[c.col] && bytes.IndexByte(c.text, '.') >= 0 {
			c.r.cur.decimals[c.col] = true
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
