package strategy_test

import (
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// TestDayRules holds each rule to days ticked off on a wall calendar.
func TestDayRules(t *testing.T) {
	mwf := [7]bool{1: true, 3: true, 5: true}
	for _, tt := range []struct {
		why   string
		rule  strategy.DayRule
		start cal.Date
		days  int
		want  []string
	}{
		{"odd days: the 31st and the 1st follow each other", strategy.DayRule{Kind: strategy.OddDays}, cal.Of(2003, 1, 28), 8,
			[]string{"2003-01-29", "2003-01-31", "2003-02-01", "2003-02-03"}},
		{"odd days of a leap February: the 29th and the 1st too", strategy.DayRule{Kind: strategy.OddDays}, cal.Of(2000, 2, 26), 7,
			[]string{"2000-02-27", "2000-02-29", "2000-03-01", "2000-03-03"}},
		{"odd days of a common February: two days between", strategy.DayRule{Kind: strategy.OddDays}, cal.Of(2001, 2, 26), 7,
			[]string{"2001-02-27", "2001-03-01", "2001-03-03"}},
		{"1900 was no leap year", strategy.DayRule{Kind: strategy.OddDays}, cal.Of(1900, 2, 26), 5,
			[]string{"1900-02-27", "1900-03-01"}},
		{"even days: a month of 31 leaves three days between", strategy.DayRule{Kind: strategy.EvenDays}, cal.Of(2003, 1, 28), 8,
			[]string{"2003-01-28", "2003-01-30", "2003-02-02", "2003-02-04"}},
		{"even days of a leap February", strategy.DayRule{Kind: strategy.EvenDays}, cal.Of(2000, 2, 26), 7,
			[]string{"2000-02-26", "2000-02-28", "2000-03-02"}},
		{"weekdays across the turn of the year; 1999-12-27 was a Monday", strategy.DayRule{Kind: strategy.Weekdays, Weekdays: mwf},
			cal.Of(1999, 12, 26), 14,
			[]string{"1999-12-27", "1999-12-29", "1999-12-31", "2000-01-03", "2000-01-05", "2000-01-07"}},
		{"every 3 days across the end of a leap year, 366 = 122·3",
			strategy.DayRule{Kind: strategy.Interval, Every: 3, From: cal.Of(2000, 1, 1)}, cal.Of(2000, 12, 27), 10,
			[]string{"2000-12-29", "2001-01-01", "2001-01-04"}},
		{"every 3 days across the end of a common year, 365 = 121·3 + 2",
			strategy.DayRule{Kind: strategy.Interval, Every: 3, From: cal.Of(2001, 1, 1)}, cal.Of(2001, 12, 27), 10,
			[]string{"2001-12-27", "2001-12-30", "2002-01-02", "2002-01-05"}},
		{"every 4 days, in step before the day it is counted from",
			strategy.DayRule{Kind: strategy.Interval, Every: 4, From: cal.Of(2003, 1, 10)}, cal.Of(2003, 1, 1), 14,
			[]string{"2003-01-02", "2003-01-06", "2003-01-10", "2003-01-14"}},
		{"every 2 days from a date before 1970", strategy.DayRule{Kind: strategy.Interval, Every: 2, From: cal.Of(1969, 12, 31)},
			cal.Of(1970, 1, 1), 4,
			[]string{"1970-01-02", "1970-01-04"}},
		{"every day", strategy.DayRule{}, cal.Of(2003, 2, 27), 3, []string{"2003-02-27", "2003-02-28", "2003-03-01"}},
		{"no weekday at all", strategy.DayRule{Kind: strategy.Weekdays}, cal.Of(2003, 2, 27), 9, nil},
	} {
		c := sim.NewCalendar(tt.start, tt.days)
		var got []string
		for i := range c.Days() {
			if tt.rule.Runs(c, i) {
				got = append(got, c.Date(i).String())
			}
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.why, got, tt.want)
		}
		// A program under that rule waters on the same days.
		var watered []string
		rows, _ := replayed(t, handZone(), days(tt.start, same(tt.days, 0)...), 0,
			strategy.Programs{List: []strategy.Program{{Name: "p", Days: tt.rule, Starts: []int{330}, Minutes: []float64{1}}}})
		for _, r := range rows {
			if r.Minutes > 0 {
				watered = append(watered, r.Date.String())
			}
		}
		if !slices.Equal(watered, tt.want) {
			t.Errorf("%s: a program runs on %v, want %v", tt.why, watered, tt.want)
		}
	}
}
