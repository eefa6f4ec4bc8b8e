package csvfile

import (
	"strings"

	"loamledger/weather/cal"
)

// table skips to the header line, splits it at sep and returns a wideTable with
// its names.
func (r *reading) table(sep byte, source string) *wideTable {
	line := r.skipTo(r.header)
	var row []field
	if sep == ' ' {
		row = splitBlank(nil, line)
	} else {
		row, _ = split(nil, line, sep)
	}
	w := &wideTable{sep: sep, names: cellNames(row), source: source}
	for i, name := range w.names {
		w.names[i] = strings.ToValidUTF8(name, "?")
	}
	return w
}

// at returns the index of the column called name, ignoring case, or -1.
func (w *wideTable) at(name string) int { return place(w.names, name) }

// bind reads the cells under name, if the header has it, with b.
func (w *wideTable) bind(name string, b bind) {
	if b.at = w.at(name); b.at >= 0 {
		w.binds = append(w.binds, b)
	}
}

// dated sets how to read a date in one cell.
func (w *wideTable) dated(at int, form string, read func([]byte) (cal.Date, bool)) {
	w.dateAt, w.form = []int{at}, form
	w.date = func(row []field) (cal.Date, bool) { return read(row[at].text) }
}

// datedYMD sets year, month and day in separate cells.
func (w *wideTable) datedYMD(y, m, d int) {
	w.dateAt, w.form = []int{y, m, d}, "year, month and day in three cells"
	w.date = func(row []field) (cal.Date, bool) {
		yy, ok1 := whole(row[y].text)
		mm, ok2 := whole(row[m].text)
		dd, ok3 := whole(row[d].text)
		if !ok1 || !ok2 || !ok3 {
			return 0, false
		}
		return ymd(yy, mm, dd)
	}
}

// stationFact stores the number in cell k of row in to, unless there is none or
// it is a missing-value code.
func stationFact(to *float64, row []field, k int) {
	if k < 0 || k >= len(row) {
		return
	}
	if v, ok := number(row[k].text); ok && v > -900 && v < 9999 {
		*to = v
	}
}
