// Package prepare takes a station's record, as read, through the steps that
// make it fit to drive a replay: the dates wanted, the checks, the rain of a
// nearer gauge, the filling of gaps and the reference ET. Every step reports.
package prepare

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
	"loamledger/weather/fill"
	"loamledger/weather/quality"
)

// Options says how a record is made ready. The zero value uses the whole
// record and the published defaults.
type Options struct {
	From, To cal.Date        // first and last day to use; 0 leaves that end where the record has it
	Gauge    *weather.Record // a nearer rain gauge whose rain replaces the station's; nil for none
	Fill     fill.Options
	ET       et0.Options
}

// A Ready record has no gap in Tmax, Tmin, rain and reference ET.
type Ready struct {
	*weather.Record
	ET         et0.Result
	FilledDays int // days on which Tmax, Tmin or rain was put in
}

// Record makes rec ready. rec is changed: values are dropped and filled, each
// with a finding. Faults of the record are a [*diag.Errors].
func Record(rec *weather.Record, o Options) (*Ready, error) {
	if err := cut(rec, o); err != nil {
		return nil, err
	}
	rec.Findings = append(rec.Findings, quality.Check(rec)...)
	if o.Gauge != nil {
		useGauge(rec, o.Gauge)
	}
	found, err := fill.Fill(&rec.Series, o.Fill)
	if err != nil {
		return nil, inFile(rec, err)
	}
	rec.Findings = append(rec.Findings, found...)
	r := &Ready{Record: rec}
	if r.ET, err = et0.Daily(&rec.Series, o.ET); err != nil {
		return nil, inFile(rec, err)
	}
	rec.Findings = append(rec.Findings, r.ET.Findings...)
	if r.ET.Missing > 0 {
		for i, v := range r.ET.EToMM {
			if math.IsNaN(v) {
				return nil, fault(rec, "give columns from which it can be computed, or start or end the record where they are whole",
					"reference ET can be neither read nor computed on %d days, first on %v", r.ET.Missing, rec.Date(i))
			}
		}
	}
	for i := range rec.Days {
		for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain} {
			if rec.Mark[c][i].Filled() && rec.Mark[c][i] != weather.Invented {
				r.FilledDays++
				break
			}
		}
	}
	return r, nil
}

// inFile makes a fault of the record out of err, so that it is told with the
// file's name and ends the command as a fault of input.
func inFile(rec *weather.Record, err error) error {
	var l diag.List
	var add func(error)
	add = func(err error) {
		if joined, ok := err.(interface{ Unwrap() []error }); ok {
			for _, e := range joined.Unwrap() {
				add(e)
			}
			return
		}
		msg, fix := err.Error(), ""
		switch e := err.(type) {
		case *et0.NeedError:
			msg, fix = e.Msg, e.Fix
		case *fill.GapError:
			msg, fix = fmt.Sprintf("%s is missing on %d days, first from %v to %v, and cannot be filled: %s", e.Column.Label(), e.Days, e.From, e.To, e.Why), e.Fix()
		case *fill.YearsError:
			for _, y := range e.Years {
				l.Add(diag.Pos{File: rec.File}, e.Fix(), "%d lacks highest or lowest temperature or rain on %d days, up to %d in a row (from %v); at most %d days of a year and %d in a row are filled",
					y.Year, y.Days, y.LongestRun, y.RunFrom, e.MaxDaysInYear, e.MaxRunDays)
			}
			return
		}
		l.Add(diag.Pos{File: rec.File}, fix, "%s", msg)
	}
	add(err)
	return l.Err()
}

func fault(rec *weather.Record, fix, format string, args ...any) error {
	var l diag.List
	l.Add(diag.Pos{File: rec.File}, fix, format, args...)
	return l.Err()
}
