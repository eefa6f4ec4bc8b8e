package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Fault says why a text is not a quantity of the expected dimension. Msg says
// what was found and the rule it breaks, Fix what to write instead.
type Fault struct {
	text string
	dim  Dimension
	Msg  string
	Fix  string
}

func (f *Fault) Error() string { return f.Msg + "; " + f.Fix }

// Parse reads a number with a unit of dimension dim, such as "2400 ft2" or
// "40%", and returns it in the base unit. A bare number is an error, even 0, since its unit would be a guess. The error is a
// [*Fault]. The result is finite.
func Parse(text string, dim Dimension) (float64, error) {
	number, unit := Cut(text)
	if number == "" {
		return 0, fault(text, dim, fmt.Sprintf("%q is not a number with a unit", text),
			fmt.Sprintf("write a number and a unit: %s, as in %q", Names(dim), examples[dim]))
	}
	u, known := Find(unit, dim)
	v, err := ParseNumber(number)
	if err != nil {
		like := examples[dim]
		if plain := strings.NewReplacer(",", "", "_", "").Replace(number); known {
			if _, err := ParseNumber(plain); err == nil {
				like = plain + " " + u.Name
			}
		}
		return 0, fault(text, dim, err.Error(), fmt.Sprintf("write digits with a decimal point and no separators, as in %q", like))
	}
	switch {
	case unit == "":
		return 0, fault(text, dim, fmt.Sprintf("%s has no unit", number), fixUnit(number, v, dim))
	case !known && dim == Duration && strings.HasPrefix(unit, ":"):
		return 0, fault(text, dim, fmt.Sprintf("%q looks like a time of day, not a duration", strings.TrimSpace(text)), fixClock(v, unit))
	case !known:
		// The number belongs to the unit it was written with; with another unit
		// it would be a wrong hint.
		return 0, fault(text, dim, fmt.Sprintf("%s: %q is not a unit of %v", strings.TrimSpace(text), unit, dim),
			fmt.Sprintf("use %s, as in %q", Names(dim), examples[dim]))
	}
	base := u.Base(v)
	if math.IsInf(base, 0) {
		return 0, fault(text, dim, fmt.Sprintf("%s is too large", number), fmt.Sprintf("write a smaller number, as in %q", examples[dim]))
	}
	return base, nil
}

// Cut splits a text into its leading number and the rest, which is the unit.
// The number is empty if the text does not start with one.
func Cut(text string) (number, unit string) {
	text = strings.TrimSpace(text)
	i := 0
	for i < len(text) && strings.IndexByte("+-.,_0123456789", text[i]) >= 0 {
		i++
	}
	// An exponent, as in 1.2e3, belongs to the number only when digits follow.
	if i > 0 && i < len(text) && (text[i] == 'e' || text[i] == 'E') {
		j := i + 1
		if j < len(text) && (text[j] == '+' || text[j] == '-') {
			j++
		}
		if k := j; k < len(text) && text[k] >= '0' && text[k] <= '9' {
			for k < len(text) && text[k] >= '0' && text[k] <= '9' {
				k++
			}
			i = k
		}
	}
	return text[:i], strings.TrimSpace(text[i:])
}

// ParseNumber reads a plain decimal number: no thousands separators, no decimal
// comma, no hexadecimal and no infinity.
func ParseNumber(text string) (float64, error) {
	if strings.ContainsAny(text, ",_") {
		return 0, fmt.Errorf("%q contains a comma or underscore", text)
	}
	if strings.ContainsAny(text, "xXpPnN") {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number", text)
	}
	return v, nil
}

// Names lists the units of dim, for messages: "ft2, m2, acre or ha".
func Names(dim Dimension) string {
	var b strings.Builder
	for i, u := range units[dim] {
		switch {
		case i == 0:
		case i == len(units[dim])-1:
			b.WriteString(" or ")
		default:
			b.WriteString(", ")
		}
		b.WriteString(u.Name)
	}
	return b.String()
}

func fault(text string, dim Dimension, msg, fix string) *Fault {
	return &Fault{text: text, dim: dim, Msg: msg, Fix: fix}
}

// examples shows a typical quantity of each dimension.
var examples = [Dimensions]string{
	Length: "6 ft", Depth: "0.25 in", Area: "2400 ft2", Volume: "3 gal", Rate: "1.5 in/h", Flow: "12 gpm", Duration: "20 min",
	Days: "7 days", Fraction: "50%", Temperature: "37 F", Speed: "4 mph", Capacity: "2 in/ft",
}

// fixUnit lists the units for a number without one. A share below 1 is shown as
// the percentage it would be.
func fixUnit(number string, v float64, dim Dimension) string {
	like := number + " " + units[dim][0].Name
	switch {
	case dim == Fraction && v > 0 && v < 1:
		like = strconv.FormatFloat(math.Round(1e8*v)/1e6, 'f', -1, 64) + "%"
	case dim == Fraction:
		like = number + "%"
	}
	return fmt.Sprintf("add a unit: %s, as in %q", Names(dim), like)
}

// fixClock converts 1:30 to minutes, in both possible senses.
func fixClock(v float64, unit string) string {
	rest, err := ParseNumber(strings.TrimPrefix(unit, ":"))
	if err != nil || v < 0 || rest < 0 || rest >= 60 {
		return fmt.Sprintf("use %s, as in %q", Names(Duration), examples[Duration])
	}
	short := func(v float64) string { return strconv.FormatFloat(math.Round(1e4*v)/1e4, 'f', -1, 64) + " min" }
	return fmt.Sprintf("write %q if these are hours and minutes, or %q if minutes and seconds", short(float64(60*v)+rest), short(v+rest/60))
}
