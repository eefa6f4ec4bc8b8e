package accountsfile

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"loamledger/sim/portfolio"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// The columns of a table of bills: one row for each read, those of an account in the order of their dates.
const (
	billAccount = "account"
	billFrom    = "from"           // day of the read before
	billTo      = "to"             // day of the read
	billVolume  = "volume"         // use since the read before, with its unit in the heading
	billOutdoor = "outdoor_volume" // the same without the use indoors, in place of volume
	billType    = "read_type"      // actual, estimated, customer or corrected; actual if empty
)

var (
	billColumns = []string{billAccount, billFrom, billTo, billVolume, billOutdoor, billType}
	readTypes   = []string{"actual", "estimated", "customer", "corrected"}
)

// longestBill is the maximum length of the period of a bill [d].
const longestBill = 400

// A billReader reads a table of bills.
type billReader struct {
	rows   Rows
	name   string
	at     map[string]int // index of each column
	unit   quantity.Unit
	faults diag.List
	last   map[string]cal.Date // last read of each account
}

// ReadBills passes each bill of a table to take; outdoor is set if they are without the use indoors. name is the file
// name for messages. All errors in the table are reported together, as one error that [diag.IsInput] recognizes; any other is a system
// error.
func ReadBills(rows Rows, name string, begin func(outdoor bool), take func(portfolio.MeteredRead)) error {
	r := &billReader{rows: rows, name: name, at: map[string]int{}, last: map[string]cal.Date{}}
	if err := r.head(); err != nil {
		return err
	}
	_, outdoor := r.at[billOutdoor]
	begin(outdoor)
	n := 0
	for {
		cells, bad, err := r.rows.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return fmt.Errorf("reading %s: %w", name, err)
		}
		n++
		switch {
		case bad != nil:
			r.faults.Append(bad)
		case len(cells) != len(r.at):
			at := diag.Pos{File: name, Line: cells[0].line, Col: cells[0].col}
			r.faults.Add(diag.RowLength, at, "give every row as many cells as the heading", "the row has %d cells, the heading %d", len(cells),
				len(r.at))
		default:
			if read, ok := r.read(cells); ok {
				take(read)
			}
		}
	}
	if n == 0 && r.faults.Len() == 0 {
		r.faults.Add(diag.EmptyFile, diag.Pos{File: name}, "add a row for each bill", "the table has no bills")
	}
	return r.faults.Err()
}

// head reads the heading.
func (r *billReader) head() error {
	cells, bad, err := r.rows.Next()
	top := diag.Pos{File: r.name}
	fix := "the columns are account, from, to, volume (HCF) or outdoor_volume (HCF), with any unit of volume, and read_type"
	switch {
	case errors.Is(err, io.EOF):
		r.faults.Add(diag.EmptyFile, top, fix, "the table is empty")
		return r.faults.Err()
	case err != nil:
		return fmt.Errorf("reading %s: %w", r.name, err)
	case bad != nil:
		r.faults.Append(bad)
		return r.faults.Err()
	}
	known := false
	for _, c := range cells {
		known = known || slices.Contains(billColumns, first(heading(c.text)))
	}
	if !known { // a file of another kind: its content is not repeated
		r.faults.Add(diag.MissingColumn, diag.Pos{File: r.name, Line: 1, Col: 1}, fix, "this is not a table of bills: no column is known")
		return r.faults.Err()
	}
	for i, c := range cells {
		key, unit := heading(c.text)
		at := diag.Pos{File: r.name, Line: c.line, Col: c.col}
		_, again := r.at[key]
		isVolume := key == billVolume || key == billOutdoor
		switch {
		case slices.Contains(forPeople[:], key):
			key = fmt.Sprint("notes ", i)
		case !slices.Contains(billColumns, key):
			why := fix
			if near := diag.Nearest(key, billColumns); near != "" {
				why = "did you mean " + quoted(near) + "?"
			}
			r.faults.Add(diag.UnknownKey, at, why, "unknown column %s", quoted(c.text))
		case again:
			r.faults.Add(diag.Duplicate, at, "remove one", "duplicate column %s", quoted(c.text))
		case isVolume && unit == "":
			r.faults.Add(diag.UnitsUnclear, at, "write it in the heading, as in "+key+" (HCF)", "%s has no unit, and units are never guessed", key)
		case isVolume:
			u, ok := quantity.Find(unit, quantity.Volume)
			if r.unit = u; !ok {
				r.faults.Add(diag.UnknownUnit, at, "use "+quantity.Names(quantity.Volume), "%s is not a unit of volume", quoted(unit))
			}
		case unit != "":
			r.faults.Add(diag.UnknownKey, at, "write "+key, "column %s has no unit", key)
		}
		r.at[key] = i
	}
	_, whole := r.at[billVolume]
	_, outdoor := r.at[billOutdoor]
	if whole && outdoor {
		r.faults.Add(diag.Conflict, diag.Pos{File: r.name, Line: 1, Col: 1}, "remove one", "the table has both volume and outdoor_volume")
	}
	for _, key := range billColumns[:4] {
		if _, has := r.at[key]; !has && !(key == billVolume && outdoor) {
			r.faults.Add(diag.MissingColumn, diag.Pos{File: r.name, Line: 1, Col: 1}, fix, "missing column %s", key)
		}
	}
	return r.faults.Err()
}

