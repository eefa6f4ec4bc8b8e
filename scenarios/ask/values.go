package ask

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"loamledger/weather/quantity"
)

const guessGrade = quantity.Guess

// area returns an area as a scenario has it. A product of two lengths is multiplied;
// the first may leave its unit to the second, and both to the question: feet or meters.
func (w *writer) area(text string) (area string, product bool, err error) {
	sides := splitBy(text)
	if len(sides) != 2 {
		return text, false, nil // the reader of scenarios says what is wrong
	}
	_, unit := quantity.Cut(sides[1])
	if unit == "" {
		unit = Pair{"ft", "m"}.In(w.a)
		sides[1] += " " + unit
	}
	if _, own := quantity.Cut(sides[0]); own == "" {
		sides[0] += " " + unit
	}
	m2 := 1.0
	for _, side := range sides {
		v, err := quantity.Parse(side, quantity.Length)
		var f *quantity.Fault
		switch {
		case errors.As(err, &f):
			return "", true, fmt.Errorf("%s", f.Msg)
		case v <= 0:
			return "", true, errors.New("a side is not above 0")
		}
		m2 *= v
	}
	name := "m2"
	if strings.Trim(strings.ToLower(unit), "'′ftinchesydar\"″") == "" {
		name = "ft2"
	}
	u, _ := quantity.Find(name, quantity.Area)
	return decimal(u.Of(m2), 2) + " " + name, true, nil
}

// splitBy splits a text where length and width are separated: at "by", x, × and *.
func splitBy(text string) (sides []string) {
	from := 0
	for i := 0; i < len(text); {
		n := 0
		switch {
		case strings.ContainsRune("xX*", rune(text[i])):
			n = 1
		case strings.HasPrefix(text[i:], "×"):
			n = len("×")
		case hasWord(text[i:], "by") && (i == 0 || !beginsInWord(text[i-1:])):
			n = len("by")
		default:
			i++
			continue
		}
		sides = append(sides, strings.TrimRight(text[from:i], space))
		i = len(text) - len(skipSpace(text[i+n:]))
		from = i
	}
	return append(sides, text[from:])
}

// decimal writes a number without exponent, to a number of decimals at most.
func decimal(v float64, places int) string {
	scale := math.Pow10(places)
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', -1, 64)
}

// ordinals are the numbers of days that have a word.
var ordinals = map[string]int{"other": 2, "second": 2, "two": 2, "third": 3, "three": 3, "four": 4, "five": 5}

// intervalDays returns the days of an interval such as "every 3 days"; 0 for any
// other text, and for every day.
func intervalDays(text string) int {
	words := strings.Fields(strings.ToLower(text))
	if len(words) == 3 && words[0] == "every" {
		words = words[1:]
	}
	if len(words) != 2 || words[1] != "day" && words[1] != "days" {
		return 0
	}
	for _, ending := range []string{"", "st", "nd", "rd", "th"} {
		word, is := strings.CutSuffix(words[0], ending)
		if n, ok := ordinals[word]; is && ok {
			return n
		}
		if n, err := strconv.Atoi(word); is && err == nil && n > 1 && skipDigits(word) == "" {
			return n
		}
	}
	return 0
}

// monthNames are the months, of which three letters are enough.
var monthNames = [12]string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
	"december"}

// lastDays are the last days of the months, in any year.
var lastDays = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// monthRange reads the first and the last month of a season, from 0; over the end of
// the year if need be. All year is 0 to 11.
func monthRange(text string) (first, last int, err error) {
	text = strings.ToLower(strings.TrimSpace(text))
	switch text {
	case "all", "all year", "year round", "all months", "always":
		return 0, 11, nil
	}
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" -–,.;/", r) })
	var months []int
	for _, f := range fields {
		if f == "to" || f == "through" || f == "until" || f == "and" || f == "from" {
			continue
		}
		m, ok := month(f)
		if !ok {
			return 0, 0, fmt.Errorf("%q is not a month", f)
		}
		months = append(months, m)
	}
	switch len(months) {
	case 0:
		return 0, 0, errors.New("no month in it")
	case 1:
		return months[0], months[0], nil
	case 2:
		return months[0], months[1], nil
	}
	for i, m := range months[1:] { // a list is a range if no month is left out
		if m != (months[i]+1)%12 {
			return 0, 0, errors.New("the months are not in a row")
		}
	}
	return months[0], months[len(months)-1], nil
}

// month reads one month, by name or number, from 0.
func month(text string) (int, bool) {
	if n, err := strconv.Atoi(text); err == nil {
		return n - 1, n >= 1 && n <= 12
	}
	for m, name := range monthNames {
		if len(text) >= 3 && (strings.HasPrefix(name, text) || text == "sept" && m == 8) {
			return m, true
		}
	}
	return 0, false
}
