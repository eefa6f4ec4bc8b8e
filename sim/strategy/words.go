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

// DaysText says on which days a rule holds.
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
		return fmt.Sprintf("every %d days, counted from %v", r.Every, r.From)
	case Weekdays:
		var days []string
		for i := range 7 {
			if d := (i + 1) % 7; r.Weekdays[d] {
				days = append(days, DayNames[d])
			}
		}
		switch len(days) {
		case 0:
			return "no day"
		case 7:
			return "every day"
		}
		return strings.Join(days, " ")
	}
	return "every day"
}

// ClockText writes minutes after midnight as a time of day; later days are
// told as such.
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

// dayCount writes a number of days.
func dayCount(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

// plainNumber writes a number with at most four digits.
func plainNumber(v float64) string { return fmt.Sprintf("%.4g", v) }

// cyclesText tells cycles and pauses after a comma; nothing for one run.
func cyclesText(cycleMin, soakMin float64) string {
	if cycleMin <= 0 {
		return ""
	}
	return fmt.Sprintf(", cycles of %g min, pauses of %g min", cycleMin, soakMin)
}

// namesOf returns the names of the zones chosen.
func namesOf(zones []string, chosen []bool) (names []string) {
	for z, is := range chosen {
		if is {
			names = append(names, zones[z])
		}
	}
	return names
}

// percents lists twelve shares.
func percents(share [12]float64) string {
	var texts []string
	for _, s := range share {
		texts = append(texts, fmt.Sprintf("%.0f", 100*s))
	}
	return strings.Join(texts, ", ") + " %"
}

// monthsText lists twelve shares with the names of their months.
func monthsText(share [12]float64) string {
	var months []string
	for m, s := range share {
		months = append(months, fmt.Sprintf("%s %.0f", MonthNames[m], 100*s))
	}
	return strings.Join(months, ", ")
}