// heading splits a heading into its key and its unit.
func heading(text string) (key, unit string) {
	key = text
	if at := strings.IndexAny(key, "(["); at > 0 && strings.ContainsRune(")]", rune(key[len(key)-1])) {
		key, unit = key[:at], strings.TrimSpace(key[at+1:len(key)-1])
	}
	return strings.Join(strings.Fields(strings.ToLower(key)), "_"), unit
}

func first(a, _ string) string { return a }

// read reads one row; ok is false after an error.
func (r *billReader) read(cells []Cell) (out portfolio.MeteredRead, ok bool) {
	before := r.faults.Len()
	cell := func(key string) (text string, at diag.Pos) {
		i, has := r.at[key]
		if !has {
			return "", diag.Pos{File: r.name, Line: cells[0].line, Col: cells[0].col}
		}
		return cells[i].text, diag.Pos{File: r.name, Line: cells[i].line, Col: cells[i].col}
	}
	day := func(key string) cal.Date {
		text, at := cell(key)
		d, err := cal.Parse(text)
		if err != nil {
			r.faults.Add(diag.NotADate, at, "write the day of a read, such as 2021-03-14", "%s %s is not a date", key, quoted(text))
		}
		return d
	}
	id, at := cell(billAccount)
	if out.Account = strings.Clone(id); id == "" {
		r.faults.Add(diag.EmptyValue, at, "write the account on every row", "the row names no account")
	}
	out.From, out.To = day(billFrom), day(billTo)
	key := billVolume
	if _, has := r.at[billOutdoor]; has {
		key = billOutdoor
	}
	text, volumeAt := cell(key)
	v, err := quantity.ParseNumber(text)
	if err != nil {
		r.faults.Add(diag.NotANumber, volumeAt, fmt.Sprintf("write the use in %s in digits, as the heading says, such as 12.5", r.unit.Name),
			"%s: %v",
			key, err)
	}
	out.M3 = v * r.unit.Num / r.unit.Den
	kind, kindAt := cell(billType)
	if kind = strings.ToLower(kind); kind != "" && !slices.Contains(readTypes, kind) {
		r.faults.Add(diag.UnknownName, kindAt, "write one of: "+strings.Join(readTypes, ", "), "unknown read_type %s", quoted(kind))
	}
	out.Estimated = kind == "estimated"
	if r.faults.Len() > before {
		return out, false
	}
	_, toAt := cell(billTo)
	last, had := r.last[out.Account]
	switch days := int(out.To - out.From); {
	case days <= 0:
		r.faults.Add(diag.WrongOrder, toAt, "correct the dates", "the read of %v is not after %v", out.To, out.From)
	case days > longestBill:
		r.faults.Add(diag.OutOfRange, toAt, "correct the dates, or give the reads in between", "the period has %d days", days)
	case had && out.From < last:
		r.faults.Add(diag.Conflict, toAt, "correct the dates; the bills of an account must be in their order",
			"account %s: the period from %v begins before "+
				"the read of %v on a row above", quoted(out.Account), out.From, last)
	case out.M3 < 0 && (kind == "" || kind == "actual" || out.Estimated):
		r.faults.Add(diag.OutOfRange, volumeAt, "write corrected under read_type if it takes off estimates before it", "%s %s is below 0",
			key, text)
	case !(out.M3 > -1e9 && out.M3 < 1e9):
		r.faults.Add(diag.OutOfRange, volumeAt, "check the value and its unit", "%s %s is outside 0 to 1,000,000,000 m³", key, text)
	default:
		r.last[out.Account] = out.To
		return out, true
	}
	return out, false
}
