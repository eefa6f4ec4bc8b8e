package weatherfile

import (
	"errors"
	"io"
	"slices"

	"loamledger/scenarios"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

var (
	declaredKeys = []string{"name", "delimiter", "decimal_comma", "header", "no_header", "date", "date_form", "year", "month", "day",
		"year_day", "station",
		"columns", "missing", "latitude", "longitude", "elevation", "wind_height"}
	quantityKeys = []string{"tmax", "tmin", "rain", "rhmax", "rhmin", "rhmean", "tdew", "ea", "rs", "sun", "wind", "eto", "etr"}
	columnKeys   = []string{"column", "unit", "missing", "trace"}
)

// DeclaredExample is a declaration to start from.
const DeclaredExample = `# An unknown layout: name the columns, their units and the date.
delimiter: ";"            # "," ";" "|" tab or spaces
decimal_comma: true       # numbers are written 12,5
date: Datum
date_form: DD.MM.YYYY     # from YYYY, YY, MM, DD, Mon and DDD; or give year, month, day
missing: [-99]            # cells that mean missing, everywhere
columns:
  tmax: {column: TX, unit: C}
  tmin: {column: TN, unit: C}
  rain: {column: RR, unit: mm, trace: "-1"}
latitude: 47.1            # decimal degrees
elevation: 480 m
wind_height: 10 m
`

// ReadDeclared reads the declaration of a layout.
func ReadDeclared(in io.Reader, name string) (*csvfile.Declared, error) {
	r := &reader{name: name}
	root, err := r.open(in, declaredKeys)
	if err != nil {
		return nil, err
	}
	d := &csvfile.Declared{
		Name: r.text(root, "name"), Delimiter: r.text(root, "delimiter"), DecimalComma: r.flag(root, "decimal_comma"),
		Header: r.text(root, "header"), NoHeader: r.flag(root, "no_header"),
		Date: r.text(root, "date"), DateForm: r.text(root, "date_form"),
		Year: r.text(root, "year"), Month: r.text(root, "month"), Day: r.text(root, "day"), YearDay: r.text(root, "year_day"),
		Station: r.text(root, "station"), Missing: r.texts(root, "missing"),
		LatDeg: r.number(root, "latitude", -90, 90), LonDeg: r.number(root, "longitude", -180, 180),
		ElevM: r.quantity(root, "elevation", quantity.Length), WindHeightM: r.quantity(root, "wind_height", quantity.Length),
		Columns: map[string]csvfile.DeclaredColumn{},
	}
	if d.Name == "" {
		d.Name = name
	}
	if cols := root.Get("columns"); cols != nil && r.group(cols, "columns", quantityKeys) {
		for _, e := range cols.Entries {
			if !slices.Contains(quantityKeys, e.Key) || !r.group(e.Value, e.Key, columnKeys) {
				continue
			}
			d.Columns[e.Key] = r.column(e.Value)
		}
	}
	if r.faults.Len() == 0 {
		r.place(root, d.Check())
	}
	return d, r.faults.Err()
}

func (r *reader) column(n *scenarios.Node) csvfile.DeclaredColumn {
	c := csvfile.DeclaredColumn{Column: r.text(n, "column"), Unit: r.text(n, "unit"), Missing: r.texts(n, "missing"),
		Trace: r.text(n, "trace")}
	for _, key := range []string{"column", "unit"} {
		if n.Get(key) == nil {
			r.faults.Add(diag.MissingKey, n.Pos, "write {column: NAME, unit: UNIT}", "%s is missing", key)
		}
	}
	return c
}

// place gives the position of the file to errors of the declaration as a whole.
func (r *reader) place(root *scenarios.Node, err error) {
	var many *diag.Errors
	if !errors.As(err, &many) {
		return
	}
	for _, e := range many.List {
		r.faults.Append(&diag.Error{Code: e.Code, Pos: root.Pos, Msg: e.Msg, Fix: e.Fix})
	}
}
