package sim

import "loamledger/weather/cal"

// A Span is the days of one calendar month in a record: indices From up to, but
// not including, To.
type Span struct {
	Year, Month int
	From, To    int
}

// A Calendar holds the calendar columns of a record, computed once and shared by
// all zones and strategies.
type Calendar struct {
	Start   cal.Date
	Month   []uint8 // 1 to 12
	Dom     []uint8 // day of the month, 1 to 31
	Weekday []uint8 // 0 Sunday to 6 Saturday
	Spans   []Span  // the months of the record, in order
}

// NewCalendar returns the calendar of n days from start.
func NewCalendar(start cal.Date, n int) *Calendar {
	c := &Calendar{Start: start, Month: make([]uint8, n), Dom: make([]uint8, n), Weekday: make([]uint8, n)}
	wd := start.Weekday()
	for i := 0; i < n; {
		y, m, d := (start + cal.Date(i)).YMD()
		last := cal.DaysIn(y, m)
		from := i
		for ; d <= last && i < n; d, i = d+1, i+1 {
			c.Month[i], c.Dom[i], c.Weekday[i] = uint8(m), uint8(d), uint8(wd)
			if wd++; wd == 7 {
				wd = 0
			}
		}
		c.Spans = append(c.Spans, Span{Year: y, Month: m, From: from, To: i})
	}
	return c
}

// Days returns the number of days.
func (c *Calendar) Days() int { return len(c.Month) }

// Date returns the date of day i.
func (c *Calendar) Date(i int) cal.Date { return c.Start + cal.Date(i) }
