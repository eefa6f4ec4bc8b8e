// Package weather holds a station's daily record as columns, checks it, fills
// what may be filled and counts every change.
//
// # Units
//
// °C, mm, %, kPa, MJ m⁻² d⁻¹, m/s, h: see [Column]. Readers convert; nothing
// past them does.
//
// # Promises
//
// NaN means unknown, and only in this package: a record handed on for a replay
// has none in the columns that the replay needs. Every value that was not
// observed carries a [Mark], and nothing is changed without a [Finding].
package weather

import (
	"math"

	"loamledger/weather/cal"
)

// A Mark says where a value came from.
type Mark uint8

// The origins of a value. Observed is the zero Mark.
const (
	Observed     Mark = iota // as the file gives it, unit converted
	Missing                  // no value: NaN
	Trace                    // rain too small to measure, booked as 0
	Presumed                 // rain presumed zero by the archive
	Interpolated             // drawn between neighbouring days
	Donated                  // from a second station
	StandIn                  // from other columns of the same day by a published rule
	Climatology              // mean of the same day of the year in other years
	Invented                 // from a generator
	Forecast                 // foretold, for a day that had not come
	Earlier                  // put in by an earlier run; the file does not say by which rule
	Marks                    // how many marks there are
)

var markNames = [Marks]string{"observed", "missing", "trace", "presumed zero", "interpolated", "second station", "stand-in", "day-of-year mean", "invented", "forecast", "filled by an earlier run"}

func (m Mark) String() string { return markNames[m] }

// Filled reports whether the value was put in by loamledger rather than read.
func (m Mark) Filled() bool { return m >= Interpolated }

// A Station is where a record was taken. Unknown numbers are NaN.
type Station struct {
	ID, Name    string
	LatDeg      float64 // decimal degrees, south negative
	LonDeg      float64 // decimal degrees, west negative
	ElevM       float64 // [m]
	WindHeightM float64 // height of the anemometer above ground [m]
}

// UnknownStation returns a Station with every number unknown.
func UnknownStation() Station {
	nan := math.NaN()
	return Station{LatDeg: nan, LonDeg: nan, ElevM: nan, WindHeightM: nan}
}

// A Series is one station's days in columns, without holes in the dates: a day
// that the file lacks is a day of NaN. A column that the file lacks is nil.
type Series struct {
	Station Station
	Start   cal.Date
	Data    [Columns][]float64
	Mark    [Columns][]Mark // same lengths as Data; nil where Data is nil
	Days    int             // number of days
}

// NewSeries returns a Series of n days from start whose given columns exist and
// are wholly missing.
func NewSeries(st Station, start cal.Date, n int, cols ...Column) *Series {
	s := &Series{Station: st, Start: start, Days: n}
	for _, c := range cols {
		s.Add(c)
	}
	return s
}

// Add makes column c exist, wholly missing, if it does not yet.
func (s *Series) Add(c Column) {
	if s.Data[c] != nil {
		return
	}
	s.Data[c], s.Mark[c] = make([]float64, s.Days), make([]Mark, s.Days)
	for i := range s.Data[c] {
		s.Data[c][i], s.Mark[c][i] = math.NaN(), Missing
	}
}

// Has reports whether column c exists, if only with missing values.
func (s *Series) Has(c Column) bool { return s.Data[c] != nil }

// At returns the value of c on day i, NaN where it is missing or the column
// does not exist.
func (s *Series) At(c Column, i int) float64 {
	if s.Data[c] == nil {
		return math.NaN()
	}
	return s.Data[c][i]
}

// Set puts v on day i of column c, which must exist.
func (s *Series) Set(c Column, i int, v float64, m Mark) {
	s.Data[c][i], s.Mark[c][i] = v, m
}

// Date returns the date of day i.
func (s *Series) Date(i int) cal.Date { return s.Start + cal.Date(i) }

// End returns the last date.
func (s *Series) End() cal.Date { return s.Start + cal.Date(s.Days) - 1 }

// CountMissing returns how many days lack column c.
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

// CountMark returns how many days of column c carry mark m.
func (s *Series) CountMark(c Column, m Mark) int {
	n := 0
	for _, got := range s.Mark[c] {
		if got == m {
			n++
		}
	}
	return n
}
