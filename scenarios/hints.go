package scenarios

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// nearest returns the known name that a word most likely means, or "". Zone 3
// and zone 4 are different zones however similar their names, so names with the
// same numbers come first. Leading zeros, case, spaces and dashes are ignored.
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

// unzeroed returns a name in comparable form, and the numbers in it.
func unzeroed(name string) (text string, numbers []string) {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune(" \t-_", r) })
	rest := strings.Join(words, " ")
	var out strings.Builder
	for rest != "" {
		n := 0
		for n < len(rest) && '0' <= rest[n] && rest[n] <= '9' {
			n++
		}
		if n == 0 {
			out.WriteByte(rest[0])
			rest = rest[1:]
			continue
		}
		number := strings.TrimLeft(rest[:n], "0")
		if number == "" {
			number = "0"
		}
		numbers = append(numbers, number)
		out.WriteString(number)
		rest = rest[n:]
	}
	return out.String(), numbers
}

// bareFix is the fix for a text given where a bare number is required.
func (w want) bareFix(text string) string {
	like := w.bareValue(text)
	switch {
	case w.key == "latitude":
		return "write decimal degrees as a bare number, south negative, as in latitude: " + like[0]
	case w.key == "longitude":
		return "write decimal degrees as a bare number, west negative, as in longitude: " + like[0]
	case len(like) > 0:
		return "write a bare number with a decimal point, as in " + like[0]
	}
	return "write a bare number"
}

// bareValue returns the bare number that a text probably means, or an example of a
// place; nothing if there is none.
func (w want) bareValue(text string) []string {
	if w.key == "latitude" || w.key == "longitude" {
		like := "38.9"
		if w.key == "longitude" {
			like = "-104.8"
		}
		if v, ok := degrees(text); ok && v >= w.min && v <= w.max {
			like = strconv.FormatFloat(v, 'f', -1, 64)
		}
		return []string{like}
	}
	plain := strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	v, err := quantity.ParseNumber(plain)
	if err != nil || strings.Contains(text, "_") || len(plain)-strings.IndexByte(plain, '.') == 4 {
		return nil
	}
	return []string{strconv.FormatFloat(v, 'f', -1, 64)}
}

// degrees reads common ways to write an angle: 32,28; 32.28 N; 32° 17';
// 32°17'30" S. Marks separate degrees, minutes and seconds, in this order.
func degrees(text string) (float64, bool) {
	text = strings.ToUpper(strings.TrimSpace(text))
	sign, sides := 1.0, 0
	for _, side := range []struct {
		letter string
		sign   float64
	}{{"N", 1}, {"E", 1}, {"S", -1}, {"W", -1}} {
		for _, cut := range []func(string, string) (string, bool){strings.CutPrefix, strings.CutSuffix} {
			if rest, ok := cut(text, side.letter); ok {
				text, sign, sides = strings.TrimSpace(rest), side.sign, sides+1
			}
		}
	}
	if rest, minus := strings.CutPrefix(text, "-"); minus {
		text, sign = rest, -1
	}
	if sides > 1 {
		return 0, false
	}
	parts := strings.Fields(strings.NewReplacer("DEGREES", " ", "DEG", " ", "°", " ", "'", " ", "′", " ", "\"", " ", "″",
		" ").Replace(text))
	if len(parts) == 0 || len(parts) > 3 {
		return 0, false
	}
	v, unit := 0.0, 1.0
	for i, part := range parts {
		n, err := quantity.ParseNumber(strings.Replace(part, ",", ".", 1))
		if err != nil || n < 0 || i > 0 && n >= 60 || strings.ContainsAny(part, "E+-") {
			return 0, false
		}
		v += n / unit
		unit *= 60
	}
	return math.Round(1e4*sign*v) / 1e4, true
}
