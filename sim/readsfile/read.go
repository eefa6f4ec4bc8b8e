// Package readsfile reads the reads of water meters from CSV: one row for each
// read, in the order of their dates, with the columns
//
//	date       day of the read
//	volume     use since the read before; empty in a first row that only begins the record
//	register   what the register shows, in place of volume or beside it
//	unit       of both, unless the heading names it, as in "volume (HCF)"
//	from       day of the read before, if no row has it
//	meter      name of the meter, if there are several
//	read_type  actual, estimated, customer or corrected
//	replaced   yes if the meter was replaced or its register reset since the read before
//	old_end    what the old register showed last, if it was
//	new_start  and what the new one showed first
//	billed     amount of the bill for this read, to check the rates with
//
// Columns called notes, note, comment, comments, remark or remarks are for people
// and are ignored.
//
// A volume may be below 0 only if it corrects the estimates just before it.
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

	"loamledger/sim/meter"
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// maxBytes is the maximum size of a file [bytes].
const maxBytes = 4 << 20

var (
	columns   = []string{"date", "volume", "register", "unit", "from", "meter", "read_type", "replaced", "old_end", "new_start", "billed"}
	inUnits   = []string{"volume", "register"} // whose headings may name a unit
	forPeople = []string{"notes", "note", "comment", "comments", "remark", "remarks"}
)

// types are the words for how a read was made.
var types = []string{string(meter.Actual), string(meter.Estimated), string(meter.Customer), string(meter.Corrected)}

// A Row is one read of the file.
type Row struct {
	Pos      diag.Pos
	meterPos diag.Pos
	Meter    string
	From, To cal.Date
	Volume   money.Num // in Unit
	Unit     string    // as written
	Type     meter.Kind
	Replaced bool       // the meter was replaced or its register reset
	Unknown  bool       // and nobody knows the use; Volume is 0
	Billed   *money.Num // nil if not given
	GapDays  int        // days between the read before and From
}

