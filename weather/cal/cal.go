// Package cal counts days. A [Date] has no clock and no time zone, so daylight
// saving time cannot drop or repeat a day. The number equals Parquet's DATE.
package cal

import (
	"errors"
	"time"
)

// A Date is a day of the proleptic Gregorian calendar, counted from
// 1970-01-01 = 0. Dates compare and subtract as numbers.
type Date int32

const secondsPerDay = 24 * 60 * 60

// errDate is what [Parse] returns for any text that is not a calendar day.
var errDate = errors.New("not a calendar day of the form 2012-06-30")

// Of returns the date of day d of month m in year y. Days and months out of
// range roll over as in [time.Date]; use [Valid] to reject them.
func Of(y, m, d int) Date {
	m--
	y, m = y+floor(m, 12), m-12*floor(m, 12)
	// A year that begins in March has its leap day at its end.
	if m -= 2; m < 0 {
		y, m = y-1, m+12
	}
	era := floor(y, 400)
	inEra := y - 400*era
	return Date(eraDays*era + 365*inEra + inEra/4 - inEra/100 + (153*m+2)/5 + d - 1 - beforeEpoch)
}

// Days of 400 years, and from 1 March of the year 0 to 1970-01-01.
const (
	eraDays     = 146097
	beforeEpoch = 719468
)

// floor returns the largest whole number that is at most a/b; b is above 0.
func floor(a, b int) int {
	if a < 0 {
		return -((b - 1 - a) / b)
	}
	return a / b
}

// Valid reports whether y, m, d are a calendar day in the years 1 to 9999.
func Valid(y, m, d int) bool {
	if y < 1 || y > 9999 || m < 1 || m > 12 || d < 1 || d > 31 {
		return false
	}
	_, mm, dd := Of(y, m, d).YMD()
	return mm == m && dd == d
}

// OfYearDay returns day doy (from 1) of year y.
func OfYearDay(y, doy int) Date { return Of(y, 1, 1) + Date(doy-1) }

// Parse reads an ISO 8601 day such as 2012-06-30, in the years 1 to 9999.
func Parse(s string) (Date, error) {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return 0, errDate
	}
	y, ok1 := digits(s[:4])
	m, ok2 := digits(s[5:7])
	d, ok3 := digits(s[8:])
	if !ok1 || !ok2 || !ok3 || !Valid(y, m, d) {
		return 0, errDate
	}
	return Of(y, m, d), nil
}

func digits(s string) (n int, ok bool) {
	for i := range len(s) {
		c := s[i]
		if c < '0' || c > '9' {
			return 0, false
		}
		n = 10*n + int(c-'0')
	}
	return n, len(s) > 0
}

// Time returns the first moment of the day, in UTC.
func (d Date) Time() time.Time { return d.time() }

func (d Date) time() time.Time { return time.Unix(int64(d)*secondsPerDay, 0).UTC() }

// YMD returns the year, the month 1 to 12 and the day of the month.
func (d Date) YMD() (y, m, day int) {
	n := int(d) + beforeEpoch
	era := floor(n, eraDays)
	n -= era * eraDays
	inEra := (n - n/1460 + n/36524 - n/(eraDays-1)) / 365
	n -= 365*inEra + inEra/4 - inEra/100 // day of the year that begins in March
	m = (5*n + 2) / 153
	day = n - (153*m+2)/5 + 1
	y = inEra + 400*era
	if m += 3; m > 12 {
		y, m = y+1, m-12
	}
	return y, m, day
}

// Year returns the calendar year.
func (d Date) Year() int { y, _, _ := d.YMD(); return y }

// Month returns the month, 1 to 12.
func (d Date) Month() int { _, m, _ := d.YMD(); return m }

// YearDay returns the day of the year, 1 to 366.
func (d Date) YearDay() int { return int(d-Of(d.Year(), 1, 1)) + 1 }

// Weekday returns the day of the week, 0 for Sunday to 6 for Saturday.
func (d Date) Weekday() int { n := int(d) + thursday; return n - 7*floor(n, 7) }

// thursday is the weekday of 1970-01-01.
const thursday = 4

// String returns the ISO 8601 form, 2012-06-30.
func (d Date) String() string { return d.time().Format("2006-01-02") }

// IsLeap reports whether year y has 366 days.
func IsLeap(y int) bool { return y%4 == 0 && (y%100 != 0 || y%400 == 0) }

// DaysIn returns the number of days in month m of year y.
func DaysIn(y, m int) int { return int(Of(y, m+1, 1) - Of(y, m, 1)) }
