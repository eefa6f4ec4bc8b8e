// Package prepare makes a station's record ready for a replay. It selects the
// dates, runs the checks, uses rain from a nearer gauge, fills gaps and
// computes reference ET. Every step reports what it changed.
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

// Options says how to prepare a record. The zero value uses the whole record
// and the published defaults.
type Options struct {
	Dates  cal.Period        // days of the record to use
	Gauge  *weather.Record   // a nearer rain gauge, whose rain replaces the station's; nil for none
	Donors []*weather.Record // other stations to fill gaps from, first choice first
	Fill   fill.Options      // its Donor is set from the field above, its Without from the record
	ET     et0.Options
	// SelfTest also measures the error of the fill rules by blanking known
	// days; it does not change the record.
	SelfTest bool
}

// selfTestSeed selects the days that the self-test blanks; any number works.
const selfTestSeed = 1

// A Ready record has no gaps in Tmax, Tmin, rain and reference ET. If ETo is
// supplied on every day, a column of temperature without any value is nil.
type Ready struct {
	*weather.Record
	ET         et0.Result
	FilledDays int // days with a filled value of Tmax, Tmin or rain

	Snow quality.Snow // the part of the rain that probably fell as snow

	SyntheticDays int                  // days with a value from the weather generator
	Missing       [weather.Columns]int // days without a value before filling, for columns that exist
	SelfTest      []fill.ColumnError   // empty unless requested
}

// Record makes rec ready. rec is changed: values are dropped and filled, each
// with a finding. Errors in the record are reported together as a
// [*diag.Errors]; the partial result returned with them is for display only,
// not for a replay.
func Record(rec *weather.Record, o Options) (*Ready, error) {
	r := &Ready{Record: rec}
	if err := cut(rec, o); err != nil {
		return r, err
	}
	if err := allExcluded(rec, o.Fill.Exclude); err != nil {
		return r, err
	}
	without := unread(rec) // values dropped by the checks are not absent: their rule is told
	found, computed := quality.CheckKept(rec)
	rec.Findings = append(rec.Findings, found...)
	if donor := chain(rec, o.Donors); donor != nil {
		o.Fill.Donor = donor
	}
	if o.Gauge != nil {
		rec.Findings = append(rec.Findings, checked(o.Gauge)...)
		useGauge(rec, o.Gauge)
	}
	if rec.CountMissing(weather.ETo) == 0 && !o.ET.IgnoreSupplied {
		o.Fill.Without = without
		for _, c := range without {
			rec.Data[c], rec.Mark[c] = nil, nil
		}
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
		fillErr = lack // one message for the column instead of one for each year
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
				return r, fault(diag.MissingColumn, rec, "supply columns from which it can be computed, or choose start and end dates where they "+
					"are complete ("+byDates+")",
					"reference ET is neither in the file nor computable on %d days, first on %v", r.ET.Missing, rec.Date(i))
			}
		}
	}
	snow, snowed := quality.SnowOf(&rec.Series)
	r.Snow, rec.Findings = snow, append(rec.Findings, snowed...)
	r.countDays()
	return r, nil
}

// countDays counts the days with filled values and those with synthetic ones.
func (r *Ready) countDays() {
	for i := range r.Days {
		filled, invented := false, false
		for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain} {
			if !r.Has(c) {
				continue
			}
			switch m := r.Mark[c][i]; {
			case m == weather.Synthetic:
				invented = true
			case m.Filled():
				filled = true
			}
		}
		if filled {
			r.FilledDays++
		}
		if invented {
			r.SyntheticDays++
		}
	}
}

// checked checks another station's record by the same rules as the main one and
// adds its file name to the findings.
func checked(other *weather.Record) []weather.Finding {
	found := quality.Check(other)
	for i := range found {
		detail := other.File
		if found[i].Detail != "" {
			detail += ": " + found[i].Detail
		}
		found[i].Detail, found[i].File = detail, other.File
	}
	return found
}

// chain checks the stations used for filling and merges them into one: gaps in
// each are filled from the next. It returns nil if there are none.
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

// allExcluded rejects a record with all its years excluded.
func allExcluded(rec *weather.Record, years []int) error {
	if len(years) == 0 {
		return nil
	}
	for y := rec.Start.Year(); y <= rec.End().Year(); y++ {
		if !slices.Contains(years, y) {
			return nil
		}
	}
	return fault(diag.NoDaysLeft, rec, "keep at least one year", "every year of the record, %d to %d, is excluded", rec.Start.Year(),
		rec.End().Year())
}

func fault(code diag.Code, rec *weather.Record, fix, format string, args ...any) error {
	var l diag.List
	l.Add(code, diag.Pos{File: rec.File}, fix, format, args...)
	return l.Err()
}
