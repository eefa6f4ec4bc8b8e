// Package weather defines a station's daily record as columns. Its subpackages
// check it, fill gaps and count every change.
//
// # Units
//
// °C, mm, %, kPa, MJ m⁻² d⁻¹, m/s, h: see [Column]. Readers convert; no other
// code does.
//
// # Promises
//
// NaN means unknown. A record that is ready for a replay has no NaN in the
// columns the replay needs. Every value that was not observed has a [Mark], and
// nothing is changed without a [Finding].
package weather

import (
	"math"

	"loamledger/weather/cal"
)

// A Mark says where a value came from.
type Mark uint8

// The origins of a value. Observed is the zero Mark.
const (
	Observed     Mark = iota // from the file, converted to the column's unit
	Missing                  // no value: NaN
	Trace                    // rain too small to measure, counted as 0
	Presumed                 // rain presumed zero by the archive
	Computed                 // reference ET computed from other columns, in a file written by loamledger
	Interpolated             // interpolated between neighboring days
	Donated                  // from a second station
	Substitute               // estimated from other columns of the same day by a published rule
	Climatology              // mean of the same day of the year in other years
	Synthetic                // from the weather generator
	Forecast                 // forecast, for a day after the record
	Earlier                  // filled by an earlier run; the file does not say by which rule
	Marks                    // how many marks there are
)

var markNames = [Marks]string{"observed", "missing", "trace", "presumed zero", "computed", "interpolated", "second station", "substitute",
	"day-of-year mean", "synthetic", "forecast", "filled by an earlier run"}

func (m Mark) String() string { return markNames[m] }

// Filled reports whether the value was filled or made by loamledger, not observed.
func (m Mark) Filled() bool { return m >= Interpolated }

// A Station describes where a record was measured. Unknown numbers are NaN.
type Station struct {
	ID, Name    string
	LatDeg      float64 // decimal degrees, south negative
	LonDeg      float64 // decimal degrees, west negative
	ElevM       float64 // [m]
	UTCOffsetH  float64 // of the time zone that the file states [h]
	WindHeightM float64 // height of the anemometer above ground [m]
}

// UnknownStation returns a Station with every number unknown.
func UnknownStation() Station {
	nan := math.NaN()
	return Station{LatDeg: nan, LonDeg: nan, ElevM: nan, UTCOffsetH: nan, WindHeightM: nan}
}

// A Series holds one station's days in columns, without gaps in the dates: a
// day missing from the file is NaN. A column missing from the file is nil.
type Series struct {
	Station Station
	Start   cal.Date
	Data    [Columns][]float64
	Mark    [Columns][]Mark // same length as Data; nil if Data is nil
	Days    int             // number of days
}

// NewSeries returns a Series of n days from start. The given columns exist, and
// all their values are missing.
func NewSeries(st Station, start cal.Date, n int, cols ...Column) *Series {
	s := &Series{Station: st, Start: start, Days: n}
	for _, c := range cols {
		s.Add(c)
	}
	return s
}

// Add creates column c with all values missing, unless it exists.
func (s *Series) Add(c Column) {
	if s.Data[c] != nil {
		return
	}
	s.Data[c], s.Mark[c] = make([]float64, s.Days), make([]Mark, s.Days)
	for i := range s.Data[c] {
		s.Data[c][i], s.Mark[c][i] = math.NaN(), Missing
	}
}

// Has reports whether column c exists, even if all its values are missing.
func (s *Series) Has(c Column) bool { return s.Data[c] != nil }

// At returns the value of c on day i, NaN if it is missing or the column does
// not exist.
func (s *Series) At(c Column, i int) float64 {
	if s.Data[c] == nil {
		return math.NaN()
	}
	return s.Data[c][i]
}

// Set stores v on day i of column c, which must exist.
func (s *Series) Set(c Column, i int, v float64, m Mark) {
	s.Data[c][i], s.Mark[c][i] = v, m
}

// Date returns the date of day i.
func (s *Series) Date(i int) cal.Date { return s.Start + cal.Date(i) }

// End returns the last date.
func (s *Series) End() cal.Date { return s.Start + cal.Date(s.Days) - 1 }

// CountMissing returns how many days have no value in column c.
func (s *Series) CountMissing(c Column) int {
	if s.Data[c] == nil {
		return s.Days
	}
	n := 0
	for _, v := range s.Data[c] {
		if math.IsNaN(v) {
			n++
		}
	}
	return n
}

// CountMark returns how many days of column c have mark m.
func (s *Series) CountMark(c Column, m Mark) int {
	n := 0
	for _, got := range s.Mark[c] {
		if got == m {
			n++
		}
	}
	return n
}
