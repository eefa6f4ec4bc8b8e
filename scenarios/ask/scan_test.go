package ask

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The expressions that the readers of answers were written after. The engine of the page
// would be a twentieth larger with package regexp in it.
var (
	sided     = regexp.MustCompile(`(?i)([0-9.]+)\s*°?\s*([nsew])\b`)
	priceText = regexp.MustCompile(`^(?i)([$€£]|[a-z]{3}|dollars?|euros?)?\s*([0-9]+(?:\.[0-9]+)?)\s*` +
		`([$€£]|[a-z]{3}|dollars?|euros?)?\s*(?:/|\bper\b|\ba\b)\s*(.+)$`)
	by        = regexp.MustCompile(`(?i)\s*(?:\bby\b|[x×*])\s*`)
	plainText = regexp.MustCompile(`^(-?[0-9]|[A-Za-z])[A-Za-z0-9 ./%+_-]*$`)
	everyN    = regexp.MustCompile(`(?i)^\s*(?:every\s+)?(\d+|other|second|third|two|three|four|five)(?:st|nd|rd|th)?\s+days?\s*$`)
)

// Texts of pieces that matter are read as the expressions read them.
func TestReadersAgreeWithExpressions(t *testing.T) {
	pieces := []string{" ", "  ", "\t", "1", "12", "3", "0.5", ".", "-", "+", "°", "n", "S", "W", "e", "x", "X", "×", "*", "by", "By", "b",
		"$", "€",
		"USD", "eur", "dollars", "Dollar", "euro", "euros", "/", "per", "PER", "a", "A", "kgal", "1,000 gal",
		"every", "other", "second", "third", "two",
		"days", "day", "Days", "st", "nd", "th", "_", "%", "ft", "é", "\n", ":", ","}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 0, 9).Draw(t, "pieces"), "")
		want := sided.ReplaceAllStringFunc(text, func(part string) string {
			m := sided.FindStringSubmatch(part)
			if strings.ContainsAny(m[2], "sSwW") {
				return "-" + m[1]
			}
			return m[1]
		})
		if got := signed(text); got != want {
			t.Errorf("signed(%q) = %q, not %q", text, got, want)
		}
		if got, want := splitBy(text), by.Split(text, -1); !slices.Equal(got, want) {
			t.Errorf("splitBy(%q) = %q, not %q", text, got, want)
		}
		if got, want := isPlain(text), plainText.MatchString(text); got != want {
			t.Errorf("isPlain(%q) = %v", text, got)
		}
		trimmed := strings.TrimSpace(text)
		m := priceText.FindStringSubmatch(trimmed)
		before, number, after, unit, ok := cutPrice(trimmed)
		if got := []string{trimmed, before, number, after, unit}; ok != (m != nil) || ok && !slices.Equal(got, m) {
			t.Errorf("cutPrice gives %q, not %q", got, m)
		}
		days := 0
		if m := everyN.FindStringSubmatch(text); m != nil {
			days = ordinals[strings.ToLower(m[1])]
			if n, err := strconv.Atoi(m[1]); err == nil && n > 1 {
				days = n
			}
		}
		if got := intervalDays(text); got != days {
			t.Errorf("intervalDays(%q) = %d, not %d", text, got, days)
		}
	})
}

// Intervals as people type them; 0 is no interval. Expected values are by hand.
func TestIntervalDays(t *testing.T) {
	for text, want := range map[string]int{"every 3 days": 3, " Every  third day ": 3, "every 3rd day": 3, "every other day": 2, "2 days": 2,
		"every second day": 2, "every four days": 4, "every day": 0, "every 1 days": 0,
		"3": 0, "every 3": 0, "-3 days": 0, "+3 days": 0, "days": 0} {
		if got := intervalDays(text); got != want {
			t.Errorf("%q: %d, not %d", text, got, want)
		}
	}
}
