package quantity

import (
	"math"
	"strconv"
	"strings"
)

// A System is a choice of units for display.
type System uint8

// The systems. Files are always written in SI.
const (
	SI System = iota
	US
)

func (s System) String() string {
	if s == US {
		return "us"
	}
	return "si"
}

// shown names the display unit of each dimension and its maximum number of decimals.
var shown = [2][Dimensions]struct {
	unit     string
	label    string
	decimals int
}{
	SI: {
		Length: {"m", "m", 2}, Depth: {"mm", "mm", 1}, Area: {"m2", "m²", 1}, Volume: {"m3", "m³", 1}, Rate: {"mm/h", "mm/h", 1},
		Flow: {"L/min", "L/min", 1}, Duration: {"min", "min", 1}, Days: {"days", "d", 1}, Fraction: {"%", "%", 1},
		Temperature: {"C", "°C", 1}, Speed: {"m/s", "m/s", 1}, Capacity: {"mm/m", "mm/m", 0},
	},
	US: {
		Length: {"ft", "ft", 1}, Depth: {"in", "in", 2}, Area: {"ft2", "ft²", 0}, Volume: {"gal", "gal", 0}, Rate: {"in/h", "in/h", 2},
		Flow: {"gpm", "gpm", 1}, Duration: {"min", "min", 1}, Days: {"days", "d", 1}, Fraction: {"%", "%", 1},
		Temperature: {"F", "°F", 1}, Speed: {"mph", "mph", 1}, Capacity: {"in/ft", "in/ft", 2},
	},
}

// Convert converts v from the base unit of dim to the unit that system s shows,
// at full precision.
func Convert(v float64, dim Dimension, s System) float64 {
	u, _ := Find(shown[s][dim].unit, dim)
	return u.Of(v)
}

// Label returns the printed name of the unit that system s shows for dim, for
// axes and table headings.
func Label(dim Dimension, s System) string { return shown[s][dim].label }

// UnitName returns the name of the unit that system s shows for dim, as a scenario
// takes it.
func UnitName(dim Dimension, s System) string { return shown[s][dim].unit }

// Format returns v, given in the base unit of dim, as a person would write it
// in system s: rounded, with thousands separators and a unit. Lengths below one
// meter or six feet are shown in cm or in. NaN is "unknown".
func Format(v float64, dim Dimension, s System) string {
	if math.IsNaN(v) {
		return "unknown"
	}
	as := shown[s][dim]
	if dim == Length {
		switch {
		case s == SI && math.Abs(v) < 1 && v != 0:
			as.unit, as.label, as.decimals = "cm", "cm", 1
		case s == US && math.Abs(v) < 6*footM && v != 0:
			as.unit, as.label, as.decimals = "in", "in", 1
		}
	}
	u, _ := Find(as.unit, dim)
	n := u.Of(v)
	if dim == Days {
		as.label = "days"
		if n == 1 {
			as.label = "day"
		}
	}
	if as.label == "%" {
		return Number(n, as.decimals) + "%"
	}
	return Number(n, as.decimals) + " " + as.label
}

// Significant returns v to three significant digits, in whole numbers, with commas
// every three digits: 2,560,000. Below 100 it is whole. NaN is "-".
func Significant(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "-"
	}
	step := 1.0
	for math.Abs(v)/step >= 999.5 {
		step *= 10
	}
	text := strconv.FormatFloat(math.Round(v/step)*step, 'f', 0, 64)
	digits, negative := strings.CutPrefix(text, "-")
	if negative && digits != "0" {
		return "-" + Thousands(digits)
	}
	return Thousands(digits)
}

// Number returns v with at most the given decimals: at most one from 10 up and
// none from 100 up. Trailing zeros are dropped and thousands are separated by
// commas. A number too small to show gets two significant digits, so only 0
// reads as 0. NaN is "unknown".
func Number(v float64, decimals int) string {
	if math.IsNaN(v) {
		return "unknown"
	}
	if math.IsInf(v, 0) || math.Abs(v) >= 1e15 {
		return strconv.FormatFloat(v, 'g', 6, 64)
	}
	if v == 0 {
		return "0" // never −0
	}
	abs := math.Abs(v)
	switch {
	case abs >= 100:
		decimals = 0
	case abs >= 10:
		decimals = min(decimals, 1)
	}
	if abs < 0.5*math.Pow10(-decimals) {
		return strconv.FormatFloat(v, 'g', 2, 64)
	}
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	whole, part, _ := strings.Cut(text, ".")
	part = strings.TrimRight(part, "0")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	whole = Thousands(whole)
	if part != "" {
		whole += "." + part
	}
	return sign + whole
}
