package csvfile

import (
	"maps"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// A Declared is a layout described by the user in a layout file, for daily
// tables that no other layout fits. The zero value of every field except
// Columns and the date is valid. [Declared.Check] reports errors.
type Declared struct {
	// Name is shown as the layout's name and in errors; "" shows "declared".
	Name string

	// Delimiter separates the cells: ",", ";", "|", "tab" or "blanks" (any run of
	// blanks). "" is a comma.
	Delimiter string

	// DecimalComma means numbers are written 12,5. It needs a Delimiter other
	// than a comma, or quoted cells.
	DecimalComma bool

	// Header is the beginning of the header line, for files with several
	// candidate lines. "" selects the first line with every column named below.
	// It must be empty with NoHeader.
	Header string

	// NoHeader means the file has no header. Columns are then named by
	// position, "1" for the first, and the first line with a valid date is the
	// first row.
	NoHeader bool

	// Date is the column with the date, and DateForm is its form, made of YYYY,
	// YY (1970 to 2069), MM, DD, Mon (three letters of the English month) and
	// DDD (day of the year), with any separators, such as "MM/DD/YYYY",
	// "YYYYMMDD", "DD.MM.YYYY", "D Mon YYYY", "YYYY-DDD". A single M or D is
	// the same as the double one: both read days and months without a leading
	// zero if there are separators. Midnight after the date is ignored. "" is
	// "YYYY-MM-DD".
	Date, DateForm string

	// Year, Month and Day, or Year and YearDay, are the columns of a date in
	// several cells, instead of Date.
	Year, Month, Day, YearDay string

	// Station is the column with the station's id; "" means the file has one station.
	Station string

	// Columns maps quantities to columns. The keys are tmax, tmin,
	// rain, rhmax, rhmin, rhmean, tdew, ea, rs, sun, wind, eto (short reference)
	// and etr (tall reference).
	Columns map[string]DeclaredColumn

	// Missing lists the cells that mean a missing value in every column,
	// compared as numbers if possible and otherwise as text. Empty cells, NaN,
	// NA and null always do.
	Missing []string

	// Facts about the station; nil means unknown. Options override them.
	LatDeg, LonDeg, ElevM, WindHeightM *float64
}

// A DeclaredColumn is one column of a [Declared].
type DeclaredColumn struct {
	// Column is the name in the header, ignoring case, or the position without
	// a header. It must not be "".
	Column string

	// Unit is the unit of the values, such as C, F, K, mm, in, %, fraction,
	// kPa, hPa, MJ/m2, W/m2 (a mean over 24 h), Ly, J/cm2, h, min, m/s, km/h,
	// mph, kn, km/day, miles/day; "tenths of C", "tenths of mm" and so on are a
	// tenth of each. It must not be "".
	Unit string

	// Missing lists more cells that mean a missing value in this column.
	Missing []string

	// Trace is the cell that means rain too small to measure, such as T or -1;
	// "" means the file has none. It is for rain only.
	Trace string
}

var declaredKeys = map[string]weather.Column{
	"tmax": weather.Tmax, "tmin": weather.Tmin, "rain": weather.Rain, "rhmax": weather.RHmax, "rhmin": weather.RHmin, "rhmean": weather.RHmean,
	"tdew": weather.Tdew, "ea": weather.Ea, "rs": weather.Rs, "sun": weather.Sun, "wind": weather.Wind, "eto": weather.ETo, "etr": weather.ETr,
}

var declaredDelimiters = map[string]byte{"": ',', ",": ',', ";": ';', "|": '|', "tab": '\t', "\t": '\t', "blanks": ' '}

func (d *Declared) name() string {
	if d.Name == "" {
		return "declared"
	}
	return d.Name
}

// Check returns all errors in d as [*diag.Errors], or nil. They name the field
// and what to write instead; the caller adds the location.
func (d *Declared) Check() error {
	var l diag.List
	bad := func(code diag.Code, fix, format string, args ...any) {
		l.Add(code, diag.Pos{File: d.name()}, fix, format, args...)
	}
	if _, ok := declaredDelimiters[d.Delimiter]; !ok {
		bad(diag.BadLayout, `use ",", ";", "|", tab or blanks`, "unknown delimiter %q", d.Delimiter)
	}
	if d.NoHeader && d.Header != "" {
		bad(diag.Conflict, "keep one of the two", "header and no_header are both given")
	}
	parts := []string{d.Year, d.Month, d.Day, d.YearDay}
	split := d.Year != "" && (d.Month != "" && d.Day != "" && d.YearDay == "" || d.Month == "" && d.Day == "" && d.YearDay != "")
	switch any := slices.ContainsFunc(parts, func(s string) bool { return s != "" }); {
	case d.Date != "" && any:
		bad(diag.Conflict, "keep one of the two", "the date is given both as one column and as several")
	case d.Date == "" && !split:
		bad(diag.MissingKey, "give date, or year, month and day, or year and year_day", "incomplete date columns")
	case d.Date == "" && d.DateForm != "":
		bad(diag.NoEffect, "remove date_form", "date_form is given without a date column")
	}
	if _, err := parseDateForm(d.DateForm); err != nil {
		bad(diag.BadLayout, "write it from YYYY, MM, DD, Mon or DDD, such as MM/DD/YYYY", "date form %q: %v", d.DateForm, err)
	}
	if len(d.Columns) == 0 {
		bad(diag.MissingKey, "describe at least tmax, tmin and rain, with column and unit", "no columns")
	}
	for _, key := range slices.Sorted(maps.Keys(d.Columns)) {
		q := d.Columns[key]
		col, ok := declaredKeys[key]
		if !ok {
			fix := "use " + strings.Join(slices.Sorted(maps.Keys(declaredKeys)), ", ")
			if near := diag.Nearest(key, slices.Collect(maps.Keys(declaredKeys))); near != "" {
				fix = "did you mean " + near + "?"
			}
			bad(diag.UnknownName, fix, "unknown quantity %q", key)
			continue
		}
		if q.Column == "" {
			bad(diag.MissingKey, "give the name in the header", "%s has no column", key)
		}
		if _, ok := declaredUnit(col, q.Unit); !ok {
			bad(diag.UnknownUnit, "write "+declaredUnits(col), "%s has the unknown unit %q", key, q.Unit)
		}
		if q.Trace != "" && col != weather.Rain {
			bad(diag.NoEffect, "remove trace", "%s has a trace; only rain can have one", key)
		}
	}
	if d.NoHeader {
		for _, c := range d.columnNames() {
			if n, ok := natural([]byte(c)); !ok || n < 1 || n > 1000 {
				bad(diag.BadLayout, "write its position, 1 for the first", "column %q is a name, but the file has no header", c)
			}
		}
	}
	return l.Err()
}

// columnNames returns all columns the file must have, in a fixed order.
func (d *Declared) columnNames() []string {
	var names []string
	for _, s := range []string{d.Date, d.Year, d.Month, d.Day, d.YearDay, d.Station} {
		if s != "" {
			names = append(names, s)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(d.Columns)) {
		names = append(names, d.Columns[key].Column)
	}
	return names
}

// declaredUnit returns the conversion from a unit given by the user. A nil
// conversion means none is needed.
func declaredUnit(c weather.Column, unit string) (func(float64) float64, bool) {
	u := strings.ToLower(strings.TrimSpace(unit))
	const tenth = "tenths of "
	if rest, ok := strings.CutPrefix(u, tenth); ok && !strings.HasPrefix(rest, tenth) {
		to, ok := declaredUnit(c, rest)
		if to == nil {
			return tenths, ok
		}
		return func(v float64) float64 { return to(v / 10) }, ok
	}
	switch humid := c == weather.RHmax || c == weather.RHmin || c == weather.RHmean; {
	case humid && u == "fraction":
		return func(v float64) float64 { return v * 100 }, true
	case c == weather.Wind && (u == "miles/day" || u == "mi/day"):
		return milesPerDay, true
	case u == "":
		return nil, false
	}
	return toColumn(c, unit)
}

// declaredUnits lists the units a column may have.
func declaredUnits(c weather.Column) string {
	switch c {
	case weather.Tmax, weather.Tmin, weather.Tdew:
		return "C, F or K"
	case weather.Rain, weather.ETo, weather.ETr:
		return "mm, cm or in"
	case weather.RHmax, weather.RHmin, weather.RHmean:
		return "% or fraction"
	case weather.Ea:
		return "kPa, hPa, mbar or Pa"
	case weather.Rs:
		return "MJ/m2, kWh/m2, W/m2, Ly, J/cm2 or kJ/m2"
	case weather.Sun:
		return "h, min or s"
	}
	return "m/s, km/h, mph, kn, km/day or miles/day"
}
