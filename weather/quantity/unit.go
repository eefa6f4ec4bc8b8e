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
	Also     []string // other accepted spellings
	Num, Den float64
	Zero     float64
	Source   string // source of the factor; empty for decimal multiples
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
		{Name: "ft", Also: []string{"feet", "foot"}, Num: 3048, Den: 10000, Source: fromFoot},
		{Name: "in", Also: []string{"inch", "inches"}, Num: 254, Den: 10000, Source: fromInch},
		{Name: "m", Num: 1, Den: 1},
		{Name: "cm", Num: 1, Den: 100},
		{Name: "mm", Num: 1, Den: 1000},
	},
	Depth: {
		{Name: "in", Also: []string{"inch", "inches"}, Num: 254, Den: 10, Source: fromInch},
		{Name: "mm", Num: 1, Den: 1},
		{Name: "cm", Num: 10, Den: 1},
	},
	Area: {
		{Name: "ft2", Also: []string{"ft²", "sq ft", "sqft", "sf"}, Num: 9290304, Den: 1e8, Source: fromFoot},
		{Name: "m2", Also: []string{"m²", "sq m"}, Num: 1, Den: 1},
		{Name: "acre", Also: []string{"acres", "ac"}, Num: 40468564224, Den: 1e7, Source: "43,560 ft², " + fromFoot},
		{Name: "ha", Num: 10000, Den: 1},
	},
	Volume: {
		{Name: "gal", Also: []string{"gallon", "gallons"}, Num: 3785411784, Den: 1e12, Source: fromGallon},
		{Name: "kgal", Num: 3785411784, Den: 1e9, Source: fromGallon},
		{Name: "HCF", Also: []string{"CCF"}, Num: 28316846592, Den: 1e10, Source: "100 ft³, " + fromFoot},
		{Name: "ft3", Also: []string{"ft³", "cu ft", "cubic feet"}, Num: 28316846592, Den: 1e12, Source: fromFoot},
		{Name: "AF", Also: []string{"acre-ft", "acre-foot", "acre-feet"}, Num: 123348183754752, Den: 1e11, Source: "43,560 ft³, " + fromFoot},
		{Name: "m3", Also: []string{"m³"}, Num: 1, Den: 1},
		{Name: "L", Num: 1, Den: 1000},
	},
	Rate: {
		{Name: "in/h", Also: []string{"in/hr", "iph", "inch/h", "inches/h", "inches/hour"}, Num: 254, Den: 10, Source: fromInch},
		{Name: "mm/h", Also: []string{"mm/hr"}, Num: 1, Den: 1},
	},
	Flow: {
		{Name: "gpm", Also: []string{"gal/min"}, Num: 3785411784, Den: 1e9, Source: fromGallon},
		{Name: "gph", Also: []string{"gal/h", "gal/hr"}, Num: 3785411784, Den: 60e9, Source: fromGallon},
		{Name: "L/min", Also: []string{"lpm"}, Num: 1, Den: 1},
		{Name: "L/h", Also: []string{"L/hr", "lph"}, Num: 1, Den: 60},
		{Name: "L/s", Num: 60, Den: 1},
		{Name: "m3/h", Also: []string{"m³/h", "m3/hr", "m³/hr"}, Num: 1000, Den: 60},
	},
	Duration: {
		{Name: "min", Also: []string{"mins", "minute", "minutes"}, Num: 1, Den: 1},
		{Name: "h", Also: []string{"hr", "hour", "hours"}, Num: 60, Den: 1},
		{Name: "s", Also: []string{"sec", "seconds"}, Num: 1, Den: 60},
	},
	Days: {
		{Name: "days", Also: []string{"day", "d"}, Num: 1, Den: 1},
		{Name: "weeks", Also: []string{"week"}, Num: 7, Den: 1},
		{Name: "h", Also: []string{"hr", "hour", "hours"}, Num: 1, Den: 24},
	},
	Fraction: {
		{Name: "%", Also: []string{"percent"}, Num: 1, Den: 100},
		{Name: "share", Num: 1, Den: 1},
	},
	Temperature: {
		{Name: "F", Also: []string{"°F"}, Num: 5, Den: 9, Zero: 32, Source: "0 °C is 32 °F, 100 °C is 212 °F"},
		{Name: "C", Also: []string{"°C"}, Num: 1, Den: 1},
	},
	Speed: {
		{Name: "mph", Also: []string{"mi/h"}, Num: 44704, Den: 1e5, Source: "mile of 5,280 ft, " + fromFoot},
		{Name: "m/s", Num: 1, Den: 1},
		{Name: "km/h", Num: 10, Den: 36},
	},
	Capacity: {
		{Name: "in/ft", Num: 1000, Den: 12, Source: "12 in to the foot"},
		{Name: "in/in", Num: 1000, Den: 1},
		{Name: "mm/m", Num: 1, Den: 1},
		{Name: "%", Also: []string{"percent"}, Num: 10, Den: 1, Source: "share of the soil's volume"},
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
		if strings.EqualFold(u.Name, name) || slices.ContainsFunc(u.Also, func(a string) bool { return strings.EqualFold(a, name) }) {
			return u, true
		}
	}
	return Unit{}, false
}

// Base converts v from unit u to the base unit.
func (u Unit) Base(v float64) float64 { return (v - u.Zero) * u.Num / u.Den }

// Of converts v from the base unit to unit u.
func (u Unit) Of(v float64) float64 { return v*u.Den/u.Num + u.Zero }
