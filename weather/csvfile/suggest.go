package csvfile

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// declareIt is the fix for a file in an unknown layout: the layout file to
// write, with the file's own column names as far as they can be identified.
func declareIt(h *lead) (fix, yaml string) {
	const way = "describe its columns in a layout file, map.yaml, and name it: --layout-file map.yaml, or layout_file: map.yaml under " +
		"weather; "
	d := guessDeclared(h)
	if d == nil {
		return way + `"loamledger weather --layouts" shows an example and the known layouts`, ""
	}
	return way + "from the file's own column names, to check and complete:", d.yaml()
}

// quantityNames are common parts of column names, the longest match first. A
// name with an excluded word means something else.
var quantityNames = []struct {
	key   string
	names []string
}{
	{"tmax", []string{"tmax", "tempmax", "maxtemp", "maxt", "temphigh", "hightemp", "airtempmax", "maxairtemp", "temperaturemax",
		"maxtemperature", "hitemp", "high", "tx"}},
	{"tmin", []string{"tmin", "tempmin", "mintemp", "mint", "templow", "lowtemp", "airtempmin", "minairtemp", "temperaturemin",
		"mintemperature", "lotemp", "low", "tn"}},
	{"rain", []string{"rain", "rainfall", "precip", "precipitation", "prcp", "ppt", "pcp", "rr"}},
}

// guessDeclared drafts the layout file for a file with one header line of
// names; nil if its start does not look like that.
func guessDeclared(h *lead) *guess {
	for n := range min(len(h.lines)-1, leadLines) {
		for _, sep := range []struct {
			char byte
			name string
		}{{',', ""}, {';', `";"`}, {'\t', "tab"}, {'|', `"|"`}} {
			names, row := cellNames(cutLine(h.lines[n], sep.char)), cutLine(h.lines[n+1], sep.char)
			if len(names) < 3 || len(row) != len(names) || slices.ContainsFunc(names, unfit) {
				continue
			}
			g := guess{delimiter: sep.name}
			if g.fits(names, row, sep.char) {
				return &g
			}
		}
	}
	return nil
}

// unfit reports whether a cell is not a name to repeat in a message.
func unfit(name string) bool {
	return len(name) > 60 || strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) || r == unicode.ReplacementChar })
}

// A guess is a draft of a layout file.
type guess struct {
	delimiter    string
	decimalComma bool
	date, form   string
	column, unit [3]string
}

func (g *guess) fits(names []string, row []field, sep byte) bool {
	for i, f := range row {
		if form := formOf(f.text); form != "" && g.date == "" && names[i] != "" {
			g.date, g.form = names[i], form
		}
		if sep != ',' && bytes.IndexByte(f.text, ',') > 0 && bytes.IndexByte(f.text, '.') < 0 {
			if _, ok := number(bytes.Replace(f.text, []byte(","), []byte("."), 1)); ok {
				g.decimalComma = true
			}
		}
	}
	if g.date == "" {
		return false
	}
	found := 0
	for k, q := range quantityNames {
		g.column[k], g.unit[k] = "COLUMN", "C or F" // for the user to choose: a unit is never assumed
		if q.key == "rain" {
			g.unit[k] = "mm or in"
		}
		for _, name := range names {
			if plain, unit := plainName(name); slices.Contains(q.names, plain) {
				g.column[k] = name
				found++
				if unit != "" && (q.key == "rain") == (unit == "in" || unit == "mm" || unit == "cm") {
					g.unit[k] = unit
				}
				break
			}
		}
	}
	return found > 0 || len(names) <= 20 && allNumbers(row, g.date, names)
}

// allNumbers reports whether every cell but the date is a number: a table of
// measurements, whatever its columns are called.
func allNumbers(row []field, date string, names []string) bool {
	for i, f := range row {
		if _, ok := number(f.text); !ok && names[i] != date {
			return false
		}
	}
	return true
}

// plainName removes case, blanks, punctuation and a trailing unit from a name.
func plainName(name string) (plain, unit string) {
	lower := strings.ToLower(name)
	words := strings.FieldsFunc(lower, func(r rune) bool { return (r < 'a' || r > 'z') && r != '°' })
	if n := len(words); n > 1 {
		switch strings.TrimPrefix(strings.TrimPrefix(words[n-1], "deg"), "°") {
		case "c", "celsius":
			unit = "C"
		case "f", "fahrenheit":
			unit = "F"
		case "mm":
			unit = "mm"
		case "cm":
			unit = "cm"
		case "in", "inch", "inches":
			unit = "in"
		}
		if unit != "" {
			words = words[:n-1]
		}
		if n := len(words); n > 1 && words[n-1] == "deg" {
			words = words[:n-1]
		}
	}
	return strings.Join(words, ""), unit
}

