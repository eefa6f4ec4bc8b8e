package fill

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// Options says how gaps are filled and sets the limits. The zero value
// interpolates up to 3 days of temperature, uses no second station, falls back
// on the day of the year, and rejects a year with more than 30 filled days or
// more than 10 in a row.
type Options struct {
	// tempGapDays is the longest temperature gap that is interpolated [d];
	// 0 means 3, below 0 none.
	tempGapDays int

	// Donor is a second station's record, read and checked like the first. It
	// need not cover the same days. Nil means none.
	Donor *weather.Series

	// noClimatology turns the third rule off; gaps that remain are then an error.
	noClimatology bool

	// MaxDaysInYear is the maximum number of days in a calendar year that may
	// be missing Tmax, Tmin or rain [d]; 0 means 30, below 0 none.
	MaxDaysInYear int

	// MaxRunDays is the maximum number of such days in a row [d]; 0 means 10,
	// below 0 none.
	MaxRunDays int

	// Exclude lists years that the caller excludes from all results. They are
	// filled without limit, so that the water balance can run through them.
	Exclude []int

	// Without lists columns of temperature that the replay of this record does
	// without: they are neither filled nor required.
	Without []weather.Column
}

// needed lists the columns that this record must have.
func (o *Options) needed() []weather.Column {
	return slices.DeleteFunc(slices.Clone(needed[:]), func(c weather.Column) bool { return slices.Contains(o.Without, c) })
}

func (o Options) withDefaults() Options {
	set := func(v *int, standard int) {
		if *v == 0 {
			*v = standard
		}
		*v = max(0, *v)
	}
	set(&o.tempGapDays, 3)
	set(&o.MaxDaysInYear, 30)
	set(&o.MaxRunDays, 10)
	return o
}

// A YearGap is a year with more missing days than may be filled.
type YearGap struct {
	Year       int
	Days       int // days with Tmax, Tmin or rain missing
	LongestRun int // the longest run of such days in or across the year [d]
	RunFrom    cal.Date
}

// A YearsError lists every year with more missing days than may be filled.
type YearsError struct {
	Years         []YearGap // in order
	MaxDaysInYear int
	MaxRunDays    int
}

func (e *YearsError) Error() string {
	var b strings.Builder
	for _, y := range e.Years {
		fmt.Fprintf(&b, "%d: Tmax, Tmin or rain missing on %d days, up to %d in a row (from %v); the maximum to fill is %d days, %d in a row\n",
			y.Year, y.Days, y.LongestRun, y.RunFrom, e.MaxDaysInYear, e.MaxRunDays)
	}
	b.WriteString("\tfix: " + e.fix())
	return b.String()
}

// fix says what to do about the years.
func (e *YearsError) fix() string {
	years := make([]string, len(e.Years))
	for i, y := range e.Years {
		years[i] = fmt.Sprint(y.Year)
	}
	return "exclude " + strings.Join(years, ", ") + ", choose other start or end dates, or raise the limits if the fills are good enough"
}

// A GapError is a gap that no rule can fill.
type GapError struct {
	Column   weather.Column
	From, To cal.Date // first such gap
	Days     int      // days that stay missing in the column
	Why      string
}

func (e *GapError) Error() string {
	return e.What() + "\n\tfix: " + e.fix()
}

// What says which days are missing and why they stay so.
func (e *GapError) What() string {
	days := fmt.Sprintf("%d days, first from %v to %v,", e.Days, e.From, e.To)
	switch {
	case e.Days == 1:
		days = "1 day, " + e.From.String() + ","
	case e.From == e.To:
		days = fmt.Sprintf("%d days, first on %v,", e.Days, e.From)
	}
	return e.Column.Label() + " is missing on " + days + " and cannot be filled: " + e.Why
}

// fix says what to do about the gap.
func (e *GapError) fix() string {
	return "add a second station that has these days, or choose start and end dates without the gap"
}
