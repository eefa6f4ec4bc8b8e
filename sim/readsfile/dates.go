package readsfile

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"loamledger/weather/cal"
)

// dateFix says how to write the day that a text may mean. A day and a month that could
// change places are never guessed.
func dateFix(text string) string {
	days := possibleDays(text)
	switch len(days) {
	case 0:
		return "write year, month and day, such as 2024-01-31"
	case 1:
		return "write year, month and day: " + days[0]
	}
	return "write year, month and day: " + strings.Join(days, " or ") + ", whichever it is"
}

// possibleDays returns the days that a text may mean, as a spreadsheet or a bill has it.
func possibleDays(text string) (days []string) {
	f := strings.FieldsFunc(text, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
	if len(f) == 1 && len(f[0]) == 8 {
		f = []string{f[0][:4], f[0][4:6], f[0][6:]}
	}
	if len(f) < 3 {
		return nil
	}
	f[2], _, _ = strings.Cut(f[2], "T") // the time of a day
	add := func(year, month, day string) {
		y, err1 := strconv.Atoi(year)
		m, err2 := strconv.Atoi(month)
		d, err3 := strconv.Atoi(day)
		if y < 100 {
			y += 2000
		}
		if err1 != nil || err2 != nil || err3 != nil || !cal.Valid(y, m, d) {
			return
		}
		if s := cal.Of(y, m, d).String(); !slices.Contains(days, s) {
			days = append(days, s)
		}
	}
	switch {
	case len(f[0]) == 4 && unicode.IsDigit(rune(f[0][0])):
		add(f[0], f[1], f[2])
	case monthNamed(f[0]) != "":
		add(f[2], monthNamed(f[0]), f[1])
	case monthNamed(f[1]) != "":
		add(f[2], monthNamed(f[1]), f[0])
	default:
		if !strings.Contains(text, ".") { // with points, the day is first
			add(f[2], f[0], f[1])
		}
		add(f[2], f[1], f[0])
	}
	return days
}

// monthNamed returns the number of a month by its first three letters; empty for none.
func monthNamed(text string) string {
	const names = "jan feb mar apr may jun jul aug sep oct nov dec "
	if len(text) < 3 {
		return ""
	}
	at := strings.Index(names, strings.ToLower(text[:3])+" ")
	if at < 0 {
		return ""
	}
	return strconv.Itoa(at/4 + 1)
}
