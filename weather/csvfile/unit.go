package csvfile

import (
	"strings"

	"loamledger/weather"
)

// headed splits a header cell such as "Max Air Temp (°C)" into its name and
// unit, both trimmed. The unit is "" if there is none.
func headed(cell string) (name, unit string) {
	i := strings.LastIndexByte(cell, '(')
	if i < 0 || !strings.HasSuffix(cell, ")") {
		return cell, ""
	}
	return strings.TrimSpace(cell[:i]), strings.TrimSpace(cell[i+1 : len(cell)-1])
}

// plainUnit normalizes a unit: lower case, no blanks, and ASCII only, so that
// the degree sign and the superscript 2 are gone in any encoding.
func plainUnit(unit string) string {
	var b strings.Builder
	for _, c := range []byte(strings.ToLower(unit)) {
		if c > ' ' && c < 0x7f && c != '^' && c != '.' {
			b.WriteByte(c)
		}
	}
	u := b.String()
	u = strings.TrimPrefix(u, "deg")
	u = strings.TrimSuffix(strings.TrimSuffix(u, "/day"), "/d")
	u = strings.ReplaceAll(u, "sqm", "m2")
	return u
}

// toColumn returns the conversion from a unit, as written in a header, to that
// of the column, and whether the unit is known for it. A nil conversion means
// the units are the same. Wind in km/day is wind run.
func toColumn(c weather.Column, unit string) (to func(float64) float64, ok bool) {
	u := plainUnit(unit)
	switch c {
	case weather.Tmax, weather.Tmin, weather.Tdew:
		switch u {
		case "c", "celsius", "oc":
			return nil, true
		case "f", "fahrenheit", "of":
			return fahrenheit, true
		case "k", "kelvin":
			return kelvin, true
		}
	case weather.Rain, weather.ETo, weather.ETr:
		switch u {
		case "mm", "millimetres", "millimeters", "kg/m2":
			return nil, true
		case "in", "inch", "inches":
			return inches, true
		case "cm":
			return centimeters, true
		}
	case weather.RHmax, weather.RHmin, weather.RHmean:
		switch u {
		case "%", "pct", "percent":
			return nil, true
		}
	case weather.Ea:
		switch u {
		case "kpa":
			return nil, true
		case "hpa", "mbar", "mbars", "mb":
			return hectopascals, true
		case "pa":
			return pascals, true
		}
	case weather.Rs:
		switch u {
		case "mj/m2", "mj/m":
			return nil, true
		case "kw-hr/m2", "kwh/m2", "kwh/m", "kw-h/m2":
			return kilowattHours, true
		case "w/m2", "w/m":
			return watts, true
		case "ly", "langley", "langleys":
			return langleys, true
		case "j/cm2", "j/cm":
			return joulesPerCM2, true
		case "kj/m2", "kj/m":
			return pascals, true // the same factor of 1000
		}
	case weather.Sun:
		switch u {
		case "h", "hr", "hours":
			return nil, true
		case "min", "minutes":
			return minutes, true
		case "s", "seconds":
			return seconds, true
		}
	case weather.Wind:
		switch u {
		case "m/s", "mps":
			return nil, true
		case "km/h", "kph", "kmh":
			return kmh, true
		case "mph", "mp/h", "mi/h":
			return mph, true
		case "kn", "knots", "kt":
			return knots, true
		}
		if strings.HasPrefix(strings.ToLower(unit), "km/d") {
			return kmPerDay, true
		}
	}
	return nil, false
}