// Read reads the file in in. name is the file name for messages. The reads are
// in the order of the file, which for each meter is the order of dates.
func Read(in io.Reader, name string) ([]Row, error) {
	data, err := io.ReadAll(io.LimitReader(in, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	r := &reader{name: name, at: map[string]int{}, last: map[string]*last{}, early: map[string]cal.Date{}}
	r.file(bytes.TrimPrefix(data, []byte("\ufeff")))
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	return r.out, nil
}

// A last is the last read of a meter.
type last struct {
	date     cal.Date
	line     int
	unit     string
	register *money.Num // nil if not given
	run      *money.Num // sum of the estimates that end with it; nil if it is none
}

type reader struct {
	name    string
	csv     *csv.Reader
	faults  diag.List
	at      map[string]int // index of each column
	unit    string         // of the volumes, if the heading names it
	row     []string
	last    map[string]*last    // the last read of each meter
	early   map[string]cal.Date // the last row of a meter whose first read could not be used
	falling bool                // it was reported that dates fall
	named   bool                // a row names its meter
	bad     bool                // a row could not be read, so that a meter may have no first read
	out     []Row
}

func (r *reader) file(data []byte) {
	top := diag.Pos{File: r.name}
	switch {
	case len(data) > maxBytes:
		r.faults.Add(diag.TooLarge, top, "split the file", "the file is larger than %d MiB", maxBytes>>20)
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
		r.bad = true
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
		for sep, name := range map[string]string{";": "semicolons", "\t": "tabs"} {
			if cells := strings.Split(strings.ToLower(head[0]), sep); len(cells) > 1 && slices.Contains(cells, "date") {
				r.faults.Add(diag.BadSyntax, r.pos(0), "save it with commas between the cells, and with a decimal point in numbers",
					"the cells are separated by %s", name)
				return
			}
		}
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
		case has && !slices.Contains(inUnits, name):
			r.faults.Add(diag.UnknownKey, r.pos(i), "write "+name, "column %s takes no unit", name)
		case has:
			unit := r.known(strings.TrimSuffix(strings.TrimSpace(unit), ")"), r.pos(i))
			if r.unit != "" && unit != "" && unit != r.unit {
				r.faults.Add(diag.Conflict, r.pos(i), "write both in one unit", "the headings name %s and %s", r.unit, unit)
			}
			r.unit = unit
		}
		r.at[name] = i
	}
	_, volume := r.at["volume"]
	_, register := r.at["register"]
	if _, is := r.at["date"]; !is {
		r.faults.Add(diag.MissingColumn, r.pos(0), "add the column date", "missing column date")
	}
	if !volume && !register {
		r.faults.Add(diag.MissingColumn, r.pos(0), "add the column volume, or register", "missing column volume")
	}
	if _, is := r.at["unit"]; !is && r.unit == "" && r.faults.Len() == 0 {
		i, is := r.at["volume"]
		if !is {
			i = r.at["register"]
		}
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
	name, meterPos := r.cell("meter")
	if r.named = r.named || name != ""; name == "" && r.named {
		r.faults.Add(diag.MissingKey, meterPos, "write the name of the meter", "the cell meter is empty, and other rows have one")
	}
	out := Row{Pos: datePos, meterPos: meterPos, Meter: name, Type: meter.Actual, Unit: r.unit}
	out.To = r.date(date, "date", datePos)
	was := r.last[name]
	if was != nil {
		out.From = was.date
	}
	from, fromPos := r.cell("from")
	if from != "" {
		out.From = r.date(from, "from", fromPos)
	}
	volume, _ := r.cell("volume")
	if was == nil && r.faults.Len() > before {
		r.bad = true
	}
	if was == nil && from == "" && volume != "" && (r.faults.Len() > before || r.lost(name, out.To, datePos)) {
		return
	}
	now := &last{date: out.To, line: datePos.Line, unit: r.unit, register: r.register()}
	switch {
	case r.faults.Len() > before:
	case volume == "" && was == nil && from == "":
		if unit, pos := r.cell("unit"); unit != "" {
			now.unit = r.known(unit, pos)
		}
		r.last[name] = now // only begins the record
		return
	case from == "" && was == nil:
		r.faults.Add(diag.MissingKey, datePos, "add a row above with the date of the read before and an empty volume, or a column from",
			"the first read of the meter does not say when the use began")
	case was != nil && out.From < was.date:
		r.faults.Add(diag.Conflict, datePos, "correct the dates; for each meter the first read comes first",
			"the period from %v overlaps the one that ends on %v", out.From, was.date)
	case out.To == out.From && from == "":
		r.faults.Add(diag.Duplicate, datePos, "remove one of them", "duplicate read of %v, see line %d", out.To, was.line)
	case out.To <= out.From:
		r.faults.Add(diag.WrongOrder, datePos, "sort the reads by date", "the read of %v is not after %v", out.To, out.From)
	case out.To-out.From > 400:
		r.faults.Add(diag.OutOfRange, datePos, "correct the dates, or give the reads in between", "the period has %d days", int(out.To-out.From))
	case was != nil:
		out.GapDays = int(out.From - was.date)
	}
	r.kind(&out)
	if unit, pos := r.cell("unit"); unit != "" {
		out.Unit = r.known(unit, pos)
	} else if out.Unit == "" && r.faults.Len() == before {
		r.faults.Add(diag.UnitsUnclear, datePos, "fill the cell unit", "the volume has no unit")
	}
	if r.faults.Len() == before {
		r.use(&out, was, now)
	}
	if text, pos := r.cell("billed"); text != "" {
		v := r.amount(text, "billed", pos, "write the amount of the bill in digits, such as 75.69, without a currency symbol", true)
		out.Billed = &v
	}
	if r.faults.Len() == before {
		r.last[name] = now
		r.out = append(r.out, out)
	}
}

// lost reports whether it is known why a meter has no read before the row: an error that
// is reported already, or rows in the wrong order, which it reports once.
func (r *reader) lost(meter string, date cal.Date, pos diag.Pos) bool {
	above, seen := r.early[meter]
	r.early[meter] = date
	if seen && date < above && !r.falling {
		r.falling = true
		r.faults.Add(diag.WrongOrder, pos, "sort the rows by date, the oldest first", "the read of %v is below that of %v", date, above)
	}
	return seen || r.bad
}

// kind reads how the read was made, and whether the meter was replaced.
func (r *reader) kind(out *Row) {
	if text, pos := r.cell("read_type"); text != "" {
		out.Type = meter.Kind(strings.ToLower(text))
		if !slices.Contains(types, string(out.Type)) {
			r.faults.Add(diag.UnknownName, pos, "write one of: "+strings.Join(types, ", "), "unknown read_type %q", text)
		}
	}
	text, pos := r.cell("replaced")
	switch strings.ToLower(text) {
	case "", "no":
		for _, key := range []string{"old_end", "new_start"} {
			if cell, at := r.cell(key); cell != "" {
				r.faults.Add(diag.Conflict, at, "write yes under replaced, or empty the cell", "%s is given, and the meter was not replaced", key)
			}
		}
	case "yes":
		out.Replaced = true
	default:
		r.faults.Add(diag.UnknownName, pos, "write yes, or leave it empty", "replaced %q is neither yes nor no", text)
	}
}

// amount reads a number from 0 up or, unless it is positive, any.
func (r *reader) amount(text, key string, pos diag.Pos, fix string, positive bool) money.Num {
	v, err := money.Parse(text)
	most := money.Int(1e9)
	switch {
	case err != nil:
		r.faults.Add(diag.NotANumber, pos, fix, "%s: %s", key, money.WhyNot(text))
	case positive && v.Sign() < 0 || v.Cmp(most) > 0 || v.Cmp(most.Neg()) < 0:
		r.faults.Add(diag.OutOfRange, pos, fix, "%s %s is outside 0 to 1,000,000,000", key, text)
	}
	return v
}

func (r *reader) date(text, key string, pos diag.Pos) cal.Date {
	d, err := cal.Parse(text)
	if err != nil {
		r.faults.Add(diag.NotADate, pos, dateFix(text), "%s %q is not a date in the form 2024-01-31", key, text)
	}
	return d
}
