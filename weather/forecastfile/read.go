package forecastfile

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/forecast"
)

// The columns, in the order they are written.
const (
	issued = iota
	valid
	rain
	chance
	tmax
	tmin
	eto
	columns
)

var columnNames = [columns]string{"issued", "valid", "rain_mm", "rain_probability_pct", "tmax_c", "tmin_c", "eto_mm"}

// limits are the valid ranges; a value outside means a wrong unit or column.
// The highest daily rain ever measured is 1,825 mm (WMO, from memory).
var limits = [columns]struct{ low, high float64 }{
	rain: {0, 1825}, chance: {0, 100}, tmax: {-90, 60}, tmin: {-90, 60}, eto: {0, 30},
}

const (
	mostRows = 4_000_000
	mostLead = 366 // days; a longer one is a typo in the year
)

// IsArchive reports whether the first line of a file, at least a part of it, is
// the header of an archive: one that has the column issued. Other files are
// daily weather, without a day of issue.
func IsArchive(start []byte) bool {
	start = bytes.TrimPrefix(start, []byte("\xef\xbb\xbf"))
	line, _, _ := bytes.Cut(bytes.TrimLeft(start, " \t\r\n"), []byte("\n"))
	words := bytes.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ';' || r == '\t' })
	for _, word := range words {
		if bytes.EqualFold(bytes.Trim(word, " \"\r"), []byte(columnNames[issued])) {
			return true
		}
	}
	return false
}

// Read reads a forecast archive. Errors in the file are [*diag.Errors] or
// [*diag.Error] with name as the file; every other error comes from r.
func Read(r io.Reader, name string) (*forecast.Archive, error) {
	f := &file{lines: newLines(r, name), name: name, at: [columns]int{-1, -1, -1, -1, -1, -1, -1}}
	err := f.header()
	if err == nil && f.faults.Len() == 0 {
		err = f.rows()
		f.doubles()
	}
	var last *diag.Error
	switch {
	case errors.As(err, &last):
		f.faults.Append(last)
	case err != nil:
		return nil, err
	}
	if err := f.faults.Err(); err != nil {
		return nil, err
	}
	return forecast.NewArchive(f.list)
}

type file struct {
	*lines
	name   string
	at     [columns]int // cell of the column in each row; -1: none
	cells  int          // in the header
	list   []forecast.Forecast
	line   []int32 // of each forecast
	faults diag.List
}

func (f *file) fault(code diag.Code, col int, fix, format string, args ...any) {
	f.faults.Add(code, diag.Pos{File: f.name, Line: f.n, Col: col}, fix, format, args...)
}

// fatal returns the error that ends the reading.
func (f *file) fatal(code diag.Code, fix, msg string) error {
	return &diag.Error{Code: code, Pos: diag.Pos{File: f.name, Line: f.n}, Msg: msg, Fix: fix}
}

func (f *file) header() error {
	line, ok, err := f.next()
	for ok && err == nil && len(bytes.TrimSpace(line)) == 0 {
		line, ok, err = f.next()
	}
	if err != nil {
		return err
	}
	if !ok {
		return f.fatal(diag.EmptyFile, "a forecast file has the header "+strings.Join(columnNames[:], ","), "the file is empty")
	}
	names := split(nil, line)
	f.cells = len(names)
	// The content of a file of another kind is not repeated.
	if !bytes.ContainsAny(line, ",;\t") {
		return f.fatal(diag.MissingColumn, "the header is "+strings.Join(columnNames[:], ","), "this is not a table of forecasts")
	}
	for i, c := range names {
		f.column(i, c)
	}
	for _, c := range []int{issued, valid} {
		if f.at[c] < 0 && f.faults.Len() == 0 {
			f.fault(diag.MissingColumn, 1, "the header is "+strings.Join(columnNames[:], ","), "missing column %s", columnNames[c])
		}
	}
	if f.at[rain] < 0 && f.at[chance] < 0 && f.faults.Len() == 0 {
		f.fault(diag.EmptyValue, 1, "give rain_mm, rain_probability_pct or both", "the file has no rain column")
	}
	return nil
}

func (f *file) column(i int, c cell) {
	text := string(c.text)
	for k, known := range columnNames {
		if !strings.EqualFold(text, known) {
			continue
		}
		if f.at[k] >= 0 {
			f.fault(diag.Duplicate, c.col, "keep one of the two", "duplicate column %s", known)
		}
		f.at[k] = i
		return
	}
	fix := "the columns are " + strings.Join(columnNames[:], ", ")
	if near := diag.Nearest(text, columnNames[:]); near != "" {
		fix = "did you mean " + near + "?"
	}
	if strings.ContainsAny(text, ";\t") {
		fix = "separate the columns with commas"
	}
	f.fault(diag.UnknownKey, c.col, fix, "unknown column %q", clip(c.text))
}

