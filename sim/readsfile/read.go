// Package readsfile reads the reads of water meters from CSV: one row for each
// read, in the order of their dates, with the columns
//
//	date       day of the read
//	volume     use since the read before; empty in a first row that only begins the record
//	unit       of the volume, unless the heading names it, as in "volume (HCF)"
//	from       day of the read before, if no row has it
//	meter      name of the meter, if there are several
//	read_type  actual, estimated or customer
//	billed     amount of the bill for this read, to check the rates with
//
// Columns called notes, note, comment, comments, remark or remarks are for people
// and are ignored.
//
// # Promises
//
// Nothing is filled or dropped: days between reads that no row covers are
// counted. All errors in a file are reported together as one error that
// [diag.IsInput] recognizes, with line and column.
package readsfile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"loamledger/sim/bill"
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// MaxBytes is the maximum size of a file [bytes].
const MaxBytes = 4 << 20

var (
	columns   = []string{"date", "volume", "unit", "from", "meter", "read_type", "billed"}
	forPeople = []string{"notes", "note", "comment", "comments", "remark", "remarks"}
)

// A Type says how a read was made.
type Type string

// The types of reads.
const (
	Actual    Type = "actual"
	Estimated Type = "estimated"
	Customer  Type = "customer" // read by the customer
)

var types = []string{string(Actual), string(Estimated), string(Customer)}

// A Row is one read of the file.
type Row struct {
	Pos      diag.Pos
	MeterPos diag.Pos
	Meter    string
	From, To cal.Date
	Volume   money.Num // in Unit
	Unit     string    // as written
	Type     Type
	Billed   *money.Num // nil if not given
	GapDays  int        // days between the read before and From
}

