package strategy

import (
	"fmt"
	"math"
	"strings"
)

// DayNames and MonthNames are the short names, Sunday and January first.
var (
	DayNames   = [7]string{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"}
	MonthNames = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}
)

// DaysText describes the days of a rule.
func DaysText(r DayRule) string {
	switch r.Kind {
	case OddDays:
		return "odd dates"
	case EvenDays:
		return "even dates"
	case Interval:
		if r.Every == 1 {
			return "every day"
		}
		return fmt.Sprintf("every %d days, starting %v", r.Every, r.From)
	case Weekdays:
		var days []string
		for i := range 7 {
			if d := (i + 1) % 7; r.Weekdays[d] {
				days = append(days, DayNames[d])
			}
		}
		switch len(days) {
		case 0:
			return "never"
		case 7:
			return "every day"
		}
		return strings.Join(days, " ")
	}
	return "every day"
}

// ClockText formats minutes after midnight as a time of day, and marks times on the
// next day.
func ClockText(minutes float64) string {
	m := int(math.Ceil(minutes - 1e-9))
	text := fmt.Sprintf("%02d:%02d", m/60%24, m%60)
	if m >= 24*60 {
		text += " next day"
	}
	return text
}

// StartsText lists start times.
func StartsText(starts []int) string {
	var out []string
	for _, s := range starts {
		out = append(out, ClockText(float64(s)))
	}
	return strings.Join(out, " ")
}

// dayCount formats a number of days.
func dayCount(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

// plainNumber formats a number with at most four digits.
func plainNumber(v float64) string { return fmt.Sprintf("%.4g", v) }

// cyclesText describes cycle and soak after a comma; empty for a single run.
func cyclesText(cycleMin, soakMin float64) string {
	if cycleMin <= 0 {
		return ""
	}
	return fmt.Sprintf(", %g min cycles, %g min soak", cycleMin, soakMin)
}

// namesOf returns the names of the chosen zones.
func namesOf(zones []string, chosen []bool) (names []string) {
	for z, is := range chosen {
		if is {
			names = append(names, zones[z])
		}
	}
	return names
}

// percents formats twelve shares.
func percents(share [12]float64) string {
	var texts []string
	for _, s := range share {
		texts = append(texts, fmt.Sprintf("%.0f", 100*s))
	}
	return strings.Join(texts, ", ") + "%"
}

// monthsText formats twelve shares with the names of their months, without the
// months, 1 to 12, that are off.
func monthsText(share [12]float64, off func(m int) bool) string {
	var months []string
	for m, s := range share {
		if !off(m + 1) {
			months = append(months, fmt.Sprintf("%s %.0f", MonthNames[m], 100*s))
		}
	}
	return strings.Join(months, ", ")
}

// fullDayNames are the days as a sentence has them, Sunday first.
var fullDayNames = [7]string{"Sundays", "Mondays", "Tuesdays", "Wednesdays", "Thursdays", "Fridays", "Saturdays"}

// plainDays writes a day rule as part of a sentence.
func plainDays(r DayRule) string {
	if r.Kind != Weekdays {
		return DaysText(r)
	}
	var days []string
	for i := range 7 {
		if d := (i + 1) % 7; r.Weekdays[d] {
			days = append(days, fullDayNames[d])
		}
	}
	switch n := len(days); n {
	case 0, 7:
		return DaysText(r)
	case 1, 2:
		return strings.Join(days, " and ")
	default:
		return strings.Join(days[:n-1], ", ") + ", and " + days[n-1]
	}
}
