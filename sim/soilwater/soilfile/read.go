package soilfile

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"loamledger/sim/soilwater"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// Sources of the layouts, as shown to users.
const (
	ReferenceLayout = "US Climate Reference Network, daily"
	OwnLayout       = "a column for each sensor"
)

// Limits on what is read.
const (
	maxLine    = 64 << 10
	mostRows   = 100_000
	mostSensor = 60
)

// A File is a record as read.
type File struct {
	*soilwater.Record
	Layout string
	Gaps   int // cells without a value, of all columns of water content
}

// Read reads measured soil water. Errors in the file are [*diag.Errors] or
// [*diag.Error] with name as the file; every other error comes from r.
func Read(r io.Reader, name string) (*File, error) {
	t := &table{name: name, in: bufio.NewScanner(r)}
	t.in.Buffer(make([]byte, 4096), maxLine)
	if err := t.header(); err != nil {
		return nil, err
	}
	for t.faults.Len() < diag.Most && t.next() {
		t.row()
	}
	if err := t.in.Err(); err == bufio.ErrTooLong {
		t.line++
		t.fault(diag.TooLarge, 0, "check that the file is plain text with a line for each day", "line too long: more than 64 KiB")
	} else if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(t.dates) == 0 && t.faults.Len() == 0 {
		t.fault(diag.EmptyFile, 0, "add a row for each day", "the file has no rows")
	}
	t.units()
	if err := t.faults.Err(); err != nil {
		return nil, err
	}
	return t.file(), nil
}

// A column is one that is read.
type column struct {
	at     int // cell of a row
	name   string
	depthM float64
	kind   kind
	values []float64
	low    float64 // lowest and highest value as written
	high   float64
}

// A kind is what a column holds.
type kind uint8

const (
	share    kind = iota // m³/m³
	percent              // %
	celsius              // of the soil
	degreesF             // of the soil
)

type table struct {
	name   string
	in     *bufio.Scanner
	line   int
	text   string
	blanks bool // cells are separated by blanks
	again  bool // the header was a row: read it again
	layout string
	date   int // cell of the date
	iso    bool
	cells  int
	column []column
	dates  []cal.Date
	faults diag.List
}

func (t *table) fault(code diag.Code, cell int, fix, format string, args ...any) {
	t.faults.Add(code, diag.Pos{File: t.name, Line: t.line, Col: t.col(cell)}, fix, format, args...)
}

// col returns the byte column of a cell of the current line, from 1.
func (t *table) col(cell int) int {
	if t.blanks {
		return 1
	}
	at := 0
	for range cell {
		next := strings.IndexByte(t.text[at:], ',')
		if next < 0 {
			break
		}
		at += next + 1
	}
	return at + 1
}

// next moves to the next line that is not blank.
func (t *table) next() bool {
	if t.again {
		t.again = false
		return true
	}
	for t.in.Scan() {
		t.line++
		line := t.in.Bytes()
		if t.line == 1 {
			line = bytes.TrimPrefix(line, []byte("\xef\xbb\xbf"))
		}
		for i, b := range line {
			if b < ' ' && b != '\t' && b != '\r' {
				t.text = ""
				t.faults.Add(diag.NotText, diag.Pos{File: t.name, Line: t.line, Col: i + 1},
					"save it as CSV in UTF-8; decompress it first if it is compressed", "byte value %d: not a plain text file", b)
				return false
			}
		}
		if t.text = strings.TrimSpace(string(line)); t.text != "" {
			return true
		}
	}
	return false
}

// split cuts the current line into cells.
func (t *table) split() []string {
	if t.blanks {
		return strings.Fields(t.text)
	}
	cells := strings.Split(t.text, ",")
	for i, c := range cells {
		cells[i] = strings.TrimSpace(strings.Trim(strings.TrimSpace(c), `"`))
	}
	return cells
}

