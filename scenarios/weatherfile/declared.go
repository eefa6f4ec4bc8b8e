package weatherfile

import (
	"errors"
	"io"
	"slices"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
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
	r := &yamlfile.Reader{Name: name}
	root, err := r.Open(in, declaredKeys)
	if err != nil {
		return nil, err
	}
	d := &csvfile.Declared{
		Name: r.Text(root, "name"), Delimiter: r.Text(root, "delimiter"), DecimalComma: r.Flag(root, "decimal_comma"),
		Header: r.Text(root, "header"), NoHeader: r.Flag(root, "no_header"),
		Date: r.Text(root, "date"), DateForm: r.Text(root, "date_form"),
		Year: r.Text(root, "year"), Month: r.Text(root, "month"), Day: r.Text(root, "day"), YearDay: r.Text(root, "year_day"),
		Station: r.Text(root, "station"), Missing: r.Texts(root, "missing"),
		LatDeg: r.Number(root, "latitude", -90, 90), LonDeg: r.Number(root, "longitude", -180, 180),
		ElevM: r.Quantity(root, "elevation", quantity.Length), WindHeightM: r.Quantity(root, "wind_height", quantity.Length),
		Columns: map[string]csvfile.DeclaredColumn{},
	}
	if d.Name == "" {
		d.Name = name
	}
	if cols := root.Get("columns"); cols != nil && r.Group(cols, "columns", quantityKeys) {
		for _, e := range cols.Entries {
			if !slices.Contains(quantityKeys, e.Key) || !r.Group(e.Value, e.Key, columnKeys) {
				continue
			}
			d.Columns[e.Key] = column(r, e.Value)
		}
	}
	if r.Faults.Len() == 0 {
		place(r, root, d.Check())
	}
	return d, r.Faults.Err()
}

func column(r *yamlfile.Reader, n *scenarios.Node) csvfile.DeclaredColumn {
	c := csvfile.DeclaredColumn{Column: r.Text(n, "column"), Unit: r.Text(n, "unit"), Missing: r.Texts(n, "missing"),
		Trace: r.Text(n, "trace")}
	for _, key := range []string{"column", "unit"} {
		if n.Get(key) == nil {
			r.Faults.Add(diag.MissingKey, n.Pos, "write {column: NAME, unit: UNIT}", "%s is missing", key)
		}
	}
	return c
}

// place gives the position of the file to errors of the declaration as a whole.
func place(r *yamlfile.Reader, root *scenarios.Node, err error) {
	var many *diag.Errors
	if !errors.As(err, &many) {
		return
	}
	for _, e := range many.List {
		r.Faults.Append(&diag.Error{Code: e.Code, Pos: root.Pos, Msg: e.Msg, Fix: e.Fix})
	}
}
