package scenarios

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// weekdays are the days of the week as a scenario has them, Sunday first.
var weekdays = [7]string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

// weekdayNames are the other names of each; a plural is accepted too.
var weekdayNames = [7][]string{
	{"sunday", "su"}, {"monday", "mo", "m"}, {"tuesday", "tues", "tu"}, {"wednesday", "weds", "we", "w"}, {"thursday", "thur", "thurs", "th"},
	{"friday", "fr", "f"}, {"saturday", "sa"},
}

// unclearDays are letters that begin two days.
var unclearDays = map[string][2]int{"t": {2, 4}, "s": {6, 0}}

// dayPhrases are whole phrases and what they mean, as YAML.
var dayPhrases = map[string]string{
	"daily": "any", "every day": "any", "everyday": "any", "each day": "any", "any day": "any", "all": "any", "all days": "any",
	"all week": "any", "odd days": "odd", "odd dates": "odd", "even days": "even", "even dates": "even",
	"weekdays": "[mon, tue, wed, thu, fri]", "workdays": "[mon, tue, wed, thu, fri]", "weekends": "[sat, sun]", "weekend": "[sat, sun]",
}

// layouts are two ways to spread a number of days over the week.
var layouts = [8][2]string{
	1: {"[wed]", "[sat]"}, 2: {"[mon, thu]", "[tue, fri]"}, 3: {"[mon, wed, fri]", "[tue, thu, sat]"},
	4: {"[mon, tue, thu, fri]", "[mon, wed, fri, sun]"}, 5: {"[mon, tue, wed, thu, fri]", "[mon, tue, thu, fri, sat]"},
	6: {"[mon, tue, wed, thu, fri, sat]", "[sun, mon, tue, thu, fri, sat]"},
}

// counts are words for a number of times.
var counts = map[string]int{
	"once": 1, "one": 1, "twice": 2, "two": 2, "three": 3, "thrice": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
}

// daysMeant returns what days written as a phrase can mean, as YAML of a rule for
// days; none if the phrase is not understood. clear is set for a single meaning
// that adds nothing to what was written; an interval needs a first day.
func daysMeant(text string) (forms []string, clear bool) {
	text = strings.Join(strings.Fields(strings.ToLower(strings.NewReplacer("×", "x", "’", "'").Replace(text))), " ")
	if form, ok := dayPhrases[text]; ok {
		return []string{form}, true
	}
	switch n := everyDays(text); {
	case n == 1:
		return []string{"any"}, true
	case n == 2:
		return []string{interval(2), "odd", "even"}, false
	case n > 2:
		return []string{interval(n)}, false
	}
	if text == "biweekly" || text == "bi-weekly" {
		return []string{layouts[2][0], layouts[2][1], interval(14)}, false
	}
	switch n := timesAWeek(text); {
	case n == 7:
		return []string{"any"}, true
	case n > 0:
		return layouts[n][:], false
	}
	return weekdayList(text)
}

func interval(days int) string { return fmt.Sprintf("{every: %d days, from: 2024-01-01}", days) }

// everyDays reads a phrase such as "every 3 days", "every other day" or "every 2
// weeks"; it returns 0 for any other text.
func everyDays(text string) int {
	words := strings.Fields(text)
	every := len(words) > 0 && words[0] == "every"
	if every {
		words = words[1:]
	}
	if len(words) != 2 {
		return 0
	}
	unit := 1
	switch {
	case every && slices.Contains([]string{"week", "weeks"}, words[1]):
		unit = 7
	case !slices.Contains([]string{"day", "days", "d"}, words[1]):
		return 0
	}
	switch words[0] {
	case "other", "second", "two":
		return 2 * unit
	case "third", "three":
		return 3 * unit
	}
	number := words[0]
	for _, end := range []string{"st", "nd", "rd", "th"} {
		number = strings.TrimSuffix(number, end)
	}
	if n, ok := whole(number); ok && n <= 366/unit {
		return n * unit
	}
	return 0
}

// timesAWeek reads a phrase such as "2 x week", "3x/week", "twice a week" or
// "weekly"; it returns 0 for any other text and for more than seven times.
func timesAWeek(text string) int {
	week, n := false, 0
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" /-.,", r) }) {
		switch w {
		case "week", "weekly", "wk":
			week = true
			continue
		case "x", "time", "times", "day", "days", "a", "per", "each", "every", "the", "in":
			continue
		}
		k, ok := counts[w]
		if !ok {
			k, ok = whole(strings.TrimSuffix(w, "x"))
		}
		if !ok || n != 0 || k < 1 || k > 7 {
			return 0
		}
		n = k
	}
	if !week {
		return 0
	}
	return max(n, 1)
}

