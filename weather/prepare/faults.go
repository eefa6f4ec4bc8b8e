package prepare

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
	"loamledger/weather/fill"
	"loamledger/weather/quantity"
)

// The ways out, by the key under weather in a scenario and by the flag.
const (
	byDates = "from and to; --from and --to"
	byDonor = "fill_files; --fill"
	byGauge = "rain_file; --rain"
)

// needed is what a replay cannot do without.
var needed = [...]weather.Column{weather.Tmax, weather.Tmin, weather.Rain}

// A lackError says that a record has not one value of columns that a replay
// cannot do without, nor has any file beside it.
type lackError struct {
	columns []weather.Column
	has     []string // the columns that it has
	gauge   string   // file of the rain gauge, which has none of these days; empty for none
	donor   string   // file of the second station, which lacks them, too; empty for none
}

// lacking returns the columns without any value, or nil.
func lacking(rec *weather.Record, o Options) *lackError {
	e := &lackError{}
	for _, c := range needed {
		if none := !rec.Has(c) || rec.CountMissing(c) == rec.Days; none && !slices.ContainsFunc(o.Donors, func(d *weather.Record) bool { return d.Has(c) }) {
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
	text := "the record has no usable value of " + strings.Join(words, ", ") + ", which a replay needs"
	if len(e.has) > 0 {
		text += "; it has " + strings.Join(e.has, ", ")
	}
	if e.gauge != "" && slices.Contains(e.columns, weather.Rain) {
		text += "; the rain file " + e.gauge + " has none on its days"
	}
	if e.donor != "" {
		text += "; the second station " + e.donor + " lacks it, too"
	}
	return text
}

// fix says which file could supply what is lacking.
func (e *lackError) fix() string {
	more := "name another file of the station that has it beside this one (file: [a.csv, b.csv]; both on the command line)"
	if !e.temperature() {
		return "name the file of a rain gauge (" + byGauge + "), or " + more
	}
	return more + ", or a second station that has it (" + byDonor + ")"
}

// manyDropped is how many values have to be dropped by one rule to be told with
// a refusal.
const manyDropped = 10

// dropping tells which values of the columns needed were dropped as impossible,
// so many that a record may be refused for it, and what to do about that.
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
				fix = "put the names of the two temperature columns the right way round"
			}
		case temperature && unit != "":
			text += ", " + unit
			fix = "convert the temperatures to °C, or declare the file's columns with unit: F (declared: map.yaml; --declared map.yaml)"
		case fix == "":
			fix = "check the unit of " + f.Column
		}
	}
	return text, fix
}

// inFile makes a fault of the record out of err, so that it is told with the
// file's name and ends the command as a fault of input.
func inFile(rec *weather.Record, err error) error {
	var l diag.List
	why, first := dropping(rec)
	// The first fault that follows from dropped values tells of them.
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
		switch e := err.(type) {
		case *lackError:
			code = diag.MissingColumn
			msg, fix = because(e.Error(), e.fix())
		case *et0.NeedError:
			code, msg, fix = e.Code, e.Msg, e.Fix
		case *fill.GapError:
			code = diag.GapTooLong
			msg = fmt.Sprintf("%s is missing on %d days, first from %v to %v, and cannot be filled: %s", e.Column.Label(), e.Days, e.From, e.To, e.Why)
			msg, fix = because(msg, "give a second station that has these days ("+byDonor+"), or start or end the record where it is whole ("+byDates+")")
		case *fill.YearsError:
			code = diag.TooManyGaps
			msg, fix = because(years(rec, e))
		}
		l.Add(code, diag.Pos{File: rec.File}, fix, "%s", msg)
	}
	add(err)
	return l.Err()
}
