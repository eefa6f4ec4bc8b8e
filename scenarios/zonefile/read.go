// Package zonefile reads a CSV table of zones: one row per zone, one column per
// key.
//
// A cell is written like a value in a scenario, "2400 ft2". For cells with bare
// numbers, the column heading may name the unit instead, as in "area (ft2)". An
// empty cell is a value not given.
//
// Columns called notes, note, comment, comments, remark or remarks are for
// people and are ignored, as are rows with nothing but separators, which
// spreadsheets leave at the end. Neither is counted, since neither could name a
// zone.
package zonefile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// maxBytes is the maximum size of a table [bytes].
const maxBytes = 1 << 20

// forPeople lists the columns that are ignored.
var forPeople = []string{"notes", "note", "comment", "comments", "remark", "remarks"}

// Read reads the table in r as the list of zones of a scenario. name is the
// file name for messages; more lists parameters in addition to those of
// [scenarios.ZoneParams]. Errors in the table are a [*diag.Errors].
func Read(r io.Reader, name string, more ...scenarios.ZoneParam) (*scenarios.Node, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	t := &table{name: name, columns: columnsOf(append(scenarios.ZoneParams(), more...))}
	zones := t.read(bytes.TrimPrefix(data, []byte("\ufeff")))
	if err := t.faults.Err(); err != nil {
		return nil, err
	}
	return zones, nil
}

type table struct {
	name    string
	columns []scenarios.ZoneParam // valid columns
	faults  diag.List
	reader  *csv.Reader
	keys    []string // of each column
	units   []string // of each column; empty if its heading has none
}

func (t *table) at(line, col int) diag.Pos { return diag.Pos{File: t.name, Line: line, Col: col} }

// field returns the position of column i of the record just read.
func (t *table) field(i int) diag.Pos {
	line, col := t.reader.FieldPos(i)
	return t.at(line, col)
}

func (t *table) read(data []byte) *scenarios.Node {
	out := &scenarios.Node{Pos: t.at(1, 1), Kind: scenarios.List}
	switch {
	case len(data) > maxBytes:
		t.faults.Add(diag.TooLarge, t.at(0, 0), "split the site", "the table is larger than %d KiB", maxBytes>>10)
		return out
	case !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0:
		t.faults.Add(diag.NotText, t.at(0, 0), "save it as UTF-8 CSV", "this is not a UTF-8 text file")
		return out
	}
	sep := separator(data)
	t.reader = csv.NewReader(bytes.NewReader(blankRows(data, sep)))
	t.reader.Comma = sep
	t.reader.TrimLeadingSpace = true
	heads, err := t.reader.Read()
	if err != nil {
		t.broken(err, "the table is empty")
		return out
	}
	if !t.head(heads) {
		return out
	}
	for _, p := range t.columns {
		key := p.Column
		if p.Required && !slices.Contains(t.keys, key) {
			t.faults.Add(diag.MissingColumn, t.at(1, 1), "add the column "+key, "missing column %s", key)
		}
	}
	if t.faults.Len() > 0 {
		return out
	}
	for {
		row, err := t.reader.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			if !t.broken(err, "") {
				break
			}
			continue
		}
		if n := t.zone(row); n != nil {
			out.Items = append(out.Items, n)
		}
	}
	if len(out.Items) == 0 && t.faults.Len() == 0 {
		t.faults.Add(diag.EmptyValue, t.at(1, 1), "add a row for each zone", "the table has no zones")
	}
	return out
}

// broken reports an error from the CSV reader and returns whether reading can
// go on.
func (t *table) broken(err error, ifEmpty string) bool {
	var p *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		t.faults.Add(diag.EmptyFile, t.at(0, 0), "write a row of column names, then a row for each zone", "%s", ifEmpty)
	case errors.As(err, &p) && errors.Is(err, csv.ErrFieldCount):
		t.faults.Add(diag.RowLength, t.at(p.Line, p.Column), "give every row as many cells as the first row",
			"this row does not have %d cells like the first row", len(t.keys))
		return true
	case errors.As(err, &p):
		t.faults.Add(diag.BadSyntax, t.at(p.Line, p.Column), `put the whole cell in quotes, and double any quotes inside it`, "invalid CSV: %v",
			p.Err)
	default:
		t.faults.Add(diag.BadSyntax, t.at(0, 0), "save the table as plain CSV", "invalid CSV: %v", err)
	}
	return false
}

