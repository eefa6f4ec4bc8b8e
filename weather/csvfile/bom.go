package csvfile

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

const bomSource = "Australian Bureau of Meteorology, Climate Data Online: headers and rows read as quoted in public code"

var (
	bomMultiDay = multiDayRain.from(bomSource)
	bomSpan     = kind{weather.CodeMultiDayExtreme, "an extreme temperature over several days recorded on one date",
		"left as missing on that date", bomSource}
	bomUnchecked = kind{weather.CodeQualityNotChecked, "values whose Quality cell is not Y: not fully checked", "kept", bomSource}
	bomLead      = kind{weather.CodeBeforeOpening, "rows before the first value, from the year the station opened", "omitted", bomSource}
)

func bomLayout() Layout {
	return Layout{
		Name:  "bom",
		Title: "Australian Bureau of Meteorology, Climate Data Online",
		Doc: "One file per element: Product code, station number, Year, Month, Day, then rainfall, maximum or minimum temperature or " +
			"solar exposure, with the number of days that the value covers and its Quality. Rain measured over more than one day stays " +
			"missing on its date. Empty rows before the first value are omitted. Pass all the element files in one command. Rain is for " +
			"the 24 h to 9 am of its date.",
		Units:      "in the header: millimetres, degree C, MJ/m*m",
		Missing:    "an empty cell",
		WindHeight: "no wind in the file",
		Source:     bomSource,
		match: func(h *lead, n int) bool {
			return h.starts(n, "Product code", "Bureau of Meteorology station number", "Year", "Month", "Day")
		},
		read: readBOM,
	}
}

func readBOM(r *reading) error {
	w := r.table(',', bomSource)
	w.datedYMD(2, 3, 4)
	at, period, quality := -1, -1, w.at("Quality")
	var col weather.Column
	for i, cell := range w.names[5:] {
		name, unit := headed(cell)
		name = strings.ToLower(name)
		switch {
		case strings.HasPrefix(name, "period") || strings.HasPrefix(name, "days of accumulation"):
			period = i + 5
			continue
		case strings.HasPrefix(name, "rainfall amount"):
			col = weather.Rain
		case strings.HasPrefix(name, "maximum temperature"):
			col = weather.Tmax
		case strings.HasPrefix(name, "minimum temperature"):
			col = weather.Tmin
		case strings.HasPrefix(name, "daily global solar exposure"):
			col = weather.Rs
		default:
			continue
		}
		u := strings.ReplaceAll(strings.ToLower(unit), "m*m", "m2")
		u = strings.TrimPrefix(u, "degree ")
		if _, ok := toColumn(col, u); !ok {
			return r.fatal(diag.UnknownUnit, r.header, 0, "describe the layout, with its unit, in a layout file",
				"column %[2]q has the unknown unit %[1]q", unit, cell)
		}
		at = i + 5
	}
	if at < 0 {
		return r.fatal(diag.MissingColumn, r.header, 0, "download rainfall, maximum or minimum temperature or solar exposure",
			"the header has none of the elements that can be read")
	}
	opened, before := false, 0
	w.pass = func(row []field) bool {
		if !opened && len(row[at].text) == 0 {
			before++
			return true
		}
		opened = true
		return false
	}
	w.station = func(row []field) ([]byte, []byte) { return row[1].text, nil }
	w.binds = []bind{{at: at, col: col, check: func(c *cell) {
		if c.v != c.v {
			return
		}
		if period >= 0 {
			n, ok := natural(c.row[period].text)
			if !ok && len(c.row[period].text) > 0 {
				r.fault(diag.DamagedFile, c.line, c.row[period].col, "compare the row with those above",
					"%q is in the place of a number of days: the cells of the row have moved", clip(c.row[period].text))
			}
			if ok && n > 1 {
				c.text = fmt.Appendf(nil, "%s over %d days", c.text, n)
				if col == weather.Rain {
					c.drop(bomMultiDay, c.v)
				} else {
					c.drop(bomSpan, float64(n))
				}
				return
			}
		}
		if quality >= 0 && string(c.row[quality].text) != "Y" {
			c.note(bomUnchecked, 0)
		}
	}}}
	w.after = func(c *cell) {
		for ; before > 0; before-- {
			r.cur.noteDay(bomLead, hit{date: c.date, line: c.line, found: []byte("first value")})
		}
	}
	if col == weather.Rain {
		r.assume("rain is for the 24 h to 9 am of its date")
	}
	r.assume("the file has one element, %s; the others are in separate files", col.Label())
	r.wide(w)
	if r.cur == nil && before > 0 && r.faults.Len() == 0 {
		return r.fatal(diag.MissingColumn, r.scan.line, 0, "download another element or station", "none of the %d rows has a value", before)
	}
	return nil
}
