package csvfile

import (
	"bytes"

	"loamledger/weather/cal"
)

// The possible years of a daily record. They limit what a typo can make the
// reader allocate; the oldest daily series begin in the 1700s.
const (
	firstYear = 1700
	lastYear  = 2199
)

// ymd makes a date and rejects invalid days.
func ymd(y, m, d int) (cal.Date, bool) {
	if y < firstYear || y > lastYear || m < 1 || m > 12 || d < 1 || d > 31 {
		return 0, false
	}
	if d > 28 && d > cal.DaysIn(y, m) {
		return 0, false
	}
	return cal.Of(y, m, d), true
}

// yearDay makes the date of day doy of year y.
func yearDay(y, doy int) (cal.Date, bool) {
	if y < firstYear || y > lastYear || doy < 1 || doy > 366 || doy == 366 && !cal.IsLeap(y) {
		return 0, false
	}
	return cal.OfYearDay(y, doy), true
}

// isoDate reads 2012-06-30 and 2012/06/30, either of them followed by midnight
// as spreadsheets and web services write it.
func isoDate(b []byte) (cal.Date, bool) {
	if len(b) < 10 || b[4] != b[7] || b[4] != '-' && b[4] != '/' {
		return 0, false
	}
	if len(b) > 10 && !midnight(b[10:]) {
		return 0, false
	}
	y, ok1 := natural(b[:4])
	m, ok2 := natural(b[5:7])
	d, ok3 := natural(b[8:10])
	if !ok1 || !ok2 || !ok3 {
		return 0, false
	}
	return ymd(y, m, d)
}

func midnight(b []byte) bool {
	if b[0] != ' ' && b[0] != 'T' {
		return false
	}
	switch string(b[1:]) {
	case "0:00", "00:00", "00:00:00", "00:00Z", "00:00:00Z":
		return true
	}
	return false
}

// compactDate reads 20120630.
func compactDate(b []byte) (cal.Date, bool) {
	n, ok := natural(b)
	if !ok || len(b) != 8 {
		return 0, false
	}
	return ymd(n/10000, n/100%100, n%100)
}

// threeParts splits 6/30/2012 or 30-06-2012 into its numbers.
func threeParts(b []byte) (n [3]int, ok bool) {
	if i := bytes.IndexByte(b, ' '); i > 0 && midnight(b[i:]) {
		b = b[:i]
	}
	sep := byte('/')
	if bytes.IndexByte(b, sep) < 0 {
		sep = '-'
	}
	for k := range n {
		i := bytes.IndexByte(b, sep)
		if (k < 2) != (i >= 0) {
			return n, false
		}
		part := b
		if k < 2 {
			part, b = b[:i], b[i+1:]
		}
		if n[k], ok = natural(part); !ok {
			return n, false
		}
	}
	return n, true
}

// monthFirst reads 6/30/2012, padded or not.
func monthFirst(b []byte) (cal.Date, bool) {
	n, ok := threeParts(b)
	if !ok {
		return 0, false
	}
	return ymd(n[2], n[0], n[1])
}

// dayFirst reads 30/06/2012, padded or not.
func dayFirst(b []byte) (cal.Date, bool) {
	n, ok := threeParts(b)
	if !ok {
		return 0, false
	}
	return ymd(n[2], n[1], n[0])
}

// whole reads a whole number that may be written as 2000.0.
func whole(b []byte) (int, bool) {
	if n, ok := natural(b); ok {
		return n, true
	}
	v, ok := number(b)
	if !ok || v < 0 || v > 1e8 || v != float64(int(v)) {
		return 0, false
	}
	return int(v), true
}
