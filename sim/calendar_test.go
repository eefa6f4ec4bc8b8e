package sim_test

import (
	"testing"

	"loamledger/sim"
	"loamledger/weather/cal"
)

// TestCalendarAcrossALeapFebruary checks 1999 to 2001 against a wall calendar:
// 2000-02-29 was a Tuesday, and 2001 had no such day.
func TestCalendarAcrossALeapFebruary(t *testing.T) {
	c := sim.NewCalendar(cal.Of(1999, 12, 30), 430)
	for _, tt := range []struct {
		y, m, d, weekday int
	}{{1999, 12, 30, 4}, {1999, 12, 31, 5}, {2000, 1, 1, 6}, {2000, 2, 28, 1}, {2000, 2, 29, 2}, {2000, 3, 1, 3}, {2001, 2, 28, 3},
		{2001, 3, 1, 4}} {
		i := int(cal.Of(tt.y, tt.m, tt.d) - c.Start)
		if int(c.Month[i]) != tt.m || int(c.Dom[i]) != tt.d || int(c.Weekday[i]) != tt.weekday || c.Date(i) != cal.Of(tt.y, tt.m, tt.d) {
			t.Errorf("%d-%02d-%02d: month %d, day %d, weekday %d, date %v", tt.y, tt.m, tt.d, c.Month[i], c.Dom[i], c.Weekday[i], c.Date(i))
		}
	}
}

// TestSpans: the months of a record follow each other without gaps; the first and
// the last may be partial.
func TestSpans(t *testing.T) {
	c := sim.NewCalendar(cal.Of(1999, 12, 30), 430) // to 2001-03-03
	want := []sim.Span{{Year: 1999, Month: 12, From: 0, To: 2}, {Year: 2000, Month: 1, From: 2, To: 33},
		{Year: 2000, Month: 2, From: 33, To: 62}, {Year: 2000, Month: 3, From: 62, To: 93}}
	for i, s := range want {
		if c.Spans[i] != s {
			t.Errorf("span %d is %+v, want %+v", i, c.Spans[i], s)
		}
	}
	last := c.Spans[len(c.Spans)-1]
	if len(c.Spans) != 16 || last != (sim.Span{Year: 2001, Month: 3, From: 427, To: 430}) {
		t.Errorf("%d spans, the last %+v", len(c.Spans), last)
	}
	for i := 1; i < len(c.Spans); i++ {
		if c.Spans[i].From != c.Spans[i-1].To {
			t.Errorf("span %d begins at %d, the one before ends at %d", i, c.Spans[i].From, c.Spans[i-1].To)
		}
	}
	if n := sim.NewCalendar(0, 0); n.Days() != 0 || len(n.Spans) != 0 {
		t.Errorf("an empty record has %d days and %d months", n.Days(), len(n.Spans))
	}
}
