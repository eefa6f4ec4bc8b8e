package csvfile

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

var wideFlagsCrossed = kind{weather.CodeFlaggedTmaxBelowTmin,
	"days with Tmax below Tmin, at least one of them flagged by the archive's quality check", "flagged values dropped", ghcnSource}

var wideFlagsDate = kind{weather.CodeMisnamedDate, "a date column named MM/DD/YYYY whose dates are written YYYY-MM-DD", "read as written",
	"common practice, no source"}

func wideFlagsLayout() Layout {
	return Layout{
		Name:  "wide-flags",
		Title: "GHCN-Daily reshaped, a row per day with _FLAGS",
		Doc: "Homemade tables from the daily archive: a date, possibly ID, YEAR, MONTH and DAY, then pairs of an element and its " +
			"_FLAGS (TMAX,TMAX_FLAGS): the measurement, quality and source flags as three letters with _ for a blank (P_0, _I0). Flags " +
			"are read as in ghcn-long. Dates are 2018-10-31 or 10/31/2018, detected at the start of the file and checked against YEAR, " +
			"MONTH and DAY.",
		Units: "not in the file: inferred from the values (tenths of °C, of mm and of m/s if nothing else fits) or given by the user " +
			"(us, si, tenths)",
		Missing:    "nan, an empty cell or -9999",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     ghcnSource,
		asksUnits:  true,
		match: func(h *lead, n int) bool {
			return h.has(n, "TMAX", "TMAX_FLAGS") || h.has(n, "TMIN", "TMIN_FLAGS") || h.has(n, "PRCP", "PRCP_FLAGS")
		},
		read: readWideFlags,
	}
}

func readWideFlags(r *reading) error {
	below := newLead(r.scan).cells(r.header + 1)
	w := r.table(',', ghcnSource)
	at := max(w.at("MM/DD/YYYY"), w.at("YYYY-MM-DD"), w.at("DATE"))
	y, m, d := w.at("YEAR"), w.at("MONTH"), w.at("DAY")
	misnamed := false
	ymdThere := y >= 0 && m >= 0 && d >= 0
	switch {
	case at < 0 && ymdThere:
		w.datedYMD(y, m, d)
	case at < 0:
		return r.fatal(diag.MissingColumn, r.header, 0, "name the date column DATE",
			"missing date column: MM/DD/YYYY, DATE or YEAR, MONTH and DAY")
	default:
		read, form, iso := monthFirst, "10/31/2018", false
		if at < len(below) {
			if _, iso = ghcnDate([]byte(below[at])); iso {
				read, form = ghcnDate, "2018-10-31"
			}
		}
		w.dated(at, form+", matching YEAR, MONTH and DAY", func(b []byte) (cal.Date, bool) { return read(b) })
		if ymdThere {
			plain := w.date
			w.date = func(row []field) (cal.Date, bool) {
				date, ok := plain(row)
				yy, ok1 := whole(row[y].text)
				mm, ok2 := whole(row[m].text)
				dd, ok3 := whole(row[d].text)
				if ok && ok1 && ok2 && ok3 {
					other, good := ymd(yy, mm, dd)
					ok = good && other == date
				}
				return date, ok
			}
		}
		if iso && strings.EqualFold(w.names[at], "MM/DD/YYYY") {
			misnamed = true
		}
	}
	if id := w.at("ID"); id >= 0 {
		w.station = func(row []field) ([]byte, []byte) { return row[id].text, nil }
	}
	for _, name := range []string{"TMAX", "TMIN", "PRCP", "AWND", "TSUN"} {
		col, _, _ := ghcnElement([]byte(name))
		w.bind(name, bind{col: col, codes: []float64{-9999}, check: wideFlagsCheck(w.at(name + "_FLAGS"))})
	}
	mdpr, tmax, tmin := w.at("MDPR"), w.at("TMAX"), w.at("TMIN")
	w.begin = func([]field) { r.cur.settle = func(b *builder) error { return r.settleUnits(b, "") } }
	w.after = func(c *cell) {
		if misnamed {
			r.cur.noteDay(wideFlagsDate, hit{date: c.date, line: c.line, found: c.row[at].text})
		}
		if tmax >= 0 && tmin >= 0 {
			high, ok1 := number(c.row[tmax].text)
			low, ok2 := number(c.row[tmin].text)
			i := r.cur.day(c.date)
			dropped := r.cur.data[weather.Tmax][i] != high || r.cur.data[weather.Tmin][i] != low
			if ok1 && ok2 && high != -9999 && low != -9999 && high < low && dropped {
				r.cur.noteDay(wideFlagsCrossed, hit{c.date, c.line, low - high, fmt.Appendf(nil, "%s below %s", c.row[tmax].text, c.row[tmin].text)})
			}
		}
		if mdpr < 0 {
			return
		}
		if v, ok := number(c.row[mdpr].text); ok && v != -9999 {
			r.cur.note(ghcnMultiDay, weather.Rain, hit{c.date, c.line, v, append([]byte("MDPR "), c.row[mdpr].text...)})
		}
	}
	r.assume("%s", ghcnDays)
	r.wide(w)
	return nil
}

// wideFlagsCheck handles the flags in cell k and notes values with nonzero decimals.
func wideFlagsCheck(k int) func(*cell) {
	return func(c *cell) {
		if c.v == c.v && c.v != float64(int(c.v)) {
			c.r.cur.decimals[c.col]++
		}
		if k < 0 || noValue(c.row[k].text) {
			return
		}
		if flags := c.row[k].text; len(flags) > 1 {
			ghcnFlags(c, flagLetter(flags[0]), flagLetter(flags[1]))
		}
	}
}

// flagLetter converts the underscore to a blank flag.
func flagLetter(b byte) byte {
	if b == '_' {
		return ' '
	}
	return b
}
