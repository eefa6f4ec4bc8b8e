package csvfile

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// declaredPage documents user-described layouts among the others. It matches no
// line: only [Options.Declared] selects one.
func declaredPage() Layout {
	return Layout{
		Name:  "declared",
		Title: "Any other daily table, described in a layout file",
		Doc: "State the delimiter, the date columns and the form of the date, and for each quantity its column, unit and the cells " +
			"that mean missing. The header is found by its column names, or by how it begins; in tables without a header, columns are " +
			"named by position.",
		Units:      "as stated in the layout file for each column",
		Missing:    "an empty cell, NaN, NA or null, and the cells listed in the layout file",
		WindHeight: "as stated in the layout file, or given",
		Source:     "the user",
		match:      func(*lead, int) bool { return false },
		read: func(r *reading) error {
			return r.fatal(diag.MissingKey, 0, 0, "name a layout file (layout_file; --layout-file)", "missing layout file")
		},
	}
}

func declaredLayout(d *Declared, h *lead) (Layout, int, error) {
	if err := d.Check(); err != nil {
		return Layout{}, 0, err
	}
	l := Layout{Name: d.name(), read: func(r *reading) error { return r.declared(d) }}
	sep := declaredDelimiters[d.Delimiter]
	if d.NoHeader {
		read, at, err := d.dateReader(nil)
		if err != nil {
			return l, 0, err
		}
		for n := range h.lines {
			row := cutLine(h.lines[n], sep)
			if len(row) > slices.Max(at) {
				if _, ok := read(row); ok {
					return l, n + 1, nil
				}
			}
		}
		return l, 0, &diag.Error{Code: diag.BadLayout, Pos: diag.Pos{File: d.name()}, Msg: "no line near the start of the file has a valid date",
			Fix: "check delimiter, date and date_form"}
	}
	most, missing := 0, []string(nil)
	for n := range h.lines {
		line := h.lines[n]
		if d.Header != "" && !bytes.HasPrefix(line, []byte(d.Header)) {
			continue
		}
		cells := cellNames(cutLine(line, sep))
		var without []string
		for _, c := range d.columnNames() {
			if place(cells, c) < 0 {
				without = append(without, c)
			}
		}
		if len(without) == 0 {
			return l, n + 1, nil
		}
		if found := len(d.columnNames()) - len(without); found > most || d.Header != "" {
			most, missing = found, without
		}
	}
	msg := "no line near the start of the file has the columns of the layout file"
	if missing != nil {
		msg += "; the closest one lacks " + strings.Join(missing, ", ")
	}
	return l, 0, &diag.Error{Code: diag.BadLayout, Pos: diag.Pos{File: d.name()}, Msg: msg,
		Fix: "check delimiter, header and the names of the columns"}
}

func cutLine(line []byte, sep byte) []field {
	if sep == ' ' {
		return splitBlank(nil, line)
	}
	row, _ := split(nil, line, sep)
	return row
}

// dateReader returns the function that reads the date of a row, and the cells
// it uses. names is nil for a file without a header.
func (d *Declared) dateReader(names []string) (func([]field) (cal.Date, bool), []int, error) {
	at := func(column string) int {
		if names == nil {
			n, _ := natural([]byte(column))
			return n - 1
		}
		return place(names, column)
	}
	if d.Date != "" {
		form, err := parseDateForm(d.DateForm)
		if err != nil {
			return nil, nil, err
		}
		k := at(d.Date)
		return func(row []field) (cal.Date, bool) { return form.read(row[k].text) }, []int{k}, nil
	}
	if d.YearDay != "" {
		y, n := at(d.Year), at(d.YearDay)
		return func(row []field) (cal.Date, bool) {
			year, ok1 := whole(row[y].text)
			doy, ok2 := whole(row[n].text)
			if !ok1 || !ok2 {
				return 0, false
			}
			return yearDay(year, doy)
		}, []int{y, n}, nil
	}
	var w wideTable
	w.datedYMD(at(d.Year), at(d.Month), at(d.Day))
	return w.date, w.dateAt, nil
}

func (r *reading) declared(d *Declared) error {
	sep := declaredDelimiters[d.Delimiter]
	var w *wideTable
	if d.NoHeader {
		first := newLead(r.scan).lines[r.header-1]
		n := len(cutLine(first, sep))
		if r.header > 1 {
			r.skipTo(r.header - 1)
		}
		w = &wideTable{sep: sep, source: "the layout file"}
		for i := range n {
			w.names = append(w.names, fmt.Sprint(i+1))
		}
	} else {
		w = r.table(sep, "the layout file")
	}
	for _, c := range d.columnNames() {
		if w.at(c) < 0 {
			return r.fatal(diag.MissingColumn, r.header, 0, "check the delimiter and the columns", "missing column %q", c)
		}
	}
	var err error
	if w.date, w.dateAt, err = d.dateReader(w.names); err != nil {
		return err
	}
	w.form = "the layout file states"
	if d.DateForm != "" {
		w.form = d.DateForm
	}
	if strings.Contains(d.DateForm, "YY") && !strings.Contains(d.DateForm, "YYYY") {
		r.assume("two-digit years are 1970 to 2069")
	}
	if d.Station != "" {
		at := w.at(d.Station)
		w.station = func(row []field) ([]byte, []byte) { return row[at].text, nil }
	}
	for _, key := range slices.Sorted(maps.Keys(d.Columns)) {
		q := d.Columns[key]
		col := declaredKeys[key]
		b := bind{at: w.at(q.Column), col: col}
		b.to, _ = declaredUnit(col, q.Unit)
		for _, code := range slices.Concat(d.Missing, q.Missing) {
			if v, ok := number([]byte(d.decimal(code))); ok {
				b.codes = append(b.codes, v)
			} else {
				b.words = append(b.words, code)
			}
		}
		if q.Trace != "" {
			b.trace(d.decimal(q.Trace))
		}
		w.binds = append(w.binds, b)
		r.assume("%s is column %s in %s, as the layout file states", key, q.Column, q.Unit)
	}
	if d.DecimalComma {
		w.pass = func(row []field) bool {
			for k := range w.binds {
				text := row[w.binds[k].at].text
				if i := bytes.IndexByte(text, ','); i >= 0 && bytes.IndexByte(text, '.') < 0 {
					text[i] = '.'
				}
			}
			return false
		}
	}
	put := func(to *float64, v *float64) {
		if v != nil {
			*to = *v
		}
	}
	put(&r.proto.LatDeg, d.LatDeg)
	put(&r.proto.LonDeg, d.LonDeg)
	put(&r.proto.ElevM, d.ElevM)
	put(&r.proto.WindHeightM, d.WindHeightM)
	r.wide(w)
	return nil
}

// decimal normalizes a number for comparison with cells.
func (d *Declared) decimal(text string) string {
	if d.DecimalComma && !strings.Contains(text, ".") {
		return strings.Replace(text, ",", ".", 1)
	}
	return text
}

// trace makes b read the given cell as a trace of rain.
func (b *bind) trace(text string) {
	v, isNumber := number([]byte(text))
	if !isNumber {
		b.words = append(b.words, text)
	}
	b.check = func(c *cell) {
		got, ok := number(c.text)
		if isNumber && ok && got == v || !isNumber && string(c.text) == text {
			c.note(traceRain.from("the layout file"), 0)
			c.v, c.mark = 0, weather.Trace
		}
	}
}
