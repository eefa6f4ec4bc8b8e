package csvfile

import (
	"bytes"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const fawnSource = "Florida Automated Weather Network report: header and rows read in a real file"

// A day of the network has 96 observations, one every 15 minutes.
const (
	fawnWhole  = 96
	fawnEnough = 87 // nine in ten: common practice, no source
)

var (
	fawnPartial = kind{weather.CodePartialDay, "days with fewer than 87 of their 96 observations (nine in ten)", "values dropped", fawnSource}
	fawnShort   = kind{weather.CodeShortDay, "days with 87 to 95 of their 96 observations", "kept", fawnSource}
	fawnDry     = kind{weather.CodeZeroHumidity, "a relative humidity of 0%, which is impossible", "value dropped", fawnSource}
)

func fawnLayout() Layout {
	return Layout{
		Name:  "fawn",
		Title: "Florida Automated Weather Network report",
		Doc: "Quoted, with FAWN Station and Period (1 Jan 2022) first, then the requested columns, units in parentheses; several " +
			"stations can follow each other. 2m T max and min, 2m DewPt avg, RelHum avg, 2m Rain tot, SolRad avg and 10m Wind avg are " +
			"read. N (# obs) separates whole days (96) from partial ones, whose values are dropped below nine in ten. The monthly " +
			"report (Period Jan-14) has the same header and is not accepted.",
		Units:      "in the header: °F, inches, W/m² over 24 h, mph",
		Missing:    "an empty cell",
		WindHeight: "in the column name: 10 m",
		Source:     fawnSource,
		match:      func(h *lead, n int) bool { return h.starts(n, "FAWN Station", "Period") },
		read:       readFAWN,
	}
}

func fawnColumn(name string) (weather.Column, bool) {
	switch strings.Join(strings.Fields(strings.ToLower(name)), " ") {
	case "2m t max":
		return weather.Tmax, true
	case "2m t min":
		return weather.Tmin, true
	case "2m rain tot":
		return weather.Rain, true
	case "2m dewpt avg":
		return weather.Tdew, true
	case "relhum avg 2m":
		return weather.RHmean, true
	case "solrad avg2m", "solrad avg 2m":
		return weather.Rs, true
	case "10m wind avg":
		return weather.Wind, true
	}
	return 0, false
}

func readFAWN(r *reading) error {
	below := newLead(r.scan).cells(r.header + 1)
	if len(below) > 1 && fawnMonth([]byte(below[1])) {
		return r.fatal(diag.WrongReport, r.header+1, 0, "download the daily report", "the period %q is a month: this is the monthly report",
			below[1])
	}
	w := r.table(',', fawnSource)
	w.dated(1, "1 Jan 2022", dayMonthName)
	w.station = func(row []field) ([]byte, []byte) { return row[0].text, nil }
	obs := -1
	for i, cell := range w.names {
		name, unit := headed(cell)
		if strings.EqualFold(name, "N") {
			obs = i
		}
		col, ok := fawnColumn(name)
		if !ok {
			continue
		}
		to, known := toColumn(col, unit)
		if !known {
			r.fault(diag.UnknownUnit, r.header, 0, "describe the layout, with its unit, in a layout file", "column %[2]q has the unknown unit %[1]q",
				unit, cell)
			continue
		}
		w.binds = append(w.binds, bind{at: i, col: col, to: to})
	}
	if len(w.binds) == 0 && r.faults.Len() == 0 {
		return r.fatal(diag.MissingColumn, r.header, 0, "download 2m T max, 2m T min and 2m Rain tot",
			"the file has none of the columns that can be read")
	}
	if r.faults.Len() > 0 {
		return nil
	}
	count := func(row []field) int {
		if obs < 0 {
			return fawnWhole
		}
		if n, ok := whole(row[obs].text); ok {
			return n
		}
		return fawnWhole
	}
	for i := range w.binds {
		w.binds[i].check = func(c *cell) {
			switch {
			case c.v != c.v:
			case count(c.row) < fawnEnough:
				c.v, c.mark = nan, weather.Missing
			case c.col == weather.RHmean && c.v == 0:
				c.drop(fawnDry, 0)
			}
		}
	}
	w.after = func(c *cell) {
		n := count(c.row)
		k := fawnShort
		if n >= fawnWhole {
			return
		}
		if n < fawnEnough {
			k = fawnPartial
		}
		r.cur.noteDay(k, hit{c.date, c.line, float64(fawnWhole - n), append([]byte("observations: "), c.row[obs].text...)})
	}
	r.proto.WindHeightM = 10
	if obs < 0 {
		r.assume("the file lacks N (# obs), so partial days cannot be detected")
	}
	r.wide(w)
	return nil
}

const monthNames = "janfebmaraprmayjunjulaugsepoctnovdec"

// monthName reads the first three letters of an English month name.
func monthName(b []byte) (int, bool) {
	if len(b) < 3 {
		return 0, false
	}
	i := strings.Index(monthNames, strings.ToLower(string(b[:3])))
	return i/3 + 1, i >= 0 && i%3 == 0
}

// dayMonthName reads 1 Jan 2022.
func dayMonthName(b []byte) (cal.Date, bool) {
	f := bytes.Fields(b)
	if len(f) != 3 || len(f[1]) != 3 {
		return 0, false
	}
	d, ok1 := natural(f[0])
	m, ok2 := monthName(f[1])
	y, ok3 := natural(f[2])
	if !ok1 || !ok2 || !ok3 {
		return 0, false
	}
	return ymd(y, m, d)
}

// fawnMonth recognizes a month, Jan-14 or Jan 2014.
func fawnMonth(b []byte) bool {
	i := bytes.IndexAny(b, "- ")
	if i < 3 {
		return false
	}
	_, ok1 := monthName(b[:i])
	_, ok2 := natural(b[i+1:])
	return ok1 && ok2
}
