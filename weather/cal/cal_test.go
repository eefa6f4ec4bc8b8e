package cal

import (
	"testing"
	"time"
)

func TestDateRoundTrip(t *testing.T) {
	for d := Of(1899, 12, 30); d < Of(2101, 3, 2); d++ {
		y, m, day := d.YMD()
		if Of(y, m, day) != d || !Valid(y, m, day) {
			t.Fatalf("%d: %d-%d-%d does not round trip", d, y, m, day)
		}
		got, err := Parse(d.String())
		if err != nil || got != d {
			t.Fatalf("Parse(%q) = %v, %v", d.String(), got, err)
		}
		if OfYearDay(y, d.YearDay()) != d {
			t.Fatalf("%v: day of year %d does not round trip", d, d.YearDay())
		}
	}
}

// The calendar facts here are those of ISO 8601 and the Gregorian reform.
func TestKnownDays(t *testing.T) {
	if d := Of(2000, 2, 29); d.Weekday() != int(time.Tuesday) || d.YearDay() != 60 {
		t.Errorf("2000-02-29: weekday %d, day of year %d", d.Weekday(), d.YearDay())
	}
	if IsLeap(1900) || !IsLeap(2000) || !IsLeap(2024) || IsLeap(2023) {
		t.Error("leap years: 2000 and 2024 are, 1900 and 2023 are not")
	}
	if DaysIn(2023, 2) != 28 || DaysIn(2024, 2) != 29 || DaysIn(2024, 12) != 31 {
		t.Error("days in month")
	}
}

func TestParseRefuses(t *testing.T) {
	for _, s := range []string{"", "2012-6-30", "2012-02-30", "2012-13-01", "30/06/2012", "2012-06-3x", "0000-01-01", "2012-06-30 "} {
		if d, err := Parse(s); err == nil {
			t.Errorf("Parse(%q) = %v, want an error", s, d)
		}
	}
}
