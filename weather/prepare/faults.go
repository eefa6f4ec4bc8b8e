package prepare

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
	"loamledger/weather/fill"
	"loamledger/weather/quantity"
)

// The remedies, by the key under weather in a scenario and by flag.
const (
	byDates = "from and to; --from and --to"
	byDonor = "fill_files; --fill"
	byGauge = "rain_file; --rain"
)

// needed lists the columns required for a replay; temperatures only if ETo is not
// supplied on every day.
var needed = [...]weather.Column{weather.Tmax, weather.Tmin, weather.Rain}

// unread returns the columns of temperature for which rec, as read, has no value.
func unread(rec *weather.Record) (out []weather.Column) {
	for _, c := range [...]weather.Column{weather.Tmax, weather.Tmin} {
		if rec.CountMissing(c) == rec.Days {
			out = append(out, c)
		}
	}
	return out
}

// A lackError says that a record and the files added to it have no value in
// columns required for a replay.
type lackError struct {
	columns []weather.Column
	partETo int      // days without supplied ETo, if others have it
	has     []string // the columns with values
	gauge   string   // file of the rain gauge, which has none of these days; empty for none
	donor   string   // file of the second station, which also lacks them; empty for none
}

// lacking returns an error that names the columns without any value, or nil.
func lacking(rec *weather.Record, o Options) *lackError {
	e := &lackError{}
	for _, c := range needed {
		if slices.Contains(o.Fill.Without, c) {
			continue
		}
		if none := !rec.Has(c) || rec.CountMissing(c) == rec.Days; none && !slices.ContainsFunc(o.Donors,
			func(d *weather.Record) bool { return d.Has(c) }) {
			e.columns = append(e.columns, c)
		}
	}
	if len(e.columns) == 0 {
		return nil
	}
	for c := range weather.Columns {
		if rec.Has(c) && rec.CountMissing(c) < rec.Days {
			e.has = append(e.has, c.Key())
		}
	}
	if n := rec.CountMissing(weather.ETo); n < rec.Days && !o.ET.IgnoreSupplied {
		e.partETo = n
	}
	if o.Gauge != nil {
		e.gauge = o.Gauge.File
	}
	if len(o.Donors) > 0 {
		e.donor = o.Donors[0].File
	}
	return e
}

func (e *lackError) temperature() bool {
	return slices.ContainsFunc(e.columns, func(c weather.Column) bool { return c != weather.Rain })
}

func (e *lackError) Error() string {
	words := make([]string, len(e.columns))
	for i, c := range e.columns {
		words[i] = c.Label() + " (" + c.Key() + ")"
	}
	text := "the record has no usable value of " + strings.Join(words, ", ") + ", which a replay requires"
	if len(e.has) > 0 {
		text += "; it has " + strings.Join(e.has, ", ")
	}
	if e.gauge != "" && slices.Contains(e.columns, weather.Rain) {
		text += "; the rain file " + e.gauge + " has none on its days"
	}
	if e.donor != "" {
		text += "; nor does the second station " + e.donor
	}
	return text
}

// fix says which file could supply the missing columns.
func (e *lackError) fix() string {
	more := "add another file of the station that has it (file: [a.csv, b.csv]; both on the command line)"
	if !e.temperature() {
		return "name the file of a rain gauge (" + byGauge + "), or " + more
	}
	more += ", or a second station that has it (" + byDonor + ")"
	if e.partETo > 0 && !slices.Contains(e.columns, weather.Rain) {
		more += fmt.Sprintf("; or supply eto_mm on every day, which is missing on %s: temperatures are then not needed",
			quantity.Count(e.partETo, "day", "days"))
	}
	return more
}

// manyDropped is how many values one rule must drop for an error to mention it.
const manyDropped = 10

// dropping describes rules that dropped so many required values as impossible
// that the record may be unusable because of it, and what to do.
func dropping(rec *weather.Record) (text, fix string) {
	unit := ""
	for _, f := range rec.Findings {
		if f.Code == weather.CodeTemperatureUnit {
			unit = "as if °F were read as °C"
		}
	}
	for _, f := range rec.Findings {
		temperature := f.Column == weather.Tmax.Key() || f.Column == weather.Tmin.Key()
		if f.Count < manyDropped || f.Code.Outcome() != weather.Dropped || !temperature && f.Column != weather.Rain.Key() {
			continue
		}
		text += fmt.Sprintf("; %s values of %s were dropped as impossible: %s (%s)", quantity.Whole(f.Count), f.Column, f.What, f.Detail)
		switch {
		case f.Code == weather.CodeTmaxBelowTmin:
			if f.Suspect == weather.ColumnsSwapped {
				fix = "swap the names of the two temperature columns"
			}
		case temperature && unit != "":
			text += ", " + unit
			fix = "convert the temperatures to °C, or describe the columns with unit: F in a layout file (layout_file: map.yaml; --layout-file " +
				"map.yaml)"
		case fix == "":
			fix = "check the unit of " + f.Column
		}
	}
	return text, fix
}

// placeOf returns the line of a date or, if it has no row, of the last date
// before it that has one.
func placeOf(rec *weather.Record, d cal.Date) diag.Pos {
	for first := d - 366; d > first; d-- {
		if file, line := rec.Row(d); line > 0 {
			return diag.Pos{File: file, Line: line}
		}
	}
	return diag.Pos{File: rec.File}
}

// inFile turns err into an input error with the name of the record's file.
func inFile(rec *weather.Record, err error) error {
	var l diag.List
	why, first := dropping(rec)
	// The first error caused by dropped values mentions them.
	because := func(msg, fix string) (string, string) {
		msg += why
		if first != "" {
			fix = first // the cause is known
		}
		why, first = "", ""
		return msg, fix
	}
	var add func(error)
	add = func(err error) {
		if joined, ok := err.(interface{ Unwrap() []error }); ok {
			for _, e := range joined.Unwrap() {
				add(e)
			}
			return
		}
		code, msg, fix := diag.BadRecord, err.Error(), ""
		pos := diag.Pos{File: rec.File}
		switch e := err.(type) {
		case *lackError:
			code = diag.MissingColumn
			msg, fix = because(e.Error(), e.fix())
		case *et0.NeedError:
			code, msg, fix = e.Code, e.Msg, e.Fix
		case *fill.GapError:
			code, pos = diag.GapTooLong, placeOf(rec, e.From)
			msg, fix = because(e.What(), "add a second station that has these days ("+byDonor+"), or choose start and end dates without the gap ("+
				byDates+")")
		case *fill.YearsError:
			code, pos = diag.TooManyGaps, placeOf(rec, e.Years[0].RunFrom)
			msg, fix = because(years(rec, e))
		}
		l.Add(code, pos, fix, "%s", msg)
	}
	add(err)
	return l.Err()
}
