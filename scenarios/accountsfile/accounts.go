package accountsfile

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"loamledger/scenarios"
	"loamledger/scenarios/accounts"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Reader reads the accounts of a table one by one.
type Reader struct {
	rows  Rows
	name  string
	heads []head
	ahead *row           // the first row of the next account; nil at the end
	seen  map[string]int // first row by account
}

// A head is the heading of a column.
type head struct {
	column  string // of [accounts.Columns]; empty for a column for people
	year    int    // of outdoor_use_2019
	unit    string // empty if the heading has none
	key     string // of a parameter of a zone
	written accounts.Written
}

// A row is one row with the cells that count.
type row struct {
	id    string
	at    diag.Pos
	cells []Cell // parallel to the heads
	bad   *diag.Error
}

// forPeople lists the columns that are ignored.
var forPeople = [...]string{"notes", "note", "comment", "comments", "remark", "remarks"}

// mostID is the maximum length of an account's ID [bytes].
const mostID = 80

// NewReader reads the heading. name is the file name for messages. All errors in the heading
// are reported together, as one error that [diag.IsInput] recognizes.
func NewReader(rows Rows, name string) (*Reader, error) {
	r := &Reader{rows: rows, name: name, seen: map[string]int{}}
	cells, bad, err := rows.Next()
	var faults diag.List
	switch {
	case errors.Is(err, io.EOF):
		faults.Add(diag.EmptyFile, diag.Pos{File: name}, "write a row of column names, then the rows of each account", "the table is empty")
		return nil, faults.Err()
	case err != nil:
		return nil, fmt.Errorf("reading %s: %w", name, err)
	case bad != nil:
		faults.Append(bad)
		return nil, faults.Err()
	}
	known := 0
	for _, c := range cells {
		h, fault := r.head(c)
		if fault != nil {
			faults.Append(fault)
		} else if h.column != "" {
			known++
		}
		r.heads = append(r.heads, h)
	}
	first := diag.Pos{File: name, Line: 1, Col: 1}
	switch {
	case known == 0: // a file of another kind: its content is not repeated
		faults = diag.List{}
		faults.Add(diag.MissingColumn, first, "name a table with the column account; loamledger portfolio --columns lists all",
			"this is not a table of accounts: no column is known")
	case !slices.ContainsFunc(r.heads, func(h head) bool { return h.column == accounts.ColumnAccount }):
		faults.Add(diag.MissingColumn, first, "add the column account", "missing column account")
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return r, r.advance()
}

// head reads one heading.
func (r *Reader) head(c Cell) (h head, fault *diag.Error) {
	key, unit := heading(c.text)
	pos := diag.Pos{File: r.name, Line: c.line, Col: c.col}
	h.unit = unit
	if year, is := strings.CutPrefix(key, accounts.UsePrefix); is {
		y, err := strconv.Atoi(year)
		if err != nil || y < 1700 || y > 2200 {
			return h, &diag.Error{Code: diag.UnknownKey, Pos: pos, Msg: "column " + quoted(c.text) + " does not name a year",
				Fix: "write outdoor_use_2019, with the calendar year"}
		}
		h.column, h.year = accounts.ColumnUse, y
	}
	var names []string
	for _, col := range accounts.Columns() {
		names = append(names, col.Key)
		if col.Key == key {
			h.column = key
			h.key, _ = accounts.ZoneKey(key)
		}
	}
	switch {
	case slices.Contains(forPeople[:], key):
		return head{}, nil
	case h.column == "":
		fix := "loamledger portfolio --columns lists the columns"
		if near := diag.Nearest(key, names); near != "" {
			fix = "did you mean " + quoted(near) + "?"
		}
		return h, &diag.Error{Code: diag.UnknownKey, Pos: pos, Msg: "unknown column " + quoted(c.text), Fix: fix}
	case slices.ContainsFunc(r.heads, func(o head) bool { return o.column == h.column && o.year == h.year }):
		return h, &diag.Error{Code: diag.Duplicate, Pos: pos, Msg: "duplicate column " + quoted(c.text), Fix: "remove one"}
	}
	h.written = accounts.WrittenAs(h.column)
	return h, h.checkUnit(c.text, pos)
}

func quoted(text string) string { return strconv.Quote(text) }

// advance reads the next row into r.ahead.
func (r *Reader) advance() error {
	cells, bad, err := r.rows.Next()
	if errors.Is(err, io.EOF) {
		r.ahead = nil
		return nil
	}
	if err != nil {
		return fmt.Errorf("reading %s: %w", r.name, err)
	}
	out := &row{cells: slices.Clone(cells), bad: bad}
	if len(cells) > 0 {
		out.at = diag.Pos{File: r.name, Line: cells[0].line, Col: cells[0].col}
	} else if bad != nil {
		out.at = bad.Pos
	}
	if bad == nil && len(cells) != len(r.heads) {
		out.bad = &diag.Error{Code: diag.RowLength, Pos: out.at,
			Msg: fmt.Sprintf("the row has %d cells, the heading %d", len(cells), len(r.heads)),
			Fix: "give every row as many cells as the heading"}
	}
	for i, h := range r.heads {
		if h.column == accounts.ColumnAccount && i < len(cells) {
			out.id = cells[i].text
		}
	}
	r.ahead = out
	return nil
}

// A Skip says of an account by its ID that it is not wanted; its cells are then not read.
type Skip func(id string) bool

// Next returns the next account that skip does not want to be left out; nil skip wants all.
// Together with an account it returns what is wrong with it, as one error that
// [diag.IsInput] recognizes; an account whose rows cannot be told apart has no ID. At the
// end both are nil. err is a system error.
func (r *Reader) Next(skip Skip) (a *accounts.Account, faults error, err error) {
	for r.ahead != nil {
		first := r.ahead
		list := []*row{first}
		for {
			if err := r.advance(); err != nil {
				return nil, nil, err
			}
			if r.ahead == nil || r.ahead.id != first.id || first.id == "" {
				break
			}
			list = append(list, r.ahead)
			if len(list) > mostRows {
				break
			}
		}
		if skip != nil && skip(first.id) {
			continue
		}
		a, faults := r.account(list)
		return a, faults, nil
	}
	return nil, nil, nil
}

// mostRows bounds the rows of an account; the rest is taken for another account of the same
// name, which is an error.
const mostRows = 1000

// account reads the rows of one account.
func (r *Reader) account(list []*row) (*accounts.Account, error) {
	first := list[0]
	a := &accounts.Account{ID: first.id, Pos: first.at, LatDeg: math.NaN(), LonDeg: math.NaN(), ElevM: math.NaN()}
	var faults diag.List
	hidden := func(c rune) bool { return !unicode.IsPrint(c) || c == unicode.ReplacementChar }
	switch {
	case first.id == "" && first.bad == nil:
		faults.Add(diag.EmptyValue, first.at, "write the account on every row", "the row names no account")
	case len(first.id) > mostID || strings.ContainsFunc(first.id, hidden):
		faults.Add(diag.BadName, first.at, "write a short ID", "the account's ID is longer than %d bytes or has a nonprintable character", mostID)
		a.ID = ""
	case first.id != "":
		if line, again := r.seen[first.id]; again {
			faults.Add(diag.Duplicate, first.at, "put all rows of an account together", "account %s has rows further above, from row %d",
				quoted(first.id), line)
		} else {
			r.seen[first.id] = first.at.Line
		}
	}
	said := map[string]string{} // by column of the account
	plain := false
	for _, row := range list {
		if row.bad != nil {
			faults.Append(row.bad)
			continue
		}
		r.take(a, row, said, &plain, &faults)
	}
	if p := a.UsePeriod; p != (accounts.Period{}) && (!p.Known() || p.To < p.From) && faults.Len() == 0 {
		faults.Add(diag.WrongOrder, first.at, "give the first and the last day of outdoor_use, in this order",
			"use_from and use_to are not the days of a period")
	}
	return a, faults.Err()
}

// take adds one row to an account.
func (r *Reader) take(a *accounts.Account, row *row, said map[string]string, plain *bool, faults *diag.List) {
	zone := accounts.Zone{Pos: row.at}
	var values accounts.Values
	for i := range r.heads {
		h, c := &r.heads[i], row.cells[i]
		if h.column == "" || c.text == "" || h.column == accounts.ColumnAccount {
			continue
		}
		at := diag.Pos{File: r.name, Line: c.line, Col: c.col}
		text := withUnit(c.text, h.unit)
		switch h.column {
		case accounts.ColumnZone:
			zone.Name, zone.Pos = text, at
			continue
		case accounts.ColumnLike:
			zone.Like = text
			continue
		}
		if fault := h.checkCell(c.text, at); fault != nil {
			faults.Append(fault)
			continue
		}
		if h.key != "" || h.column == accounts.ColumnMinutes {
			values = append(values, accounts.Value{Column: h.column, Key: h.key,
				Node: &scenarios.Node{Pos: at, Kind: scenarios.Scalar, Text: text}})
			continue
		}
		name := h.column
		if h.year > 0 {
			name += strconv.Itoa(h.year)
		}
		if before, again := said[name]; again {
			if before != text {
				faults.Add(diag.Conflict, at, "write it once, or the same on every row", "%s is %s here and %s on a row above", h.column,
					quoted(text), quoted(before))
			}
			continue
		}
		said[name] = text
		r.ofAccount(a, h, text, at, faults)
	}
	if zone.Name == "" {
		if *plain {
			faults.Add(diag.Duplicate, row.at, "write one row for all zones, and a row with its name for each zone",
				"the account has a second row without a zone")
		}
		*plain = true
		if zone.Like != "" {
			faults.Add(diag.NoEffect, row.at, "name the zone", "like has no effect on a row without a zone")
		}
		a.Values = append(a.Values, values...)
		return
	}
	if zone.Like == "" {
		zone.Like = zone.Name
	}
	zone.Values = values
	a.Zones = append(a.Zones, zone)
}

// withUnit adds the unit of the heading to a number or a range without one.
func withUnit(text, unit string) string {
	last := text[strings.LastIndex(text, " to ")+1:]
	if number, own := quantity.Cut(strings.TrimPrefix(last, "to ")); unit != "" && number != "" && own == "" {
		return text + " " + unit
	}
	return text
}

// ofAccount reads a cell of the account.
func (r *Reader) ofAccount(a *accounts.Account, h *head, text string, at diag.Pos, faults *diag.List) {
	if c, is := accounts.CustomerColumnOf(h.column); is {
		a.Customer = append(a.Customer, r.customer(&c, h, text, at, faults))
		return
	}
	switch h.column {
	case accounts.ColumnTemplate:
		a.Template = text
	case accounts.ColumnStation:
		a.Station = text
	case accounts.ColumnClass:
		a.Class = text
	case accounts.ColumnDistrict:
		a.District = text
	case accounts.ColumnExclude:
		a.Exclude = text
	case accounts.ColumnLatitude:
		a.LatDeg = degrees(h, text, at, 90, faults)
	case accounts.ColumnLongitude:
		a.LonDeg = degrees(h, text, at, 180, faults)
	case accounts.ColumnElevation:
		a.ElevM = amount(h, text, at, quantity.Length, -450, 6000, faults)
	case accounts.ColumnUseFrom:
		a.UsePeriod.From = day(h, text, at, faults)
	case accounts.ColumnUseTo:
		a.UsePeriod.To = day(h, text, at, faults)
	case accounts.ColumnUse:
		if v := amount(h, text, at, quantity.Volume, 0, 1e9, faults); !math.IsNaN(v) {
			a.Use = append(a.Use, accounts.Use{Year: h.year, M3: v, Pos: at})
			slices.SortFunc(a.Use, func(x, y accounts.Use) int { return x.Year - y.Year })
		}
	}
}

// customer reads what rates need to know of an account.
func (r *Reader) customer(c *accounts.CustomerColumn, h *head, text string, at diag.Pos, faults *diag.List) (out accounts.Customer) {
	out = accounts.Customer{Column: c.Key, Pos: at}
	if c.Words {
		out.Words = []accounts.Word{{Share: 1, Node: &scenarios.Node{Pos: at, Kind: scenarios.Scalar, Text: text}}}
		return out
	}
	span, err := c.Parse(text)
	if err != nil {
		fix := "write a number or a range, such as 2 to 4"
		if !c.Bare {
			fix = h.unitFix()
		}
		faults.Add(diag.BadQuantity, at, fix, "%s: %s", c.Key, why(err))
	}
	out.Range = span
	return out
}

func day(h *head, text string, at diag.Pos, faults *diag.List) cal.Date {
	d, err := cal.Parse(text)
	if err != nil {
		faults.Add(diag.NotADate, at, "write a day, such as 2021-01-01", "%s %s is not a date", h.column, quoted(text))
	}
	return d
}

func degrees(h *head, text string, at diag.Pos, most float64, faults *diag.List) float64 {
	v, err := quantity.ParseNumber(text)
	if err != nil || !(math.Abs(v) <= most) {
		faults.Add(diag.OutOfRange, at, fmt.Sprintf("write decimal degrees from -%g to %g", most, most),
			"%s %s is not valid", h.column, quoted(text))
		return math.NaN()
	}
	return v
}

func amount(h *head, text string, at diag.Pos, dim quantity.Dimension, low, high float64, faults *diag.List) float64 {
	v, err := quantity.Parse(text, dim)
	switch {
	case err != nil:
		fix := h.unitFix()
		faults.Add(diag.BadQuantity, at, fix, "%s: %s", h.column, why(err))
		return math.NaN()
	case !(v >= low && v <= high):
		faults.Add(diag.OutOfRange, at, "check the value and its unit",
			"%s %s is outside %g to %g %s", h.column, quoted(text), low, high, dim.BaseUnit())
		return math.NaN()
	}
	return v
}
