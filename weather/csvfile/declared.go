package csvfile

import (
	"maps"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// A Declared is a layout that the user describes, for tables with a row per day
// that no other layout fits. The zero value of every field but Columns and the
// date is usable. [Declared.Check] says what is wrong with it.
type Declared struct {
	// Name is shown as the layout's name and in faults; "" shows "declared".
	Name string

	// Delimiter parts the cells: ",", ";", "|", "tab" or "blanks" (any run of
	// blanks). "" is a comma.
	Delimiter string

	// DecimalComma says that numbers are written 12,5. It needs a Delimiter other
	// than a comma, or quoted cells.
	DecimalComma bool

	// Header is text with which the header line begins, for files in which
	// several lines could be it. "" takes the first line that holds every column
	// named below. It may not be given with NoHeader.
	Header string

	// NoHeader says that the file has no header. Columns are then named by their
	// place, "1" for the first, and the first line whose date can be read is the
	// first row.
	NoHeader bool

	// Date is the column with the date, and DateForm how it is written: made of
	// YYYY, YY (1970 to 2069), MM, DD, Mon (three letters of the English month) and DDD (day of the
	// year), with anything between, such as "MM/DD/YYYY", "YYYYMMDD", "DD.MM.YYYY", "D Mon YYYY",
	// "YYYY-DDD". A single M or D is the same as the double one: both read days
	// and months without a leading zero where something stands between. A time of midnight behind the date is
	// passed over. "" is "YYYY-MM-DD".
	Date, DateForm string

	// Year, Month and Day, or Year and YearDay, are the columns of a date that
	// stands in several cells, instead of Date.
	Year, Month, Day, YearDay string

	// Station is the column with the station's id; "" means that the file holds
	// one station.
	Station string

	// Columns says which column holds which quantity. The keys are tmax, tmin,
	// rain, rhmax, rhmin, rhmean, tdew, ea, rs, sun, wind, eto (short reference)
	// and etr (tall reference).
	Columns map[string]DeclaredColumn

	// Missing are the cells that mean a missing value in every column, compared as
	// numbers where they are numbers and as text otherwise. Empty cells, NaN, NA and null
	// always do.
	Missing []string

	// Facts about the station; nil means unknown. Options override them.
	LatDeg, LonDeg, ElevM, WindHeightM *float64
}

// A DeclaredColumn is one column of a [Declared].
type DeclaredColumn struct {
	// Column is the name in the header, letter case aside, or the place without
	// header. It may not be "".
	Column string

	// Unit is the unit of the values, such as C, F, K, mm, in, %, fraction, kPa,
	// hPa, MJ/m2, W/m2 (a mean over 24 h), Ly, J/cm2, h, min, m/s, km/h, mph, kn,
	// km/day, miles/day; "tenths of C", "tenths of mm" and the like are a tenth of
	// each. It may not be "".
	Unit string

	// Missing are more cells that mean a missing value in this column.
	Missing []string

	// Trace is the cell that means rain too small to measure, such as T or -1; ""
	// means that the file has none. Only rain has it.
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

// Check returns all that is wrong with d as [*diag.Errors], or nil. The faults
// name the field and what to write instead; the place is left to the caller.
func (d *Declared) Check() error {
	var l diag.List
	bad := func(code diag.Code, fix, format string, args ...any) {
		l.Add(code, diag.Pos{File: d.name()}, fix, format, args...)
	}
	if _, ok := declaredDelimiters[d.Delimiter]; !ok {
		bad(diag.BadLayout, `use ",", ";", "|", tab or blanks`, "delimiter %q", d.Delimiter)
	}
	if d.NoHeader && d.Header != "" {
		bad(diag.Conflict, "give one of the two", "a header and no header")
	}
	parts := []string{d.Year, d.Month, d.Day, d.YearDay}
	split := d.Year != "" && (d.Month != "" && d.Day != "" && d.YearDay == "" || d.Month == "" && d.Day == "" && d.YearDay != "")
	switch any := slices.ContainsFunc(parts, func(s string) bool { return s != "" }); {
	case d.Date != "" && any:
		bad(diag.Conflict, "give one of the two", "the date stands in one column and in several")
	case d.Date == "" && !split:
		bad(diag.MissingKey, "give date, or year, month and day, or year and year_day", "the columns of the date are not complete")
	case d.Date == "" && d.DateForm != "":
		bad(diag.NoEffect, "leave date_form out", "a form of the date without a date column")
	}
	if _, err := parseDateForm(d.DateForm); err != nil {
		bad(diag.BadLayout, "write it from YYYY, MM, DD, Mon or DDD, such as MM/DD/YYYY", "date form %q: %v", d.DateForm, err)
	}
	if len(d.Columns) == 0 {
		bad(diag.MissingKey, "name at least tmax, tmin and rain with column and unit", "no columns")
	}
	for _, key := range slices.Sorted(maps.Keys(d.Columns)) {
		q := d.Columns[key]
		col, ok := declaredKeys[key]
		if !ok {
			fix := "use " + strings.Join(slices.Sorted(maps.Keys(declaredKeys)), ", ")
			if near := diag.Nearest(key, slices.Collect(maps.Keys(declaredKeys))); near != "" {
				fix = "did you mean " + near + "?"
			}
			bad(diag.UnknownName, fix, "no quantity is called %q", key)
			continue
		}
		if q.Column == "" {
			bad(diag.MissingKey, "give the name in the header", "%s has no column", key)
		}
		if _, ok := declaredUnit(col, q.Unit); !ok {
			bad(diag.UnknownUnit, "give "+declaredUnits(col), "%s has the unit %q", key, q.Unit)
		}
		if q.Trace != "" && col != weather.Rain {
			bad(diag.NoEffect, "leave trace out", "%s has a word for a trace, which only rain has", key)
		}
	}
	if d.NoHeader {
		for _, c := range d.columnNames() {
			if n, ok := natural([]byte(c)); !ok || n < 1 || n > 1000 {
				bad(diag.BadLayout, "give its place, 1 for the first", "column %q of a file without header", c)
			}
		}
	}
	return l.Err()
}

// columnNames are all the columns that the file must have, in a fixed order.
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

// declaredUnit returns the conversion from a unit that a user gives. A nil
// conversion means that none is needed.
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

// declaredUnits names the units that a column may have.
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