// separator detects commas, or the semicolons or tabs of some spreadsheets,
// from the first line.
func separator(data []byte) rune {
	first, _, _ := bytes.Cut(data, []byte("\n"))
	for _, c := range []byte(";\t") {
		if bytes.IndexByte(first, c) >= 0 && bytes.IndexByte(first, ',') < 0 {
			return rune(c)
		}
	}
	return ','
}

// blankRows empties lines with nothing but separators and spaces, and keeps the
// line breaks so that line numbers stay right. Quoted cells are left unchanged.
func blankRows(data []byte, sep rune) []byte {
	out := make([]byte, 0, len(data))
	quoted := false
	for line := range bytes.Lines(data) {
		body := bytes.TrimRight(line, "\r\n")
		if !quoted && len(bytes.Trim(body, string(sep)+" \t")) == 0 {
			line = line[len(body):]
		}
		quoted = quoted != (bytes.Count(line, []byte{'"'})%2 == 1)
		out = append(out, line...)
	}
	return out
}

// head reads the column names and the units in them. It reports false if none is known.
func (t *table) head(heads []string) bool {
	known, some := t.names(), false
	before := t.faults
	for i, h := range heads {
		key, unit := h, ""
		if at := strings.IndexAny(h, "(["); at > 0 && strings.ContainsRune(")]", rune(h[len(h)-1])) {
			key, unit = h[:at], strings.TrimSpace(h[at+1:len(h)-1])
		}
		key = strings.Join(strings.Fields(strings.ToLower(key)), "_")
		switch {
		case slices.Contains(forPeople, key):
		case !slices.Contains(known, key):
			t.faults.Add(diag.UnknownKey, t.field(i), fix(key, known), "unknown column %q", h)
		case slices.Contains(t.keys, key):
			t.faults.Add(diag.Duplicate, t.field(i), "remove one", "duplicate column %s", key)
		}
		some = some || slices.Contains(known, key) || t.old(key)
		t.keys, t.units = append(t.keys, key), append(t.units, unit)
	}
	if !some && len(heads) > 0 { // a file of another kind: its content is not repeated
		t.faults = before
		t.faults.Add(diag.MissingColumn, t.at(1, 1), "name a CSV table with the columns name, area and sprinkler", "this is not a table of "+
			"zones: no column is known")
		return false
	}
	return true
}

// old reports whether a column once had this name.
func (t *table) old(key string) bool {
	return slices.ContainsFunc(scenarios.OldColumns(), func(k scenarios.OldKey) bool { return k.Old == key })
}

// fix says what to write instead of a column that is not known.
func fix(key string, known []string) string {
	for _, k := range scenarios.OldColumns() {
		if k.Old == key {
			return fmt.Sprintf("write %s instead of %s", k.New, k.Old)
		}
	}
	if near := diag.Nearest(key, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "valid columns: " + strings.Join(known, ", ")
}

// zone makes a node from the row just read.
func (t *table) zone(row []string) *scenarios.Node {
	zone := &scenarios.Node{Pos: t.field(0), Kind: scenarios.Map}
	for c := range t.columns {
		p := &t.columns[c]
		i := slices.Index(t.keys, p.Column)
		if i < 0 {
			continue
		}
		text := strings.TrimSpace(row[i])
		if text == "" {
			continue
		}
		if unit := t.units[i]; unit != "" {
			if number, own := quantity.Cut(text); number != "" && own == "" {
				text += " " + unit
			}
		}
		zone.Put(p.Key, &scenarios.Node{Pos: t.field(i), Kind: scenarios.Scalar, Text: text})
	}
	if len(zone.Entries) == 0 {
		t.faults.Add(diag.EmptyValue, zone.Pos, "remove the row", "this row names no zone")
		return nil
	}
	return zone
}
