package quantity

// A Unit is one way of writing a quantity. A value v in the unit is
// v·Factor + Offset in the base unit of its dimension; only temperatures have
// an Offset.
type Unit struct {
	Name   string   // as it is offered and printed
	Also   []string // other spellings that are read
	Factor float64
	Offset float64
	Source string // of the factor; empty for decimal multiples
}

// The international inch, foot and pound were fixed in 1959; the US gallon is
// 231 in³ by definition. All factors below follow from these two.
const (
	inchMM   = 25.4
	footM    = 0.3048
	foot2M2  = footM * footM
	gallonL  = 231 * 0.254 * 0.254 * 0.254 // 3.785411784 L: 231 in³, an inch being 0.254 dm
	foot3M3  = footM * footM * footM
	acreM2   = 43560 * foot2M2
	mileM    = 5280 * footM
	perMille = 1000

	fromInch   = "international inch, 25.4 mm exactly"
	fromFoot   = "international foot, 0.3048 m exactly"
	fromGallon = "US gallon, 231 cubic inches exactly"
)

// units lists the units of each dimension; the first of a list is the one that
// messages show first.
var units = [Dimensions][]Unit{
	Length: {
		{Name: "ft", Also: []string{"feet", "foot"}, Factor: footM, Source: fromFoot},
		{Name: "in", Also: []string{"inch", "inches"}, Factor: inchMM / 1000, Source: fromInch},
		{Name: "m", Factor: 1},
		{Name: "cm", Factor: 0.01},
		{Name: "mm", Factor: 0.001},
	},
	Depth: {
		{Name: "in", Also: []string{"inch", "inches"}, Factor: inchMM, Source: fromInch},
		{Name: "mm", Factor: 1},
		{Name: "cm", Factor: 10},
	},
	Area: {
		{Name: "ft2", Also: []string{"ft²", "sq ft", "sqft", "sf"}, Factor: foot2M2, Source: fromFoot},
		{Name: "m2", Also: []string{"m²", "sq m"}, Factor: 1},
		{Name: "acre", Also: []string{"acres", "ac"}, Factor: acreM2, Source: "43,560 ft², " + fromFoot},
		{Name: "ha", Factor: 10000},
	},
	Volume: {
		{Name: "gal", Also: []string{"gallon", "gallons"}, Factor: gallonL / 1000, Source: fromGallon},
		{Name: "kgal", Factor: gallonL, Source: fromGallon},
		{Name: "HCF", Also: []string{"CCF"}, Factor: 100 * foot3M3, Source: "100 ft³, " + fromFoot},
		{Name: "AF", Also: []string{"acre-ft", "acre-foot", "acre-feet"}, Factor: acreM2 * footM, Source: "43,560 ft³, " + fromFoot},
		{Name: "m3", Also: []string{"m³"}, Factor: 1},
		{Name: "L", Factor: 0.001},
	},
	Rate: {
		{Name: "in/h", Also: []string{"in/hr", "iph"}, Factor: inchMM, Source: fromInch},
		{Name: "mm/h", Also: []string{"mm/hr"}, Factor: 1},
	},
	Flow: {
		{Name: "gpm", Also: []string{"gal/min"}, Factor: gallonL, Source: fromGallon},
		{Name: "L/min", Factor: 1},
		{Name: "L/s", Factor: 60},
		{Name: "m3/h", Also: []string{"m³/h"}, Factor: 1000.0 / 60},
	},
	Duration: {
		{Name: "min", Also: []string{"mins", "minute", "minutes"}, Factor: 1},
		{Name: "h", Also: []string{"hr", "hour", "hours"}, Factor: 60},
		{Name: "s", Also: []string{"sec", "seconds"}, Factor: 1.0 / 60},
	},
	Days: {
		{Name: "days", Also: []string{"day", "d"}, Factor: 1},
		{Name: "weeks", Also: []string{"week"}, Factor: 7},
		{Name: "h", Also: []string{"hr", "hour", "hours"}, Factor: 1.0 / 24},
	},
	Fraction: {
		{Name: "%", Also: []string{"percent"}, Factor: 0.01},
		{Name: "share", Factor: 1},
	},
	Temperature: {
		{Name: "F", Also: []string{"°F"}, Factor: 5.0 / 9, Offset: -32 * 5.0 / 9, Source: "0 °C is 32 °F, 100 °C is 212 °F"},
		{Name: "C", Also: []string{"°C"}, Factor: 1},
	},
	Speed: {
		{Name: "mph", Also: []string{"mi/h"}, Factor: mileM / 3600, Source: "mile of 5,280 ft, " + fromFoot},
		{Name: "m/s", Factor: 1},
		{Name: "km/h", Factor: 1 / 3.6},
	},
	Capacity: {
		{Name: "in/ft", Factor: perMille / 12.0, Source: "12 in to the foot"},
		{Name: "in/in", Factor: perMille},
		{Name: "mm/m", Factor: 1},
		{Name: "%", Also: []string{"percent"}, Factor: 10, Source: "share of the soil's volume"},
	},
}

var dimensionNames = [Dimensions]string{
	Length: "length", Depth: "depth of water", Area: "area", Volume: "volume", Rate: "rate", Flow: "flow", Duration: "time",
	Days: "span of days", Fraction: "share", Temperature: "temperature", Speed: "speed", Capacity: "depth of water per depth of soil",
}

// String returns the dimension in words, such as "depth of water".
func (d Dimension) String() string { return dimensionNames[d] }

// Units returns the units in which a quantity of dimension d may be written.
func Units(d Dimension) []Unit { return units[d] }

// BaseUnit returns the name of the unit used inside.
func (d Dimension) BaseUnit() string { return baseUnits[d] }

var baseUnits = [Dimensions]string{
	Length: "m", Depth: "mm", Area: "m2", Volume: "m3", Rate: "mm/h", Flow: "L/min", Duration: "min", Days: "days",
	Fraction: "share", Temperature: "C", Speed: "m/s", Capacity: "mm/m",
}

// Find returns the unit of dimension d written as name; case is ignored.
func Find(name string, d Dimension) (Unit, bool) {
	for _, u := range units[d] {
		if same(u.Name, name) {
			return u, true
		}
		for _, a := range u.Also {
			if same(a, name) {
				return u, true
			}
		}
	}
	return Unit{}, false
}

// Base turns v in unit u into the base unit.
func (u Unit) Base(v float64) float64 { return v*u.Factor + u.Offset }

// Of turns v in the base unit into unit u.
func (u Unit) Of(v float64) float64 { return (v - u.Offset) / u.Factor }
