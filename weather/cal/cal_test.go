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

// Dates are those of the standard library, over all years that are valid and around, and
// with days and months out of range.
func TestTheCalendarOfTheLibrary(t *testing.T) {
	const day = 24 * 60 * 60
	for d := Date(-800000); d < 3000000; d += 1 + d&1 {
		want := time.Unix(int64(d)*day, 0).UTC()
		y, m, dom := d.YMD()
		if yy, mm, dd := want.Date(); y != yy || m != int(mm) || dom != dd || d.YearDay() != want.YearDay() ||
			d.Weekday() != int(want.Weekday()) ||
			d.Year() != yy || d.Month() != int(mm) || Of(y, m, dom) != d {
			t.Fatalf("%d: %d-%d-%d, day %d, weekday %d; want %v", d, y, m, dom, d.YearDay(), d.Weekday(), want)
		}
	}
	for y := -9; y < 2500; y += 37 {
		for m := -30; m < 40; m++ {
			for _, d := range []int{-400, -1, 0, 1, 28, 31, 99, 800} {
				if got, want := Of(y, m, d), time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC).Unix()/day; int64(got) != want {
					t.Fatalf("%d-%d-%d is %d, want %d", y, m, d, got, want)
				}
			}
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
