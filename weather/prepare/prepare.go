// Package prepare takes a station's record, as read, through the steps that
// make it fit to drive a replay: the dates wanted, the checks, the rain of a
// nearer gauge, the filling of gaps and the reference ET. Every step reports.
package prepare

import (
	"errors"
	"math"
	"slices"

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
	Dates  cal.Period        // days to use, of those the record has
	Gauge  *weather.Record   // a nearer rain gauge whose rain replaces the station's; nil for none
	Donors []*weather.Record // other stations that gaps are filled from, first choice first
	Fill   fill.Options      // its Donor is set from the field above
	ET     et0.Options
	// SelfTest also tells how far the filling is off, by blanking days that are
	// known; it does not change the record.
	SelfTest bool
}

// selfTestSeed chooses the days that the self-test blanks; any number does.
const selfTestSeed = 1

// A Ready record has no gap in Tmax, Tmin, rain and reference ET.
type Ready struct {
	*weather.Record
	ET         et0.Result
	FilledDays int // days on which Tmax, Tmin or rain was put in

	InventedDays int                  // days with a value from a generator
	Missing      [weather.Columns]int // days without a value before filling, of the columns that exist
	SelfTest     []fill.ColumnError   // empty where not asked for
}

// Record makes rec ready. rec is changed: values are dropped and filled, each
// with a finding. Faults of the record are a [*diag.Errors], all of them at
// once; what was learned up to there is returned beside them, for a person to
// read, and is not fit for a replay.
func Record(rec *weather.Record, o Options) (*Ready, error) {
	r := &Ready{Record: rec}
	if err := cut(rec, o); err != nil {
		return r, err
	}
	if err := allExcluded(rec, o.Fill.Exclude); err != nil {
		return r, err
	}
	found, computed := quality.CheckKept(rec)
	rec.Findings = append(rec.Findings, found...)
	if donor := chain(rec, o.Donors); donor != nil {
		o.Fill.Donor = donor
	}
	if o.Gauge != nil {
		rec.Findings = append(rec.Findings, checked(o.Gauge)...)
		useGauge(rec, o.Gauge)
	}
	for c := range weather.Columns {
		if rec.Has(c) {
			r.Missing[c] = rec.CountMissing(c)
		}
	}
	if o.SelfTest {
		r.SelfTest = fill.SelfTest(&rec.Series, o.Fill, selfTestSeed)
	}
	lack := lacking(rec, o)
	filled, fillErr := fill.Fill(&rec.Series, o.Fill)
	rec.Findings = append(rec.Findings, filled...)
	et, etErr := et0.DailyAfter(&rec.Series, o.ET, computed)
	r.ET = et
	rec.Findings = append(rec.Findings, r.ET.Findings...)
	if lack != nil {
		fillErr = lack // one message for a column, and none for each of its years
		if lack.temperature() {
			etErr = nil
		}
	}
	if err := errors.Join(fillErr, etErr); err != nil {
		return r, inFile(rec, err)
	}
	if r.ET.Missing > 0 {
		for i, v := range r.ET.EToMM {
			if math.IsNaN(v) {
				return r, fault(diag.MissingColumn, rec, "give columns from which it can be computed, or start or end the record where they are whole ("+byDates+")",
					"reference ET can be neither read nor computed on %d days, first on %v", r.ET.Missing, rec.Date(i))
			}
		}
	}
	r.countDays()
	return r, nil
}

// countDays counts the days with values that were put in and those with
// invented ones.
func (r *Ready) countDays() {
	for i := range r.Days {
		filled, invented := false, false
		for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain} {
			switch m := r.Mark[c][i]; {
			case m == weather.Invented:
				invented = true
			case m.Filled():
				filled = true
			}
		}
		if filled {
			r.FilledDays++
		}
		if invented {
			r.InventedDays++
		}
	}
}

// checked holds another station's record against the same rules as the main
// one, and tells what was found with its file.
func checked(other *weather.Record) []weather.Finding {
	found := quality.Check(other)
	for i := range found {
		detail := other.File
		if found[i].Detail != "" {
			detail += ": " + found[i].Detail
		}
		found[i].Detail = detail
	}
	return found
}

// chain checks the stations that gaps are filled from and makes one of them:
// the gaps of each are filled from the next. It returns nil where there is none.
func chain(rec *weather.Record, donors []*weather.Record) *weather.Series {
	for _, d := range donors {
		rec.Findings = append(rec.Findings, checked(d)...)
	}
	for i := len(donors) - 1; i > 0; i-- {
		fill.FromDonor(&donors[i-1].Series, &donors[i].Series)
	}
	if len(donors) == 0 {
		return nil
	}
	return &donors[0].Series
}

// allExcluded refuses a record none of whose years counts.
func allExcluded(rec *weather.Record, years []int) error {
	if len(years) == 0 {
		return nil
	}
	for y := rec.Start.Year(); y <= rec.End().Year(); y++ {
		if !slices.Contains(years, y) {
			return nil
		}
	}
	return fault(diag.NoDaysLeft, rec, "leave at least one year in", "every year of the record, %d to %d, is to be left out", rec.Start.Year(), rec.End().Year())
}

func fault(code diag.Code, rec *weather.Record, fix, format string, args ...any) error {
	var l diag.List
	l.Add(code, diag.Pos{File: rec.File}, fix, format, args...)
	return l.Err()
}