// weekdayList reads weekdays in a row, such as "Tuesdays, sat", "mon-fri" or MWF.
func weekdayList(text string) (forms []string, clear bool) {
	lists := [][]int{nil} // each a way to read the text
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;/&+.[]", r) })
	if len(words) == 1 && !strings.Contains(words[0], "-") {
		if split := letters(words[0]); split != nil {
			words = split
		}
	}
	span := false // the next day ends a range
	for _, w := range words {
		if slices.Contains([]string{"and", "on", "every", "the"}, w) {
			continue
		}
		if slices.Contains([]string{"to", "through", "thru", "-", "–"}, w) {
			span = true
			continue
		}
		if from, to, cut := strings.Cut(strings.ReplaceAll(w, "–", "-"), "-"); cut {
			a, ok1 := weekday(from)
			b, ok2 := weekday(to)
			if !ok1 || !ok2 || span {
				return nil, false
			}
			lists = appendDays(lists, daysFrom(a, b))
			continue
		}
		d, ok := weekday(w)
		two, unclear := unclearDays[w]
		switch {
		case ok && span:
			if len(lists) != 1 || len(lists[0]) == 0 {
				return nil, false
			}
			lists = appendDays(lists, daysFrom(lists[0][len(lists[0])-1], d)[1:])
		case ok:
			lists = appendDays(lists, []int{d})
		case unclear && !span && len(lists) == 1:
			second := appendDays([][]int{slices.Clone(lists[0])}, two[1:])
			lists = append(appendDays(lists, two[:1]), second...)
		default:
			return nil, false
		}
		span = false
	}
	if span || len(lists[0]) == 0 {
		return nil, false
	}
	for _, list := range lists {
		forms = append(forms, listForm(list))
	}
	return forms, len(forms) == 1
}

// letters splits a word such as MWF or TTh into its days; nil if it is not one.
func letters(word string) (out []string) {
	for word != "" {
		n := 1
		if len(word) > 1 && slices.Contains([]string{"th", "tu", "sa", "su"}, word[:2]) {
			n = 2
		}
		part := word[:n]
		if _, day := weekday(part); !day && part != "t" && part != "s" {
			return nil
		}
		out, word = append(out, part), word[n:]
	}
	if slices.Contains(out, "t") && slices.Contains(out, "th") {
		out[slices.Index(out, "t")] = "tu"
	}
	return out
}

// daysFrom returns the days from a to b, over the weekend if need be.
func daysFrom(a, b int) (out []int) {
	for out = []int{a}; a != b; {
		a = (a + 1) % 7
		out = append(out, a)
	}
	return out
}

// appendDays adds days to each list, once.
func appendDays(lists [][]int, days []int) [][]int {
	for i := range lists {
		for _, d := range days {
			if !slices.Contains(lists[i], d) {
				lists[i] = append(lists[i], d)
			}
		}
	}
	return lists
}

func listForm(days []int) string {
	texts := make([]string, len(days))
	for i, d := range days {
		texts[i] = weekdays[d]
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// weekday returns the day of the week called text.
func weekday(text string) (int, bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	for i := range weekdays {
		for _, name := range append([]string{weekdays[i]}, weekdayNames[i]...) {
			if text == name || len(name) > 2 && text == name+"s" {
				return i, true
			}
		}
	}
	return 0, false
}

// clockMeant returns the times of day [min after midnight] that a text can mean:
// 5:30, 0530, 5:30am, 5 p.m., noon. A time that another program wrote as a number
// of minutes has two meanings.
func clockMeant(text string) []int {
	text = strings.ToLower(strings.Join(strings.Fields(text), ""))
	switch text {
	case "noon":
		return []int{12 * 60}
	case "midnight":
		return []int{0}
	}
	plain, half := text, ""
	for _, end := range []string{"a.m.", "p.m.", "am", "pm", "a", "p"} {
		if rest, ok := strings.CutSuffix(text, end); ok {
			plain, half = rest, end[:1]
			break
		}
	}
	h, m, colon := strings.Cut(plain, ":")
	if !colon {
		h, m = plain, "00"
		if len(plain) == 3 || len(plain) == 4 {
			h, m = plain[:len(plain)-2], plain[len(plain)-2:]
		}
	}
	hour, ok1 := whole(h)
	minute, ok2 := whole(m)
	if !ok1 || !ok2 || len(h) > 2 || len(m) != 2 || minute >= 60 || hour >= 24 || half != "" && (hour < 1 || hour > 12) {
		return minutesOfDay(plain, half, nil)
	}
	t := 60*hour + minute
	switch {
	case half == "a" && hour == 12, half == "p" && hour != 12:
		t = (t + 12*60) % dayMinutes
	case half == "" && !colon && len(plain) < 3: // 5: in the morning or in the afternoon
		if hour == 0 || hour > 12 {
			return []int{t}
		}
		return []int{60 * (hour % 12), 60 * (hour%12 + 12)}
	case half == "" && !colon:
		return minutesOfDay(plain, half, []int{t})
	}
	return []int{t}
}

// minutesOfDay adds the reading of a number without a leading zero as minutes
// after midnight, in which some programs save 5:30 as 330.
func minutesOfDay(plain, half string, times []int) []int {
	n, ok := whole(plain)
	if ok && half == "" && (len(plain) == 3 || len(plain) == 4) && plain[0] != '0' && n < dayMinutes && !slices.Contains(times, n) {
		times = append(times, n)
	}
	return times
}

func clockForm(minutes int) string { return strconv.Quote(clockTime(minutes)) }