func (f *file) rows() error {
	var cells []cell
	for {
		line, ok, err := f.next()
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		cells = split(cells[:0], line)
		if len(cells) != f.cells {
			f.fault(diag.RowLength, 0, "leave unknown cells empty, but keep their commas", "the row has %d cells, the header %d", len(cells),
				f.cells)
			continue
		}
		if len(f.list) == mostRows {
			return f.fatal(diag.TooLarge, "split the file", fmt.Sprintf("too many rows: more than %d", mostRows))
		}
		f.row(cells)
	}
	if len(f.list) == 0 && f.faults.Len() == 0 {
		return f.fatal(diag.EmptyFile, "check that the file is complete", "the file has a header but no forecasts")
	}
	return nil
}

func (f *file) row(cells []cell) {
	from, ok1 := f.date(cells[f.at[issued]], "issued")
	to, ok2 := f.date(cells[f.at[valid]], "valid")
	one := forecast.Unknown(from, to)
	ok := ok1 && ok2
	known := 0
	for k, v := range [columns]*float64{rain: &one.RainMM, chance: &one.ProbabilityPct, tmax: &one.TmaxC, tmin: &one.TminC, eto: &one.EToMM} {
		if v == nil || f.at[k] < 0 {
			continue
		}
		c := cells[f.at[k]]
		if len(c.text) == 0 {
			continue
		}
		known++
		var good bool
		*v, good = f.number(c, k)
		ok = ok && good
	}
	switch lead := one.LeadDays(); {
	case !ok1 || !ok2:
	case lead < 0:
		f.fault(diag.WrongOrder, cells[f.at[valid]].col, "swap issued and valid, or write the forecast day", "valid %v is before issued %v", to,
			from)
		ok = false
	case lead > mostLead:
		f.fault(diag.OutOfRange, cells[f.at[valid]].col, "check the years", "valid %v is %d days after issued %v; the maximum is %d", to, lead,
			from, mostLead)
		ok = false
	}
	if ok && known == 0 {
		f.fault(diag.EmptyValue, cells[0].col, "write a value or remove the row", "the row has no values")
		ok = false
	}
	if !ok {
		return
	}
	f.list = append(f.list, one)
	f.line = append(f.line, int32(f.n))
}

// doubles rejects two forecasts with the same issue and valid day. It sorts the
// rows, since a map of them takes five times their memory.
func (f *file) doubles() {
	order := make([]int32, len(f.list))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(i, j int32) int {
		a, b := &f.list[i], &f.list[j]
		return cmp.Or(cmp.Compare(a.Valid, b.Valid), cmp.Compare(a.Issued, b.Issued), cmp.Compare(i, j))
	})
	for k := 1; k < len(order); k++ {
		a, b := &f.list[order[k-1]], &f.list[order[k]]
		if a.Valid == b.Valid && a.Issued == b.Issued {
			f.faults.Add(diag.Duplicate, diag.Pos{File: f.name, Line: int(f.line[order[k]])}, "keep one of the two",
				"duplicate forecast issued on %v for %v, see line %d", b.Issued, b.Valid, f.line[order[k-1]])
		}
	}
}

func (f *file) date(c cell, name string) (cal.Date, bool) {
	d, err := cal.Parse(string(c.text))
	if err == nil {
		return d, true
	}
	fix := "write it as 2012-06-30"
	if len(c.text) > 10 && (c.text[10] == 'T' || c.text[10] == ' ') {
		fix = "write the date without a time: a forecast issued during a day is used from the next morning"
	}
	f.fault(diag.NotADate, c.col, fix, "%s %q is not a date", name, clip(c.text))
	return 0, false
}

func (f *file) number(c cell, k int) (float64, bool) {
	v, err := strconv.ParseFloat(string(c.text), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || bytes.ContainsAny(c.text, "xX_") {
		f.fault(diag.NotANumber, c.col, "write a number such as 4.5, or leave the cell empty if unknown", "%s %q is not a number", columnNames[k],
			clip(c.text))
		return 0, false
	}
	if low, high := limits[k].low, limits[k].high; v < low || v > high {
		f.fault(diag.OutOfRange, c.col, "check the unit in the column name, and leave unknown cells empty", "%s %g is outside %g to %g",
			columnNames[k], v, low, high)
		return 0, false
	}
	return v, true
}

// clip shortens text quoted in a message.
func clip(text []byte) string {
	const most = 40
	if len(text) <= most {
		return string(text)
	}
	return string(text[:most]) + "..."
}
