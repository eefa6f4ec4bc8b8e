package plots

import (
	"math"
	"strconv"
	"strings"

	"loamledger/weather/portable"
	"loamledger/weather/quantity"
)

// Units is the system in which results are shown.
type Units uint8

// The unit systems.
const (
	US Units = iota // inches, gallons, square feet
	SI              // millimeters, cubic meters, square meters
)

func (u Units) system() quantity.System {
	if u == US {
		return quantity.US
	}
	return quantity.SI
}

func (u Units) depth(mm float64) float64  { return quantity.Convert(mm, quantity.Depth, u.system()) }
func (u Units) volume(m3 float64) float64 { return quantity.Convert(m3, quantity.Volume, u.system()) }
func (u Units) area(m2 float64) float64   { return quantity.Convert(m2, quantity.Area, u.system()) }

func (u Units) temperature(c float64) float64 {
	return quantity.Convert(c, quantity.Temperature, u.system())
}

func (u Units) temperatureUnit() string { return quantity.Label(quantity.Temperature, u.system()) }

func (u Units) depthUnit() string  { return quantity.Label(quantity.Depth, u.system()) }
func (u Units) volumeUnit() string { return quantity.Label(quantity.Volume, u.system()) }
func (u Units) areaUnit() string   { return quantity.Label(quantity.Area, u.system()) }

func (u Units) pick(us, si string) string {
	if u == US {
		return us
	}
	return si
}

func (u Units) depthDigits() int {
	if u == US {
		return 1
	}
	return 0
}

// depthWords writes a depth for a sentence, in which "in" could be read as a word.
func (u Units) depthWords(mm float64) string {
	return fixed(u.depth(mm), u.depthDigits()) + u.pick(" inches", " mm")
}

// volumeText writes a volume to three significant digits, with its unit.
func (u Units) volumeText(m3 float64) string { return rounded(u.volume(m3)) + " " + u.volumeUnit() }

// none replaces a missing number.
const none = "–"

// fixed writes v with the given decimals and a comma every three digits; NaN and
// infinities become a dash.
func fixed(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return none
	}
	s := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	whole, frac, _ := strings.Cut(s, ".")
	whole = quantity.Thousands(whole)
	if frac != "" {
		whole += "." + frac
	}
	if v < 0 && strings.ContainsAny(s, "123456789") {
		return "−" + whole
	}
	return whole
}

// rounded writes v to three significant digits.
func rounded(v float64) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return fixed(v, 0)
	}
	digits := int(math.Floor(portable.Log10(math.Abs(v))))
	if digits >= 2 {
		step := portable.Pow(10, float64(digits-2))
		return fixed(math.Round(v/step)*step, 0)
	}
	return fixed(v, 2-digits)
}

// events writes a number of events a year, rare ones with a decimal.
func events(n float64) string {
	if n < 10 {
		return fixed(n, 1)
	}
	return fixed(n, 0)
}

// percent writes a share as a whole percentage.
func percent(share float64) string {
	if math.IsNaN(share) {
		return none
	}
	return fixed(100*share, 0) + "%"
}

// sameWater reports whether [moreOrLess] shows no difference.
func sameWater(change float64) bool { return math.Round(100*change) == 0 }

// moreOrLess writes a change as a whole percentage and a direction.
func moreOrLess(change float64) string {
	switch p := math.Round(100 * change); {
	case math.IsNaN(change):
		return none
	case p == 0:
		return "no more"
	case p < 0:
		return fixed(-p, 0) + "% less"
	default:
		return fixed(p, 0) + "% more"
	}
}

func count(n int, one, many string) string { return quantity.Count(n, one, many) }

// Fixed writes v with the given decimals, for other packages; see fixed.
func Fixed(v float64, decimals int) string { return fixed(v, decimals) }

// Rounded writes v to three significant digits, for other packages; see rounded.
func Rounded(v float64) string { return rounded(v) }
