package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Fault says why a text is no quantity of the dimension that was due. Msg is
// what was found and the rule it breaks, Fix what to write instead.
type Fault struct {
	Text string
	Dim  Dimension
	Msg  string
	Fix  string
}

func (f *Fault) Error() string { return f.Msg + "; " + f.Fix }

// Parse reads a number with a unit of dimension dim, such as "2400 ft2" or
// "40 %", and returns it in the base unit. A bare number is refused, 0 too,
// since a reader cannot know what its writer had in mind. The error is a
// [*Fault]. The result is finite.
func Parse(text string, dim Dimension) (float64, error) {
	number, unit := Cut(text)
	if number == "" {
		return 0, fault(text, dim, fmt.Sprintf("%q is not a number with a unit", text), example("12", dim))
	}
	v, err := ParseNumber(number)
	if err != nil {
		return 0, fault(text, dim, err.Error(), "write digits with a decimal point and no separators, "+exampleAs(number, dim))
	}
	if unit == "" {
		return 0, fault(text, dim, fmt.Sprintf("%s has no unit", number), example(number, dim))
	}
	u, ok := Find(unit, dim)
	if !ok {
		return 0, fault(text, dim, fmt.Sprintf("%s: %q is not a unit of %v", strings.TrimSpace(text), unit, dim), "use "+exampleOf(number, dim))
	}
	base := u.Base(v)
	if math.IsInf(base, 0) {
		return 0, fault(text, dim, fmt.Sprintf("%s is too large", number), "write a smaller number, "+exampleAs("12", dim))
	}
	return base, nil
}

// Cut parts a text into its leading number and the rest, which is the unit.
// The number is empty where the text starts with none.
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

// ParseNumber reads a plain decimal number: no separators of thousands, no
// decimal comma, no hexadecimal, nothing infinite.
func ParseNumber(text string) (float64, error) {
	if strings.ContainsAny(text, ",_") {
		return 0, fmt.Errorf("%q holds a comma or underscore", text)
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
	return &Fault{Text: text, Dim: dim, Msg: msg, Fix: fix}
}

func example(number string, dim Dimension) string { return "add a unit: " + exampleOf(number, dim) }

func exampleOf(number string, dim Dimension) string {
	return fmt.Sprintf("%s, as in %q", Names(dim), number+" "+units[dim][0].Name)
}

func exampleAs(number string, dim Dimension) string {
	plain := strings.NewReplacer(",", "", "_", "").Replace(number)
	if _, err := strconv.ParseFloat(plain, 64); err != nil {
		plain = "12"
	}
	return fmt.Sprintf("as in %q", plain+" "+units[dim][0].Name)
}
