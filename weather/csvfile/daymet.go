package csvfile

import (
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

const daymetSource = "Daymet single-pixel extraction (ORNL DAAC), read in a real file; the code -9999 from memory, not verified"

var (
	daymetLeap = kind{weather.CodeLeapDayAbsent, "December 31 of leap years, omitted by the model's 365-day years",
		"kept as days without values", daymetSource}
	daymetRain = kind{weather.CodeWholeMMRain, "days with rain, all of them in whole millimeters", "kept", daymetSource}
)

func daymetLayout() Layout {
	return Layout{
		Name:  "daymet",
		Title: "Daymet, single pixel",
		Doc: "A few lines with latitude, longitude and elevation, then year,yday and columns with their units. Years have 365 days: " +
			"December 31 of leap years is absent. srad is the mean over the daylight period dayl, so radiation is srad times dayl; vp " +
			"is mostly from the lowest temperature. There is no wind.",
		Units:      "in the column names",
		Missing:    "-9999 or an empty cell",
		WindHeight: "no wind in the file",
		Source:     daymetSource,
		match:      func(h *lead, n int) bool { return h.starts(n, "year", "yday") && len(h.cells(n)) > 2 },
		read:       readDaymet,
	}
}

func readDaymet(r *reading) error {
	for r.scan.line < r.header-1 {
		line, ok := r.line()
		if !ok {
			break
		}
		fact(&r.proto.LatDeg, line, "latitude:")
		fact(&r.proto.LonDeg, line, "longitude:")
		fact(&r.proto.ElevM, line, "elevation:")
	}
	line := r.skipTo(r.header)
	row, _ := split(nil, line, ',')
	w := &wideTable{names: cellNames(row), dateAt: []int{0, 1}, form: "year and day of the year (1 to 365)", source: daymetSource}
	w.date = func(row []field) (cal.Date, bool) { return yearAndDay(row[0].text, row[1].text) }
	sradAt, dayAt := -1, -1
	for i, cell := range w.names {
		name, unit := headed(cell)
		var col weather.Column
		switch name {
		case "tmax":
			col = weather.Tmax
		case "tmin":
			col = weather.Tmin
		case "prcp":
			col = weather.Rain
		case "vp":
			col = weather.Ea
		case "srad":
			col, sradAt = weather.Rs, i
		case "dayl":
			if plainUnit(unit) != "s" {
				return r.fatal(diag.UnknownUnit, r.header, row[i].col, "download the file again", "dayl has the unit %q, not seconds", unit)
			}
			dayAt = i
			continue
		default:
			continue
		}
		to, ok := toColumn(col, unit)
		if !ok {
			return r.fatal(diag.UnknownUnit, r.header, row[i].col, "download the file again", "%s has the unknown unit %q", name, unit)
		}
		w.binds = append(w.binds, bind{at: i, col: col, to: to, codes: []float64{-9999}})
	}
	if sradAt >= 0 && dayAt < 0 {
		return r.fatal(diag.MissingColumn, r.header, row[sradAt].col, "download dayl as well",
			"srad is a mean over the daylight period, but the file has no dayl")
	}
	for i := range w.binds {
		if b := &w.binds[i]; b.col == weather.Rs {
			b.to, b.check = nil, func(c *cell) { daylight(c, dayAt) }
		}
	}
	w.begin = func([]field) { r.cur.settle = settleDaymet }
	r.assume("values are modeled for a 1 km cell, not measured at a station; humidity is mostly from the lowest temperature")
	r.assume("radiation is srad times dayl: srad is a mean over the daylight period")
	r.wide(w)
	return nil
}

// daylight converts a mean over the daylight period [W/m²] to the daily sum.
func daylight(c *cell, dayAt int) {
	seconds, ok := number(c.row[dayAt].text)
	if !ok || seconds < 0 {
		c.v = nan
		return
	}
	c.v = c.v * seconds / 1e6
}

// settleDaymet counts what is visible only over the whole record.
func settleDaymet(b *builder) error {
	for i, line := range b.lines {
		d := b.base + cal.Date(i)
		if line == 0 && d.YearDay() == 366 {
			b.noteDay(daymetLeap, hit{date: d})
		}
	}
	b.noteWholeRain(daymetRain)
	return nil
}

// noteWholeRain counts the days with rain when all of many are whole
// numbers of millimeters: light rain is then lost.
func (b *builder) noteWholeRain(k kind) {
	const enough = 30
	wet, worst := 0, extreme{}
	for i, v := range b.data[weather.Rain] {
		if !(v > 0) {
			continue
		}
		if v != float64(int64(v)) {
			return
		}
		if wet++; v > worst.v {
			worst = extreme{v, b.base + cal.Date(i)}
		}
	}
	if wet >= enough {
		b.tallies = append(b.tallies, &tally{kind: k, column: weather.Rain, count: wet, date: worst.date})
	}
}
