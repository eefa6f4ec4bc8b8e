package quantity

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Count writes n things: "1 zone", "8 zones", "1,200 days".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return Whole(n) + " " + many
}

// Whole writes n with commas between thousands.
func Whole(n int) string {
	s := strconv.Itoa(n)
	if n < 0 {
		return "-" + Thousands(s[1:])
	}
	return Thousands(s)
}

// Thousands puts commas between the thousands of a whole number in decimal
// digits, without a sign.
func Thousands(digits string) string {
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// Capital returns text with its first letter in upper case, to begin a sentence. A key
// with an underscore stays as it is, since it is written so in files.
func Capital(text string) string {
	first, _, _ := strings.Cut(text, " ")
	r, n := utf8.DecodeRuneInString(text)
	if n == 0 || r == utf8.RuneError || strings.Contains(first, "_") {
		return text
	}
	return string(unicode.ToUpper(r)) + text[n:]
}
