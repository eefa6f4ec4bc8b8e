package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// monthWords are the months in words; the first three letters are enough.
var monthWords = [12]string{
	"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december",
}

// yearDays returns the days of the year, as 100·month + day, that a text can mean:
// 05-01, 5-1, May 1, 1 May; none for any other text. The order in 5/1 is that of
// the country, so that it can mean two days.
func yearDays(text string) []int {
	text = strings.ToLower(strings.TrimSpace(text))
	if m, d, cut := strings.Cut(text, "-"); cut {
		if day, ok := yearDayOf(m, d); ok {
			return []int{day}
		}
	}
	if a, b, cut := strings.Cut(text, "/"); cut {
		var out []int
		for _, pair := range [][2]string{{a, b}, {b, a}} {
			if day, ok := yearDayOf(pair[0], pair[1]); ok && !slices.Contains(out, day) {
				out = append(out, day)
			}
		}
		return out
	}
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" .,-", r) })
	if len(words) != 2 {
		return nil
	}
	for _, pair := range [][2]string{{words[0], words[1]}, {words[1], words[0]}} {
		for i, month := range monthWords {
			if len(pair[0]) >= 3 && (strings.HasPrefix(month, pair[0]) || month == "september" && pair[0] == "sept") {
				day := pair[1]
				for _, end := range []string{"st", "nd", "rd", "th"} {
					day = strings.TrimSuffix(day, end)
				}
				if found, ok := yearDayOf(fmt.Sprint(i+1), day); ok {
					return []int{found}
				}
			}
		}
	}
	return nil
}

// YearDays returns the days of the year, as 100·month + day, that a text can mean;
// none if it means no day.
func YearDays(text string) []int { return yearDays(text) }

// Month returns the month, 1 to 12, that a text means: its number, its name or at
// least three letters of it; 0 for any other text.
func Month(text string) int {
	text = strings.ToLower(strings.TrimSpace(text))
	if n, ok := whole(text); ok && n >= 1 && n <= 12 {
		return n
	}
	for i, month := range monthWords {
		if len(text) >= 3 && strings.HasPrefix(month, text) {
			return i + 1
		}
	}
	return 0
}

func yearDayOf(month, day string) (int, bool) {
	m, ok1 := whole(month)
	d, ok2 := whole(day)
	// 2012 was a leap year, so 02-29 is valid.
	return 100*m + d, ok1 && ok2 && len(month) <= 2 && len(day) <= 2 && cal.Valid(2012, m, d)
}

func yearDayForm(day int) string { return fmt.Sprintf("%02d-%02d", day/100, day%100) }

// everyYear reports a day without a year where a date is needed. It can mean that
// date of one year or a season of every year.
func (g group) everyYear(n *Node, key string, day int) {
	date := "2012-" + yearDayForm(day)
	first, last := 401, 1031 // what is not given
	from, to := g.node.Get("from"), g.node.Get("to")
	for _, end := range []struct {
		n  *Node
		at *int
	}{{from, &first}, {to, &last}} {
		if end.n != nil && end.n.Kind == Scalar {
			if days := yearDays(end.n.Text); len(days) > 0 {
				*end.at = days[0]
			}
		}
	}
	season := fmt.Sprintf("season: {start: %s, end: %s}", yearDayForm(first), yearDayForm(last))
	if key != "from" && key != "to" {
		g.fault(diag.NotADate, n.Pos, "write a date with its year, as in "+date, "%s: %s is %s, not a date", g.where, key, n.what()).
			Suggest(diag.Value, date)
		return
	}
	e := g.fault(diag.NotADate, n.Pos, "write a date with its year, as in "+date+", or, for every year, remove it and add "+season+
		" to a strategy", "%s: %s is %s, not a date: it has no year", g.where, key, n.what())
	e.Suggest(diag.Value, date).Suggest(diag.Strategy, season)
}