// row reads the current line.
func (t *table) row() {
	cells := t.split()
	if len(cells) != t.cells {
		t.fault(diag.RowLength, 0, "write one cell for each column, empty if there is no value", "this row has %d cells, the header %d",
			len(cells), t.cells)
		return
	}
	d, ok := t.dateOf(cells[t.date])
	if !ok {
		t.fault(diag.NotADate, t.date, "write it as year, month, day, such as 2014-07-02", "%q is not a date", cells[t.date])
		return
	}
	if n := len(t.dates); n > 0 && d <= t.dates[n-1] {
		code, fix := diag.WrongOrder, "sort the rows by date"
		if d == t.dates[n-1] {
			code, fix = diag.Duplicate, "keep one row for each day"
		}
		t.fault(code, t.date, fix, "%v does not come after %v", d, t.dates[n-1])
		return
	}
	if len(t.dates) > 0 && (len(t.dates) >= mostRows || int(d-t.dates[0]) >= mostRows) {
		t.fault(diag.TooLarge, t.date, "give the days of one site only", "more than %d days", mostRows)
		return
	}
	t.dates = append(t.dates, d)
	for i := range t.column {
		c := &t.column[i]
		c.values = append(c.values, t.value(c, cells[c.at]))
	}
}

func (t *table) dateOf(s string) (cal.Date, bool) {
	if t.iso {
		d, err := cal.Parse(s)
		return d, err == nil
	}
	n, err := strconv.Atoi(s)
	if err != nil || len(s) != 8 || !cal.Valid(n/10000, n/100%100, n%100) {
		return 0, false
	}
	return cal.Of(n/10000, n/100%100, n%100), true
}

// value reads a cell; gaps and errors are NaN.
func (t *table) value(c *column, s string) float64 {
	switch strings.ToLower(s) {
	case "", "na", "nan", "m":
		return math.NaN()
	}
	v, err := strconv.ParseFloat(s, 64)
	switch {
	case err != nil || math.IsInf(v, 0) || math.IsNaN(v):
		t.fault(diag.NotANumber, c.at, "write a number, or leave the cell empty", "%q is not a number", s)
		return math.NaN()
	case v == -9999 || v == -999 || v == -99 && c.kind <= percent:
		return math.NaN()
	}
	low, high := limits(c.kind)
	if v < low || v > high {
		fix := "write the water content as a share of the soil's volume"
		if c.kind == share && v <= 100 {
			fix = "if these are percent, write [%] in the heading"
		}
		t.fault(diag.OutOfRange, c.at, fix, "%s: %g is outside %g to %g", c.name, v, low, high)
		return math.NaN()
	}
	c.low, c.high = min(c.low, v), max(c.high, v)
	switch c.kind {
	case percent:
		return v / 100
	case degreesF:
		return (v - 32) / 1.8
	}
	return v
}

func limits(k kind) (low, high float64) {
	switch k {
	case share:
		return 0, 1
	case percent:
		return 0, 100
	case celsius:
		return -50, 70
	}
	return -60, 160
}

// units rejects percentages that are shares: soil is never that dry all year.
func (t *table) units() {
	for i := range t.column {
		if c := &t.column[i]; c.kind == percent && c.high > 0 && c.high <= 1 {
			t.line, t.text = 1, ""
			t.fault(diag.WrongUnits, 0, "write [m3/m3] in the heading", "%s: no value is above 1%%, so these are not percent", c.name)
		}
	}
}

// file puts the rows on a calendar.
func (t *table) file() *File {
	first := t.dates[0]
	days := int(t.dates[len(t.dates)-1]-first) + 1
	var sensors []soilwater.Sensor
	var temperature []float64
	f := &File{Layout: t.layout}
	for i := range t.column {
		c := &t.column[i]
		daily := make([]float64, days)
		for k := range daily {
			daily[k] = math.NaN()
		}
		for k, d := range t.dates {
			daily[d-first] = c.values[k]
		}
		if c.kind >= celsius {
			temperature = daily
			continue
		}
		for _, v := range daily {
			if math.IsNaN(v) {
				f.Gaps++
			}
		}
		sensors = append(sensors, soilwater.Sensor{Name: c.name, DepthM: c.depthM, Theta: daily})
	}
	f.Record = soilwater.NewRecord(first, sensors, temperature)
	return f
}
