package scenarios

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// nearest returns which of the known names a word is meant to be, or "". A name
// with a number is another zone than the one with the next number, however
// alike they are spelled, so that names with the same numbers come first;
// leading zeros, case and the blanks or dashes between words do not count.
func nearest(word string, known []string) string {
	plain, numbers := unzeroed(word)
	var same, sameText []string
	for _, k := range known {
		text, n := unzeroed(k)
		if text == plain {
			return k
		}
		if slices.Equal(n, numbers) {
			same, sameText = append(same, k), append(sameText, text)
		}
	}
	if near := diag.Nearest(plain, sameText); near != "" {
		return same[slices.Index(sameText, near)]
	}
	return diag.Nearest(word, known)
}

var digits = regexp.MustCompile(`[0-9]+`)

// unzeroed returns a name in a form to compare, and the numbers in it.
func unzeroed(name string) (text string, numbers []string) {
	text = strings.ToLower(strings.Join(strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(" \t-_", r) }), " "))
	text = digits.ReplaceAllStringFunc(text, func(d string) string {
		d = strings.TrimLeft(d, "0")
		if d == "" {
			d = "0"
		}
		numbers = append(numbers, d)
		return d
	})
	return text, numbers
}

// bareFix is the fix for a text where a bare number is due.
func (w want) bareFix(text string) string {
	if w.key == "latitude" || w.key == "longitude" {
		negative, like := "south", "38.9"
		if w.key == "longitude" {
			negative, like = "west", "-104.8"
		}
		if v, ok := degrees(text); ok && v >= w.min && v <= w.max {
			like = strconv.FormatFloat(v, 'f', -1, 64)
		}
		return "write decimal degrees as a bare number, " + negative + " negative, as in " + w.key + ": " + like
	}
	plain := strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	if v, err := quantity.ParseNumber(plain); err == nil && !strings.Contains(text, "_") && len(plain)-strings.IndexByte(plain, '.') != 4 {
		return "write a bare number with a decimal point, as in " + strconv.FormatFloat(v, 'f', -1, 64)
	}
	return "write a bare number"
}

var degreeText = regexp.MustCompile(`(?i)^([NSEW]?)\s*([-+]?[0-9]+(?:[.,][0-9]+)?)\s*(?:°|deg|degrees)?\s*(?:([0-9]+(?:[.,][0-9]+)?)\s*['′]\s*(?:([0-9]+(?:[.,][0-9]+)?)\s*(?:"|″|'')\s*)?)?([NSEW]?)$`)

// degrees reads the ways in which people write an angle other than as a bare
// number: 32,28; 32.28 N; 32° 17'; 32°17'30" S.
func degrees(text string) (float64, bool) {
	m := degreeText.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || m[1] != "" && m[5] != "" {
		return 0, false
	}
	var parts [3]float64
	for i, s := range m[2:5] {
		if s == "" {
			continue
		}
		v, err := quantity.ParseNumber(strings.Replace(s, ",", ".", 1))
		if err != nil || i > 0 && v >= 60 {
			return 0, false
		}
		parts[i] = v
	}
	v := math.Abs(parts[0]) + parts[1]/60 + parts[2]/3600
	if strings.HasPrefix(m[2], "-") || strings.ContainsAny(strings.ToUpper(m[1]+m[5]), "SW") {
		v = -v
	}
	return math.Round(1e4*v) / 1e4, true
}

var everyText = regexp.MustCompile(`(?i)^(?:every\s+)?(?:([0-9]+)(?:st|nd|rd|th)?|other|second|third)\s*(?:days?|d)$`)

// daysFix turns days written as a sentence into the form that is read; "" where
// they cannot be understood.
func daysFix(text string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	switch text {
	case "daily", "every day", "all", "each day", "everyday":
		return "write any"
	case "odd days", "odd dates":
		return "write odd"
	case "even days", "even dates":
		return "write even"
	}
	if m := everyText.FindStringSubmatch(text); m != nil {
		n := m[1]
		switch {
		case strings.Contains(text, "other"), strings.Contains(text, "second"):
			n = "2"
		case strings.Contains(text, "third"):
			n = "3"
		}
		if n == "1" {
			return "write any"
		}
		return "write {every: " + n + " days, from: 2024-01-01}, from being a day on which it waters"
	}
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;/&+.", r) })
	var days []string
	for _, w := range words {
		if w == "and" {
			continue
		}
		d, ok := weekday(&Node{Kind: Scalar, Text: w})
		if !ok {
			d, ok = weekday(&Node{Kind: Scalar, Text: strings.TrimSuffix(w, "s")})
		}
		if !ok {
			return ""
		}
		if !slices.Contains(days, weekdays[d]) {
			days = append(days, weekdays[d])
		}
	}
	if len(days) == 0 {
		return ""
	}
	return "write a list: [" + strings.Join(days, ", ") + "]"
}
