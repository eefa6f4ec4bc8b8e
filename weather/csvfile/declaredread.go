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

// declaredPage describes declared layouts among the others. No line is ever
// recognised by it: [Options.Declared] is what leads to one.
func declaredPage() Layout {
	return Layout{
		Name:  "declared",
		Title: "Any other table with a row per day, described by its user",
		Doc: "Say how the cells are parted, which columns hold the date and how it is written, and for each quantity its column, its unit and the cells that mean missing. " +
			"The header is found by the names of its columns, or by how it begins; tables without header are described by the places of their columns.",
		Units:      "as declared for each column",
		Missing:    "an empty cell, NaN, NA or null, and the cells declared",
		WindHeight: "as declared, or given",
		Source:     "the user",
		match:      func(*lead, int) bool { return false },
		read: func(r *reading) error {
			return r.fatal(diag.MissingKey, 0, 0, "describe the layout", "no layout is declared")
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
		return l, 0, &diag.Error{Code: diag.BadLayout, Pos: diag.Pos{File: d.name()}, Msg: "no line near the start of the file has a date that can be read", Fix: "check delimiter, date and date_form"}
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
	msg := "no line near the start of the file holds the columns of the declared layout"
	if missing != nil {
		msg += "; the nearest lacks " + strings.Join(missing, ", ")
	}
	return l, 0, &diag.Error{Code: diag.BadLayout, Pos: diag.Pos{File: d.name()}, Msg: msg, Fix: "check delimiter, header and the names of the columns"}
}

func cutLine(line []byte, sep byte) []field {
	if sep == ' ' {
		return splitBlank(nil, line)
	}
	row, _ := split(nil, line, sep)
	return row
}

// dateReader makes the function that reads the date of a row, and the cells
// that it reads. names is nil for a file without header.
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
		w = &wideTable{sep: sep, source: "the declared layout"}
		for i := range n {
			w.names = append(w.names, fmt.Sprint(i+1))
		}
	} else {
		w = r.table(sep, "the declared layout")
	}
	for _, c := range d.columnNames() {
		if w.at(c) < 0 {
			return r.fatal(diag.MissingColumn, r.header, 0, "check the delimiter and the columns", "the row has no column %q", c)
		}
	}
	var err error
	if w.date, w.dateAt, err = d.dateReader(w.names); err != nil {
		return err
	}
	w.form = "the layout declares it"
	if d.DateForm != "" {
		w.form = d.DateForm
	}
	if strings.Contains(d.DateForm, "YY") && !strings.Contains(d.DateForm, "YYYY") {
		r.assume("two-digit years are 1970 to 2069, as the form of the date says")
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
		r.assume("%s is column %s in %s, as declared", key, q.Column, q.Unit)
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

// decimal writes a number the way in which cells are compared.
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
			c.note(traceRain.from("the declared layout"), 0)
			c.v, c.mark = 0, weather.Trace
		}
	}
}
