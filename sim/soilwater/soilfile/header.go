package soilfile

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loamledger/weather/diag"
)

// referenceDepths are the depths of the reference network [cm].
var referenceDepths = [...]int{5, 10, 20, 50, 100}

// header reads the first line.
func (t *table) header() error {
	if !t.next() {
		if t.faults.Len() == 0 && t.in.Err() == nil {
			t.fault(diag.EmptyFile, 0, `the header is date and a column for each sensor, such as "date,10 cm [m3/m3]"`, "the file is empty")
		}
		if err := t.in.Err(); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
		return t.faults.Err()
	}
	fields := strings.Fields(t.text)
	switch {
	case strings.HasPrefix(strings.ToUpper(t.text), "WBANNO"):
		t.blanks = !strings.Contains(t.text, ",")
		t.reference(t.split())
	case len(fields) == 28 && len(fields[1]) == 8 && len(fields[11]) == 1:
		t.blanks, t.again = true, true
		t.fixed()
	default:
		t.own(t.split())
	}
	return t.faults.Err()
}

// reference finds the columns of the reference network by name.
func (t *table) reference(names []string) {
	t.layout, t.cells = ReferenceLayout, len(names)
	find := func(name string) int {
		return slices.IndexFunc(names, func(s string) bool { return strings.EqualFold(s, name) })
	}
	if t.date = find("LST_DATE"); t.date < 0 {
		t.fault(diag.MissingColumn, 0, "use the daily file as published", "missing column LST_DATE")
	}
	for _, cm := range referenceDepths {
		if at := find(fmt.Sprintf("SOIL_MOISTURE_%d_DAILY", cm)); at >= 0 {
			t.add(at, names[at], float64(cm)/100, share)
		}
	}
	if at := find("SOIL_TEMP_10_DAILY"); at >= 0 {
		t.add(at, names[at], 0.10, celsius)
	}
	t.some()
}

// fixed sets the columns of the reference network as published, without a header.
func (t *table) fixed() {
	t.layout, t.cells, t.date = ReferenceLayout, 28, 1
	for i, cm := range referenceDepths {
		t.add(18+i, fmt.Sprintf("SOIL_MOISTURE_%d_DAILY", cm), float64(cm)/100, share)
	}
	t.add(24, "SOIL_TEMP_10_DAILY", 0.10, celsius)
}

func (t *table) add(at int, name string, depthM float64, k kind) {
	t.column = append(t.column, column{at: at, name: name, depthM: depthM, kind: k, low: math.Inf(1), high: math.Inf(-1)})
}

// some rejects a file without water content.
func (t *table) some() {
	if t.faults.Len() == 0 && !slices.ContainsFunc(t.column, func(c column) bool { return c.kind <= percent }) {
		t.fault(diag.MissingColumn, 0, `add a column for each sensor, such as "10 cm [m3/m3]" or "10 cm [%]"`, "no column has water content")
	}
}

// own reads the headings of a file with a column for each sensor.
func (t *table) own(names []string) {
	t.layout, t.cells, t.date, t.iso = OwnLayout, len(names), -1, true
	for at, name := range names {
		if strings.EqualFold(name, "date") {
			if t.date >= 0 {
				t.fault(diag.Duplicate, at, "keep one of the two", "duplicate column date")
			}
			t.date = at
			continue
		}
		t.heading(at, name)
	}
	if t.date < 0 {
		t.fault(diag.MissingColumn, 0, `name the column of dates "date"`, "missing column date")
	}
	if len(t.column) > mostSensor {
		t.fault(diag.TooLarge, 0, "give the sensors of one zone", "more than %d sensors", mostSensor)
	}
	t.some()
}

// heading reads a depth, a name that is optional, and the unit of the values.
func (t *table) heading(at int, text string) {
	const form = `write a depth and the unit of the values, such as "10 cm [m3/m3]", "10 cm north [%]" or "10 cm [C]"`
	open, end := strings.IndexByte(text, '['), strings.LastIndexByte(text, ']')
	if open < 0 || end < open {
		t.fault(diag.UnknownUnit, at, form, "column %q does not state the unit of its values", text)
		return
	}
	words := strings.Fields(text[:open])
	depth, ok := depthOf(words)
	if !ok {
		t.fault(diag.UnknownKey, at, form, "column %q does not begin with a depth", text)
		return
	}
	if !(depth > 0 && depth <= 5) {
		t.fault(diag.OutOfRange, at, form, "column %q: the depth is not above 0 and up to 5 m", text)
		return
	}
	switch unit := strings.ToLower(strings.TrimSpace(text[open+1 : end])); unit {
	case "m3/m3", "m³/m³", "cm3/cm3":
		t.add(at, text, depth, share)
	case "%", "vol %", "vol%":
		t.add(at, text, depth, percent)
	case "c", "°c", "f", "°f":
		t.temperature(at, text, depth, strings.HasSuffix(unit, "f"))
	case "kpa", "cbar", "cb", "bar", "hpa", "mpa", "pf":
		t.fault(diag.Unsupported, at, "give volumetric water content, m3/m3 or %",
			"column %q has tensions, which need the retention curve of this soil; a curve from a table would be a guess", text)
	default:
		t.fault(diag.UnknownUnit, at, "use m3/m3 or % for water content, C or F for temperature", "column %q: unknown unit %q", text, unit)
	}
}

// temperature takes the soil temperature nearest to 10 cm.
func (t *table) temperature(at int, text string, depth float64, fahrenheit bool) {
	k := celsius
	if fahrenheit {
		k = degreesF
	}
	for i := range t.column {
		if c := &t.column[i]; c.kind >= celsius {
			if math.Abs(depth-0.10) < math.Abs(c.depthM-0.10) {
				*c = column{at: at, name: text, depthM: depth, kind: k, low: math.Inf(1), high: math.Inf(-1)}
			}
			return
		}
	}
	t.add(at, text, depth, k)
}

// depthOf reads a depth such as "10 cm" or "4in" from the first words [m].
func depthOf(words []string) (m float64, ok bool) {
	if len(words) == 0 {
		return 0, false
	}
	number := strings.TrimRight(words[0], "cminftCMINFT")
	unit := words[0][len(number):]
	if unit == "" && len(words) > 1 {
		unit = words[1]
	}
	v, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(v) {
		return 0, false
	}
	// Depths are rounded to a tenth of a millimeter, so that 2 in and 5.08 cm agree.
	for _, u := range [...]struct {
		name string
		m    float64
	}{{"cm", 0.01}, {"mm", 0.001}, {"m", 1}, {"in", 0.0254}, {"ft", 0.3048}} {
		if strings.EqualFold(unit, u.name) {
			return math.Round(v*u.m*1e4) / 1e4, true
		}
	}
	return 0, false
}
