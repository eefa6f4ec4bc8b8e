package prepare

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/fill"
	"loamledger/weather/quantity"
)

// listedYears is how many rejected years are named individually.
const listedYears = 6

// years lists the years with more missing days than may be filled, and says
// which part of the record is usable.
func years(rec *weather.Record, e *fill.YearsError) (msg, fix string) {
	var b strings.Builder
	fmt.Fprintf(&b, "%s highest or lowest temperature or rain on more days than may be filled (%d in a year, %d in a row): ",
		quantity.Count(len(e.Years), "year lacks", "years lack"), e.MaxDaysInYear, e.MaxRunDays)
	for i, y := range e.Years {
		if i == listedYears {
			fmt.Fprintf(&b, " and %d more", len(e.Years)-i)
			break
		}
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "%d (%d days, %d in a row from %v)", y.Year, y.Days, y.LongestRun, y.RunFrom)
	}
	fix = "raise the limits if the fills are good enough (max_fill_days and max_fill_run; --max-fill-days and --max-fill-run), add a " +
		"second station to fill from (" + byDonor + "), or exclude those years (exclude_years; --exclude-year)"
	if from, to, ok := longestWhole(rec, e); ok {
		fix = fmt.Sprintf("use the record from %v to %v ("+byDates+"), its longest part without such a year; or %s", from, to, fix)
	}
	return b.String(), fix
}

// longestWhole returns the longest part of the record without a rejected year.
func longestWhole(rec *weather.Record, e *fill.YearsError) (from, to cal.Date, ok bool) {
	start := rec.Start
	consider := func(a, b cal.Date) {
		if b >= a && (!ok || b-a > to-from) {
			from, to, ok = a, b, true
		}
	}
	for _, y := range e.Years {
		consider(start, cal.Of(y.Year, 1, 1)-1)
		start = max(start, cal.Of(y.Year+1, 1, 1))
	}
	consider(start, rec.End())
	return from, to, ok && to-from >= 30
}