// formOf returns the form of a date as a layout file states it; empty if it is
// not a date. If day and month are ambiguous, the month is first.
func formOf(text []byte) string {
	for _, form := range []string{"YYYY-MM-DD", "YYYY/MM/DD", "MM/DD/YYYY", "DD/MM/YYYY", "DD.MM.YYYY", "MM-DD-YYYY", "DD-MM-YYYY",
		"D Mon YYYY", "DD-Mon-YYYY", "YYYYMMDD", "MM/DD/YY", "DD/MM/YY"} {
		if f, err := parseDateForm(form); err == nil {
			if _, ok := f.read(text); ok {
				return form
			}
		}
	}
	return ""
}

// yaml writes the layout file as text, since the package that imports the YAML
// library is above this one. A test in scenarios/weatherfile reads back the
// text.
func (g *guess) yaml() string {
	var lines []string
	if g.delimiter != "" {
		lines = append(lines, "delimiter: "+g.delimiter)
	}
	if g.decimalComma {
		lines = append(lines, "decimal_comma: true")
	}
	lines = append(lines, "date: "+quotedName(g.date), "date_form: "+g.form, "columns:")
	for k, q := range quantityNames {
		lines = append(lines, fmt.Sprintf("  %s: {column: %s, unit: %s}", q.key, quotedName(g.column[k]), quotedName(g.unit[k])))
	}
	return strings.Join(lines, "\n")
}

// quotedName writes a name so that YAML reads it unchanged.
func quotedName(name string) string {
	plain := name != "" && !strings.EqualFold(name, "null") && !strings.ContainsFunc(name, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '_' || r >= '0' && r <= '9')
	}) && (name[0] < '0' || name[0] > '9')
	if plain {
		return name
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(name) + `"`
}

// declareOwn is the fix for a table in loamledger's own layout with dates in
// another form: its layout file, column by column.
func declareOwn(names []string, dateAt int, form string) string {
	lines := []string{"date: " + quotedName(names[dateAt]), "date_form: " + form}
	if slices.Contains(names, "station") {
		lines = append(lines, "station: station")
	}
	lines = append(lines, "columns:")
	for _, name := range names {
		c, ok := weather.ColumnByKey(name)
		if !ok {
			continue
		}
		for key, col := range declaredKeys {
			if col == c {
				lines = append(lines, fmt.Sprintf("  %s: {column: %s, unit: %s}", key, quotedName(name), quotedName(declaredUnitOf(c))))
			}
		}
	}
	return strings.Join(lines, "\n")
}

// declaredUnitOf is the word in a layout file for the unit of a column of the
// own layout.
func declaredUnitOf(c weather.Column) string {
	first, _, _ := strings.Cut(strings.ReplaceAll(declaredUnits(c), " or ", ", "), ", ")
	return first
}

// foreignDates reports one error for a table in the own layout with dates in
// another form. It checks the first row only.
func (r *reading) foreignDates(names []string, dateAt int) *diag.Error {
	h := newLead(r.scan)
	for _, line := range h.lines {
		if blank(line) {
			continue
		}
		row := cutLine(line, ',')
		if len(row) <= dateAt {
			return nil
		}
		text := row[dateAt].text
		if _, ok := isoDate(text); ok {
			return nil
		}
		form := formOf(text)
		if form == "" {
			return nil
		}
		form = settleForm(h.lines, dateAt, form)
		e := &diag.Error{Code: diag.NotADate,
			Pos: diag.Pos{File: r.scan.name, Line: r.header + 1, Col: row[dateAt].col},
			Msg: fmt.Sprintf("dates are written as %q, not as 2012-06-30", clip(text)),
			Fix: "rewrite them in the spreadsheet (format YYYY-MM-DD), or describe the file in a layout file, map.yaml, and name it: " +
				"--layout-file map.yaml, or layout_file: map.yaml under weather; map.yaml for this file, if day and month are in this order:",
		}
		return e.Suggest(diag.NewFile, declareOwn(names, dateAt, form))
	}
	return nil
}

// settleForm puts the day first if some row at the file's start has no such month.
func settleForm(lines [][]byte, dateAt int, form string) string {
	dayFirst := strings.Replace(strings.Replace(strings.Replace(form, "MM", "??", 1), "DD", "MM", 1), "??", "DD", 1)
	if !strings.HasPrefix(form, "MM") {
		return form
	}
	month, err1 := parseDateForm(form)
	day, err2 := parseDateForm(dayFirst)
	if err1 != nil || err2 != nil {
		return form
	}
	for _, line := range lines {
		row := cutLine(line, ',')
		if len(row) <= dateAt {
			continue
		}
		_, isMonth := month.read(row[dateAt].text)
		_, isDay := day.read(row[dateAt].text)
		if isDay && !isMonth {
			return dayFirst
		}
	}
	return form
}
