package csvfile

import (
	"bytes"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

func ghcnDlyLayout() Layout {
	return Layout{
		Name:  "ghcn-dly",
		Title: "GHCN-Daily, fixed width (.dly)",
		Doc: "NOAA's station files: one line per month and element, with station (11 characters), year, month, element and, 31 " +
			"times, a value of five characters and three flags. -9999 means a missing value or a day that the month does not have. " +
			"Flags and elements are read as in ghcn-long.",
		Units:      "fixed: tenths of °C, of mm and of m/s; TSUN in minutes",
		Missing:    "-9999",
		WindHeight: "not stated; set wind_height, or pass --wind-height",
		Source:     ghcnSource,
		match: func(h *lead, n int) bool {
			if n != 1 {
				return false
			}
			_, _, ok := dlyHead(h.lines[0])
			return ok
		},
		read: readGHCNDly,
	}
}

const (
	dlyPrefix = 21 // characters before the first day
	dlyDay    = 8  // characters per day
)

// dlyHead reads the month of a line.
func dlyHead(line []byte) (year, month int, ok bool) {
	if len(line) > dlyPrefix+31*dlyDay && !blank(line[dlyPrefix+31*dlyDay:]) {
		return 0, 0, false
	}
	if len(line) < dlyPrefix+5 || bytes.IndexByte(line[:dlyPrefix], ',') >= 0 {
		return 0, 0, false
	}
	year, ok1 := natural(line[11:15])
	month, ok2 := natural(line[15:17])
	_, ok3 := number(bytes.TrimLeft(line[21:26], " "))
	return year, month, ok1 && ok2 && ok3 && month >= 1 && month <= 12 && year >= firstYear && year <= lastYear
}

func readGHCNDly(r *reading) error {
	r.assume("values are in tenths, as the layout defines; %s", ghcnDays)
	for {
		line, ok := r.line()
		if !ok {
			return nil
		}
		if blank(line) {
			continue
		}
		year, month, ok := dlyHead(line)
		if !ok {
			r.fault(diag.DamagedFile, r.scan.line, 1, "download the file again",
				"the line does not begin with a station of 11 characters, year, month and element")
			continue
		}
		if r.at(line[:11], nil) {
			r.dlyMonth(line, year, month)
		}
	}
}

func (r *reading) dlyMonth(line []byte, year, month int) {
	element := line[17:21]
	col, to, known := ghcnElement(element)
	multi := bytes.Equal(element, []byte("MDPR"))
	days, start := cal.DaysIn(year, month), cal.Of(year, month, 1)
	c := cell{r: r, line: r.scan.line}
	for d := range min(31, (len(line)-dlyPrefix)/dlyDay+1) {
		at := dlyPrefix + d*dlyDay
		if at+5 > len(line) {
			return
		}
		text := bytes.TrimLeft(line[at:at+5], " ")
		v, ok := number(text)
		switch {
		case len(text) == 0 || ok && v == -9999:
			continue
		case !ok:
			r.fault(diag.NotANumber, r.scan.line, at+1, "download the file again", "%s of day %d: %q is not a number", element, d+1, text)
			continue
		case d >= days:
			r.fault(diag.DamagedFile, r.scan.line, at+1, "write -9999 there", "day %[3]d of month %[1]d, %[2]d does not exist but has a value",
				month, year, d+1)
			continue
		}
		if isDigit(flagAt(line, at+5)) || isDigit(flagAt(line, at+6)) {
			r.fault(diag.DamagedFile, r.scan.line, at+6, "download the file again",
				"%s of day %d has a digit in the place of a flag: the characters of the line have moved", element, d+1)
			return
		}
		c.date, c.text = start+cal.Date(d), text
		if !known {
			r.dayRow(c.date)
			if multi {
				r.cur.note(ghcnMultiDay, weather.Rain, hit{c.date, c.line, v, append([]byte("MDPR "), text...)})
			}
			continue
		}
		c.col, c.v, c.mark = col, to(v), weather.Observed
		ghcnFlags(&c, flagAt(line, at+5), flagAt(line, at+6))
		r.cell(&c, at+1)
	}
}

// flagAt returns the character at i; lines may have lost trailing blanks.
func flagAt(line []byte, i int) byte {
	if i < len(line) {
		return line[i]
	}
	return ' '
}