// Read reads the file in in. name is the file name for messages. The reads are
// in the order of the file, which for each meter is the order of dates.
func Read(in io.Reader, name string) ([]Row, error) {
	data, err := io.ReadAll(io.LimitReader(in, MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	r := &reader{name: name, at: map[string]int{}, last: map[string]cal.Date{}}
	r.file(bytes.TrimPrefix(data, []byte("\ufeff")))
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return r.out, nil
}

type reader struct {
	name   string
	csv    *csv.Reader
	faults diag.List
	at     map[string]int // index of each column
	unit   string         // of the volumes, if the heading names it
	row    []string
	last   map[string]cal.Date // day of the last read of each meter
	out    []Row
}

func (r *reader) file(data []byte) {
	top := diag.Pos{File: r.name}
	switch {
	case len(data) > MaxBytes:
		r.faults.Add(diag.TooLarge, top, "split the file", "the file is larger than %d MiB", MaxBytes>>20)
		return
	case !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0:
		r.faults.Add(diag.NotText, top, "save it as UTF-8 CSV", "this is not a UTF-8 text file")
		return
	}
	r.csv = csv.NewReader(bytes.NewReader(data))
	r.csv.TrimLeadingSpace, r.csv.Comment = true, '#'
	head, err := r.csv.Read()
	if err != nil {
		r.broken(err)
		return
	}
	if r.head(head); r.faults.Len() > 0 {
		return
	}
	rows := 0
	for {
		row, err := r.csv.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			if !r.broken(err) {
				return
			}
			continue
		}
		if strings.Trim(strings.Join(row, ""), " \t") == "" {
			continue
		}
		r.row = row
		rows++
		r.read()
	}
	if rows == 0 {
		r.faults.Add(diag.EmptyFile, top, "add a row for each read", "the file has no reads")
	}
}

// broken reports an error of the CSV; it returns whether reading can go on.
func (r *reader) broken(err error) bool {
	if err == io.EOF {
		r.faults.Add(diag.EmptyFile, diag.Pos{File: r.name}, "the columns are "+strings.Join(columns, ", "), "the file is empty")
		return false
	}
	var p *csv.ParseError
	if !errors.As(err, &p) {
		r.faults.Add(diag.BadSyntax, diag.Pos{File: r.name}, "save it as CSV", "%v", err)
		return false
	}
	pos := diag.Pos{File: r.name, Line: p.Line, Col: p.Column}
	if errors.Is(err, csv.ErrFieldCount) {
		r.faults.Add(diag.RowLength, pos, "give each row a cell for every column", "the row does not have as many cells as the heading")
		return true
	}
	r.faults.Add(diag.BadSyntax, pos, "save it as CSV", "%v", p.Err)
	return false
}

func (r *reader) pos(i int) diag.Pos {
	line, col := r.csv.FieldPos(i)
	return diag.Pos{File: r.name, Line: line, Col: col}
}

func (r *reader) head(head []string) {
	// A file of another kind is not repeated in messages.
	if !slices.ContainsFunc(head, func(text string) bool {
		name, _, _ := strings.Cut(strings.ToLower(text), "(")
		return slices.Contains(columns, strings.TrimSpace(name))
	}) {
		r.faults.Add(diag.MissingColumn, r.pos(0), "the columns are "+strings.Join(columns, ", "),
			"this is not a file of meter reads: it has none of their columns")
		return
	}
	for i, text := range head {
		key := strings.ToLower(strings.TrimSpace(text))
		if slices.Contains(forPeople, key) {
			continue
		}
		name, unit, has := strings.Cut(key, "(")
		name = strings.TrimSpace(name)
		switch _, again := r.at[name]; {
		case !slices.Contains(columns, name):
			fix := "valid columns: " + strings.Join(columns, ", ") + "; a column called notes is ignored"
			if near := diag.Nearest(name, columns); near != "" {
				fix = "did you mean " + near + "?"
			}
			r.faults.Add(diag.UnknownKey, r.pos(i), fix, "unknown column %q", text)
			continue
		case again:
			r.faults.Add(diag.Duplicate, r.pos(i), "remove one", "duplicate column %s", name)
		case has && name != "volume":
			r.faults.Add(diag.UnknownKey, r.pos(i), "write "+name, "column %s takes no unit", name)
		case has:
			r.unit = r.known(strings.TrimSuffix(strings.TrimSpace(unit), ")"), r.pos(i))
		}
		r.at[name] = i
	}
	for _, must := range []string{"date", "volume"} {
		if _, is := r.at[must]; !is {
			r.faults.Add(diag.MissingColumn, r.pos(0), "add the column "+must, "missing column %s", must)
		}
	}
	if _, is := r.at["unit"]; !is && r.unit == "" && r.faults.Len() == 0 {
		i := r.at["volume"]
		r.faults.Add(diag.UnitsUnclear, r.pos(i), "write the unit in the heading, as in volume (HCF), or add a column unit",
			"the volumes have no unit, and units are never guessed")
	}
}

// known returns the unit of volume with the given name; "" after an error.
func (r *reader) known(name string, pos diag.Pos) string {
	u, ok := quantity.Find(strings.TrimSpace(name), quantity.Volume)
	if !ok {
		r.faults.Add(diag.UnknownUnit, pos, "use "+quantity.Names(quantity.Volume), "%q is not a unit of volume", name)
		return ""
	}
	return u.Name
}

// cell returns a cell and its position; an absent column reads as an empty cell.
func (r *reader) cell(key string) (string, diag.Pos) {
	i, is := r.at[key]
	if !is {
		return "", r.pos(0)
	}
	return strings.TrimSpace(r.row[i]), r.pos(i)
}

func (r *reader) read() {
	before := r.faults.Len()
	date, datePos := r.cell("date")
	meter, meterPos := r.cell("meter")
	out := Row{Pos: datePos, MeterPos: meterPos, Meter: meter, Type: Actual, Unit: r.unit}
	out.To = r.date(date, "date", datePos)
	last, begun := r.last[meter]
	out.From = last
	from, fromPos := r.cell("from")
	if from != "" {
		out.From = r.date(from, "from", fromPos)
	}
	volume, volumePos := r.cell("volume")
	switch {
	case r.faults.Len() > before:
	case volume == "" && !begun && from == "":
		r.last[meter] = out.To // only begins the record
		return
	case from == "" && !begun:
		r.faults.Add(diag.MissingKey, datePos, "add a row above with the date of the read before and an empty volume, or a column from",
			"the first read of the meter does not say when the use began")
	case begun && out.From < last:
		r.faults.Add(diag.Conflict, datePos, "correct the dates; for each meter the first read comes first",
			"the period from %v overlaps the one that ends on %v", out.From, last)
	case out.To <= out.From:
		r.faults.Add(diag.WrongOrder, datePos, "sort the reads by date", "the read of %v is not after %v", out.To, out.From)
	case out.To-out.From > 400:
		r.faults.Add(diag.OutOfRange, datePos, "correct the dates, or give the reads in between", "the period has %d days", int(out.To-out.From))
	case begun:
		out.GapDays = int(out.From - last)
	}
	out.Volume = r.amount(volume, "volume", volumePos, volumeFix)
	if unit, pos := r.cell("unit"); unit != "" {
		out.Unit = r.known(unit, pos)
	} else if out.Unit == "" && r.faults.Len() == before {
		r.faults.Add(diag.UnitsUnclear, volumePos, "fill the cell unit", "the volume has no unit")
	}
	if text, pos := r.cell("read_type"); text != "" {
		out.Type = Type(strings.ToLower(text))
		if !slices.Contains(types, strings.ToLower(text)) {
			r.faults.Add(diag.UnknownName, pos, "write one of: "+strings.Join(types, ", "), "unknown read_type %q", text)
		}
	}
	if text, pos := r.cell("billed"); text != "" {
		v := r.amount(text, "billed", pos, "write the amount of the bill in digits, such as 75.69, without a currency symbol")
		out.Billed = &v
	}
	if r.faults.Len() == before {
		r.last[meter] = out.To
		r.out = append(r.out, out)
	}
}

const volumeFix = "write the use since the read before, from 0 up; if the read corrects estimates, give their periods as one"

func (r *reader) amount(text, key string, pos diag.Pos, fix string) money.Num {
	v, err := money.Parse(text)
	switch {
	case err != nil:
		r.faults.Add(diag.NotANumber, pos, fix, "%s: %v", key, err)
	case v.Sign() < 0 || v.Cmp(money.Int(1e9)) > 0:
		r.faults.Add(diag.OutOfRange, pos, fix, "%s %s is outside 0 to 1,000,000,000", key, text)
	}
	return v
}

func (r *reader) date(text, key string, pos diag.Pos) cal.Date {
	d, err := cal.Parse(text)
	if err != nil {
		r.faults.Add(diag.NotADate, pos, "write year, month and day, such as 2024-01-31", "%s %q is not a date", key, text)
	}
	return d
}

// ForRates returns the reads in the billing unit of rates, for the meters of
// their account. A meter that the account lacks is an error at the read.
func ForRates(reads []Row, rates *bill.Rates) ([]bill.Read, error) {
	var faults diag.List
	var out []bill.Read
	own, _ := quantity.Find(rates.Unit, quantity.Volume)
	for _, read := range reads {
		m, ok := rates.Account.Meter(read.Meter)
		if !ok {
			var names []string
			for _, m := range rates.Account.Meters {
				names = append(names, m.Name)
			}
			faults.Add(diag.UnknownName, read.MeterPos, "write one of the account's meters in the column meter: "+strings.Join(names, ", "),
				"the account in the rates has no meter %q", read.Meter)
			continue
		}
		v := read.Volume
		if u, _ := quantity.Find(read.Unit, quantity.Volume); u.Name != own.Name {
			v = v.Mul(money.Float(1000*u.Num/u.Den, 11)).Div(rates.UnitL)
		}
		b := bill.Read{Meter: m.Name, From: read.From, To: read.To, Volume: v}
		b.Indoor = rates.IndoorOf(&b)
		out = append(out, b)
	}
	return out, faults.Err()
}
