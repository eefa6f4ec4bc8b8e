package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// Caution is a line below most figures.
const Caution = "All figures are estimates made before any change. Local watering rules come first."

// moreOrLess writes a change in words: a saving as less, a negative saving as
// more.
func moreOrLess(share float64) string {
	v := math.Round(100 * share)
	switch {
	case math.IsNaN(share):
		return "-"
	case v == 0:
		return "the same"
	case v < 0:
		return fmt.Sprintf("%.0f%% less", -v)
	}
	return fmt.Sprintf("%.0f%% more", v)
}

// days writes a mean number of days, whole.
func days(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return fmt.Sprintf("%.0f", v)
}

// ratio writes a ratio with two decimals.
func ratio(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	return fmt.Sprintf("%.2f", v)
}

// volumeText writes a volume in the units of the scenario, without its unit. It
// has three significant digits: no estimate of a year's water has more.
func volumeText(m3 float64, sys quantity.System) string {
	return quantity.Significant(quantity.Convert(m3, quantity.Volume, sys))
}

// depthText writes a depth in the units of the scenario, without its unit.
func depthText(mm float64, sys quantity.System) string {
	if math.IsNaN(mm) {
		return "-"
	}
	digits := 1
	if sys == quantity.US {
		digits = 2
	}
	return fmt.Sprintf("%.*f", digits, quantity.Convert(mm, quantity.Depth, sys))
}

// joinYears lists years as a plural subject of a sentence.
func joinYears(years []int) string {
	years = slices.Sorted(slices.Values(years))
	words := make([]string, len(years))
	for i, y := range years {
		words[i] = fmt.Sprint(y)
	}
	return "the days of " + strings.Join(words, ", ")
}

// Wrap breaks text into lines of at most width characters.
func Wrap(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > width {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

// between writes two shares as percent, or one number if they round to the
// same.
func between(a, b float64) string {
	from, to := fmt.Sprintf("%.0f", 100*a), fmt.Sprintf("%.0f", 100*b)
	if from == to {
		return from + "%"
	}
	return "between " + from + "% and " + to + "%"
}

// someOf lists at most five items and counts the rest.
func someOf(items []string) string {
	const most = 5
	if n := len(items) - most; n > 0 {
		return strings.Join(items[:most], "; ") + fmt.Sprintf("; and %d more", n)
	}
	return strings.Join(items, "; ")
}

// base returns the name of a file without folders, separated by slashes or
// backslashes.
func base(name string) string { return diag.Base(name) }
