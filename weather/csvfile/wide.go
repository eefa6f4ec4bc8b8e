package csvfile

import (
	"bytes"
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// A wideTable says how to read the rows of a table with one row per day.
type wideTable struct {
	sep   byte     // 0 means a comma
	names []string // the header; a row must have as many cells
	// date reads the date of a row, and dateAt are its cells, for errors; form
	// is the expected form of the date.
	date   func(row []field) (cal.Date, bool)
	dateAt []int
	form   string
	// station returns the station of a row; nil means the file has one.
	station func(row []field) (id, name []byte)
	// pass reports rows to skip because they are not days; nil means none.
	pass func(row []field) bool
	// stop reports the row at which the table ends before the file does; it
	// stays in the reading's row. nil means the table goes to the end of the
	// file.
	stop    func(row []field) bool
	stopped bool // set if stop ended the table
	held    bool // the first row is already read: the file has no header
	cells   int  // how many cells the first row has; 0 before it
	// begin is called for the first row of each station; nil does nothing.
	begin func(row []field)
	// after is called for each row after its values are stored; nil does nothing.
	after  func(c *cell)
	source string // source of the layout's missing-value codes and flags
	binds  []bind
}

// A bind maps a cell of each row to a column.
type bind struct {
	at    int // index of the cell in the row
	col   weather.Column
	to    func(float64) float64 // conversion to the column's unit; nil means none
	codes []float64             // numbers that mean missing
	words []string              // words that mean missing, in addition to those in noValue
	// check inspects a converted value with its row: it may change, mark or
	// drop it. It is also called for missing values. nil means no check.
	check func(c *cell)
}

// A cell is a value on its way into a column.
type cell struct {
	r    *reading
	col  weather.Column
	row  []field
	date cal.Date
	line int
	text []byte
	v    float64 // NaN if missing
	mark weather.Mark
}

// note counts a case of k for the cell.
func (c *cell) note(k kind, worth float64) {
	c.r.cur.note(k, c.col, hit{c.date, c.line, worth, c.text})
}

// drop counts a case of k and makes the value missing.
func (c *cell) drop(k kind, worth float64) {
	c.note(k, worth)
	c.v, c.mark = nan, weather.Missing
}

// noValue recognizes the ways any layout may write a missing value.
func noValue(b []byte) bool {
	switch len(b) {
	case 0:
		return true
	case 2:
		return b[0]|0x20 == 'n' && b[1]|0x20 == 'a'
	case 3:
		return b[0]|0x20 == 'n' && b[1]|0x20 == 'a' && b[2]|0x20 == 'n'
	case 4:
		return bytes.EqualFold(b, []byte("null"))
	}
	return false
}

// wide reads the rows of a table with one row per day to the end of the file.
func (r *reading) wide(w *wideTable) {
	sep := w.sep
	if sep == 0 {
		sep = ','
	}
	vals := make([]float64, len(w.binds))
	marks := make([]weather.Mark, len(w.binds))
	missing := missingCode.from(w.source)
	c := cell{r: r}
	for more := w.held || r.fields(sep); more; more = r.fields(sep) {
		if w.stop != nil && w.stop(r.row) {
			w.stopped = true
			return
		}
		if r.repeatsHeader(w) {
			continue
		}
		if w.cells == 0 {
			w.cells = len(r.row)
		}
		if len(r.row) != len(w.names) && !r.squareUp(w) || w.pass != nil && w.pass(r.row) {
			continue
		}
		if w.station != nil {
			if !r.at(w.station(r.row)) {
				continue
			}
		} else if !r.at(nil, nil) {
			continue
		}
		line := r.scan.line
		if w.begin != nil && len(r.cur.lines) == 0 {
			w.begin(r.row)
		}
		date, ok := w.date(r.row)
		if !ok {
			r.badDate(w.dateAt, w.form)
			continue
		}
		c.row, c.date, c.line = r.row, date, line
		r.cur.mute = r.cur.names(date) // findings in a duplicate row do not count
		ok = true
		for k := range w.binds {
			b := &w.binds[k]
			f := r.row[b.at]
			v, good := number(f.text)
			switch {
			case !good && (noValue(f.text) || isWord(f.text, b.words)):
				v = nan
			case !good:
				r.badNumber(f, w.names[b.at])
				ok = false
				continue
			case isCode(v, b.codes):
				r.cur.note(missing, b.col, hit{date, line, 0, f.text})
				v = nan
			case b.to != nil:
				v = b.to(v)
			}
			mark := weather.Observed
			if b.check != nil {
				c.col, c.text, c.v, c.mark = b.col, f.text, v, mark
				b.check(&c)
				v, mark = c.v, c.mark
			}
			vals[k], marks[k] = v, mark
		}
		r.cur.mute = false
		if ok && r.put(w, date, vals, marks) && w.after != nil {
			w.after(&c)
		}
	}
}

func isCode(v float64, codes []float64) bool {
	for _, c := range codes {
		if v == c {
			return true
		}
	}
	return false
}

func isWord(b []byte, words []string) bool {
	for _, w := range words {
		if string(b) == w {
			return true
		}
	}
	return false
}

// put stores one row and reports whether it is a new day.
func (r *reading) put(w *wideTable, date cal.Date, vals []float64, marks []weather.Mark) bool {
	b, line := r.cur, r.scan.line
	if len(b.lines) > 0 && date < b.last {
		b.noteDay(unsortedRows, hit{date, line, float64(b.last - date), fmt.Appendf(nil, "after %v", b.last)})
	}
	b.last = max(b.last, date)
	if len(b.lines) == 0 {
		b.last = date
		for k := range w.binds {
			b.column(w.binds[k].col)
		}
	}
	i := b.day(date)
	if was := b.lines[i]; was != 0 {
		for k := range w.binds {
			b.column(w.binds[k].col) // a later table in the file may have others
			old := b.data[w.binds[k].col][i]
			if old != vals[k] && (old == old || vals[k] == vals[k]) {
				r.fault(diag.Duplicate, line, r.row[w.binds[k].at].col, "keep the right one of the two rows",
					"duplicate date %v: %s is %q here but differs on line %d", date, w.names[w.binds[k].at], r.row[w.binds[k].at].text, was)
				return false
			}
		}
		b.noteDay(doubleRows, hit{date, line, 0, fmt.Appendf(nil, "also on line %d", was)})
		return false
	}
	b.lines[i] = int32(min(line, 1<<31-1))
	for k := range w.binds {
		b.set(w.binds[k].col, i, vals[k], marks[k])
	}
	return true
}

// repeatsHeader reports a row that is the header again, as in files that were
// joined end to end. A held first row is of a table without a header.
func (r *reading) repeatsHeader(w *wideTable) bool {
	if len(r.row) != len(w.names) || w.names[0] == "" || !bytes.EqualFold(r.row[0].text, []byte(w.names[0])) {
		return false
	}
	for i, f := range r.row {
		if !bytes.EqualFold(f.text, []byte(w.names[i])) {
			return false
		}
	}
	if w.held && r.scan.line == r.header {
		return false
	}
	r.fault(diag.RepeatedHeader, r.scan.line, 0, "delete this line, and check that the rows below it are of the same station and in the "+
		"same units", "the header is repeated in the middle of the file")
	return true
}

// squareUp reports a row whose number of cells differs from the header's,
// unless the extra cells are empty and the first row has as many. In one row
// alone they are what a decimal comma leaves: its values have moved.
func (r *reading) squareUp(w *wideTable) bool {
	want := len(w.names)
	if len(r.row) > want {
		extra, all := r.row[want:], len(r.row)
		r.row = r.row[:want]
		for _, f := range extra {
			if len(f.text) > 0 {
				r.fault(diag.RowLength, r.scan.line, f.col, "compare the row with its header", "the row has an extra cell %q; the header has %d",
					f.text, want)
				return false
			}
		}
		if w.cells > 0 && all != w.cells {
			r.fault(diag.RowLength, r.scan.line, extra[0].col, "compare the row with those above; a decimal comma splits a number in two",
				"the row has %d cells, the first row %d", all, w.cells)
			return false
		}
		return true
	}
	last := r.row[len(r.row)-1]
	fix := "compare the row with its header"
	if r.scan.noFinal {
		fix = "the file ends inside this row: download it again, or delete the row"
	}
	r.fault(diag.RowLength, r.scan.line, last.col, fix, "the row has %d cells, the header %d", len(r.row), want)
	return false
}

func (r *reading) badNumber(f field, name string) {
	r.fault(diag.NotANumber, r.scan.line, f.col, "write a decimal number, or leave the cell empty if the value is missing",
		"%s %q is not a number", name, clip(f.text))
}

func (r *reading) badDate(at []int, form string) {
	text, col := []byte(nil), 0
	for i, k := range at {
		f := r.row[k]
		if i == 0 {
			col = f.col
		} else {
			text = append(text, ' ')
		}
		text = append(text, f.text...)
	}
	r.fault(diag.NotADate, r.scan.line, col, "write the date as "+form, "%q is not a calendar date between %d and %d", clip(text), firstYear,
		lastYear)
}

// clip shortens a bad cell for messages.
func clip(b []byte) []byte {
	if len(b) > 60 {
		return append(append([]byte(nil), b[:60]...), " …"...)
	}
	return b
}
