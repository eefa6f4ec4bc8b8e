package quantity

import (
	"slices"
	"strings"
)

// A Unit is one way to write a quantity. A value v in the unit is (v −
// Zero)·Num/Den in the base unit of its dimension; only temperatures have a
// Zero. The factor is a fraction of whole numbers, so that 70% is exactly 0.7
// and 1.5 in/h exactly 38.1 mm/h.
type Unit struct {
	Name     string   // as offered and printed
	also     []string // other accepted spellings
	Num, Den float64
	Zero     float64
	source   string // source of the factor; empty for decimal multiples
}

// The international inch and foot were fixed in 1959; the US gallon is 231 in³
// by definition. All factors below follow from these:
//
//	1 ft² = 0.3048² m² = 0.09290304 m²,  1 acre = 43,560 ft² = 4046.8564224 m²
//	1 gal = 231·0.254³ L = 3.785411784 L
//	100 ft³ = 2.8316846592 m³,  1 acre-foot = 43,560 ft³ = 1233.48183754752 m³
//	1 mi/h = 5280·0.3048/3600 m/s = 0.44704 m/s
const (
	fromInch   = "international inch, 25.4 mm exactly"
	fromFoot   = "international foot, 0.3048 m exactly"
	fromGallon = "US gallon, 231 cubic inches exactly"
)

// Lengths and areas used by published values.
const (
	InchMM = 25.4 // mm, exactly
	AcreM2 = 4046.8564224

	footM = 0.3048
)

// units lists the units of each dimension; messages show the first of each list
// first.
var units = [Dimensions][]Unit{
	Length: {
		{Name: "ft", also: []string{"feet", "foot"}, Num: 3048, Den: 10000, source: fromFoot},
		{Name: "in", also: []string{"inch", "inches"}, Num: 254, Den: 10000, source: fromInch},
		{Name: "m", Num: 1, Den: 1},
		{Name: "cm", Num: 1, Den: 100},
		{Name: "mm", Num: 1, Den: 1000},
	},
	Depth: {
		{Name: "in", also: []string{"inch", "inches"}, Num: 254, Den: 10, source: fromInch},
		{Name: "mm", Num: 1, Den: 1},
		{Name: "cm", Num: 10, Den: 1},
	},
	Area: {
		{Name: "ft2", also: []string{"ft²", "sq ft", "sqft", "sf"}, Num: 9290304, Den: 1e8, source: fromFoot},
		{Name: "m2", also: []string{"m²", "sq m"}, Num: 1, Den: 1},
		{Name: "acre", also: []string{"acres", "ac"}, Num: 40468564224, Den: 1e7, source: "43,560 ft², " + fromFoot},
		{Name: "ha", Num: 10000, Den: 1},
	},
	Volume: {
		{Name: "gal", also: []string{"gallon", "gallons"}, Num: 3785411784, Den: 1e12, source: fromGallon},
		{Name: "kgal", Num: 3785411784, Den: 1e9, source: fromGallon},
		{Name: "HCF", also: []string{"CCF"}, Num: 28316846592, Den: 1e10, source: "100 ft³, " + fromFoot},
		{Name: "ft3", also: []string{"ft³", "cu ft", "cubic feet"}, Num: 28316846592, Den: 1e12, source: fromFoot},
		{Name: "AF", also: []string{"acre-ft", "acre-foot", "acre-feet"}, Num: 123348183754752, Den: 1e11, source: "43,560 ft³, " + fromFoot},
		{Name: "m3", also: []string{"m³"}, Num: 1, Den: 1},
		{Name: "L", Num: 1, Den: 1000},
	},
	Rate: {
		{Name: "in/h", also: []string{"in/hr", "iph", "inch/h", "inches/h", "inches/hour"}, Num: 254, Den: 10, source: fromInch},
		{Name: "mm/h", also: []string{"mm/hr"}, Num: 1, Den: 1},
	},
	Flow: {
		{Name: "gpm", also: []string{"gal/min"}, Num: 3785411784, Den: 1e9, source: fromGallon},
		{Name: "gph", also: []string{"gal/h", "gal/hr"}, Num: 3785411784, Den: 60e9, source: fromGallon},
		{Name: "L/min", also: []string{"lpm"}, Num: 1, Den: 1},
		{Name: "L/h", also: []string{"L/hr", "lph"}, Num: 1, Den: 60},
		{Name: "L/s", Num: 60, Den: 1},
		{Name: "m3/h", also: []string{"m³/h", "m3/hr", "m³/hr"}, Num: 1000, Den: 60},
	},
	Duration: {
		{Name: "min", also: []string{"mins", "minute", "minutes"}, Num: 1, Den: 1},
		{Name: "h", also: []string{"hr", "hour", "hours"}, Num: 60, Den: 1},
		{Name: "s", also: []string{"sec", "seconds"}, Num: 1, Den: 60},
	},
	Days: {
		{Name: "days", also: []string{"day", "d"}, Num: 1, Den: 1},
		{Name: "weeks", also: []string{"week"}, Num: 7, Den: 1},
		{Name: "h", also: []string{"hr", "hour", "hours"}, Num: 1, Den: 24},
	},
	Fraction: {
		{Name: "%", also: []string{"percent"}, Num: 1, Den: 100},
		{Name: "share", Num: 1, Den: 1},
	},
	Temperature: {
		{Name: "F", also: []string{"°F"}, Num: 5, Den: 9, Zero: 32, source: "0 °C is 32 °F, 100 °C is 212 °F"},
		{Name: "C", also: []string{"°C"}, Num: 1, Den: 1},
	},
	Speed: {
		{Name: "mph", also: []string{"mi/h"}, Num: 44704, Den: 1e5, source: "mile of 5,280 ft, " + fromFoot},
		{Name: "m/s", Num: 1, Den: 1},
		{Name: "km/h", Num: 10, Den: 36},
	},
	Capacity: {
		{Name: "in/ft", Num: 1000, Den: 12, source: "12 in to the foot"},
		{Name: "in/in", Num: 1000, Den: 1},
		{Name: "mm/m", Num: 1, Den: 1},
		{Name: "%", also: []string{"percent"}, Num: 10, Den: 1, source: "share of the soil's volume"},
	},
}

