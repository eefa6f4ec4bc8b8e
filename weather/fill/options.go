package fill

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// Options says how gaps are closed and where filling ends. The zero value
// interpolates up to 3 days of temperature, knows no second station, falls
// back on the day of the year, and refuses a year with more than 30 days
// filled or more than 10 in a row.
type Options struct {
	// TempGapDays is the longest temperature gap that is interpolated [d];
	// 0 means 3, below 0 none.
	TempGapDays int

	// Donor is a second station's record, read and checked like the first; it
	// need not cover the same days. Nil means none.
	Donor *weather.Series

	// NoClimatology leaves what the first two rules cannot fill, which then is
	// an error.
	NoClimatology bool

	// MaxDaysInYear is how many days of a calendar year may lack Tmax, Tmin or
	// rain before the year is refused [d]; 0 means 30, below 0 none at all.
	MaxDaysInYear int

	// MaxRunDays is how many such days may follow each other [d]; 0 means 10,
	// below 0 none at all.
	MaxRunDays int

	// Exclude lists years that the caller will leave out of every result. They
	// are filled without limit, so that the balance can step through them.
	Exclude []int
}

func (o Options) withDefaults() Options {
	set := func(v *int, standard int) {
		if *v == 0 {
			*v = standard
		}
		*v = max(0, *v)
	}
	set(&o.TempGapDays, 3)
	set(&o.MaxDaysInYear, 30)
	set(&o.MaxRunDays, 10)
	return o
}

// A YearGap is a year with more missing than may be filled.
type YearGap struct {
	Year       int
	Days       int // days of the year that lack Tmax, Tmin or rain
	LongestRun int // the longest run of such days that touches the year [d]
	RunFrom    cal.Date
}

// A YearsError lists every year that has more missing than may be filled.
type YearsError struct {
	Years         []YearGap // in order
	MaxDaysInYear int
	MaxRunDays    int
}

func (e *YearsError) Error() string {
	var b strings.Builder
	for _, y := range e.Years {
		fmt.Fprintf(&b, "%d lacks Tmax, Tmin or rain on %d days, up to %d in a row (from %v); at most %d days and %d in a row are filled\n", y.Year, y.Days, y.LongestRun, y.RunFrom, e.MaxDaysInYear, e.MaxRunDays)
	}
	b.WriteString("\tfix: " + e.Fix())
	return b.String()
}

// Fix says what to do about the years.
func (e *YearsError) Fix() string {
	years := make([]string, len(e.Years))
	for i, y := range e.Years {
		years[i] = fmt.Sprint(y.Year)
	}
	return "leave out " + strings.Join(years, ", ") + ", start or end the record elsewhere, or raise the limits if the filled days are good enough"
}

// A GapError is a gap that no rule can close.
type GapError struct {
	Column   weather.Column
	From, To cal.Date // first such gap
	Days     int      // days of the column that stay missing
	Why      string
}

func (e *GapError) Error() string {
	return fmt.Sprintf("%s is missing on %d days, first from %v to %v, and cannot be filled: %s\n\tfix: %s", e.Column.Label(), e.Days, e.From, e.To, e.Why, e.Fix())
}

// Fix says what to do about the gap.
func (e *GapError) Fix() string {
	return "give a second station that has these days, or start or end the record where it is whole"
}