var dimensionNames = [Dimensions]string{
	Length: "length", Depth: "depth of water", Area: "area", Volume: "volume", Rate: "rate", Flow: "flow", Duration: "time",
	Days: "span of days", Fraction: "share", Temperature: "temperature", Speed: "speed", Capacity: "depth of water per depth of soil",
}

// String returns the dimension in words, such as "depth of water".
func (d Dimension) String() string { return dimensionNames[d] }

// Units returns the units accepted for dimension d. The caller owns the slice
// but must not change what its elements point to.
func Units(d Dimension) []Unit { return slices.Clone(units[d]) }

// BaseUnit returns the name of the unit used internally.
func (d Dimension) BaseUnit() string { return baseUnits[d] }

var baseUnits = [Dimensions]string{
	Length: "m", Depth: "mm", Area: "m2", Volume: "m3", Rate: "mm/h", Flow: "L/min", Duration: "min", Days: "days",
	Fraction: "share", Temperature: "C", Speed: "m/s", Capacity: "mm/m",
}

// Find returns the unit of dimension d written as name; case is ignored.
func Find(name string, d Dimension) (Unit, bool) {
	for _, u := range units[d] {
		if strings.EqualFold(u.Name, name) || slices.ContainsFunc(u.also, func(a string) bool { return strings.EqualFold(a, name) }) {
			return u, true
		}
	}
	return Unit{}, false
}

// Base converts v from unit u to the base unit.
func (u Unit) Base(v float64) float64 { return (v - u.Zero) * u.Num / u.Den }

// Of converts v from the base unit to unit u.
func (u Unit) Of(v float64) float64 { return v*u.Den/u.Num + u.Zero }
