package accounts

import (
	"strconv"
	"strings"

	"loamledger/sim/draw"
	"loamledger/weather/quantity"
)

// ParseRange reads one number, two as a range in which all values are equally likely, or
// three as one with the most likely value in the middle. A unit after the last number is
// that of all. Numbers are returned in the base unit.
func ParseRange(text string, dim quantity.Dimension) (values []float64, err error) {
	parts := strings.Split(text, " to ")
	_, unit := quantity.Cut(parts[len(parts)-1])
	for _, part := range parts {
		if number, own := quantity.Cut(part); own == "" && unit != "" {
			part = number + " " + unit
		}
		v, err := quantity.Parse(part, dim)
		if err != nil {
			return nil, err
		}
		values = append(values, v)
	}
	return values, nil
}

// RangeOf returns the range of one, two or three numbers; ok is false for other counts or
// if they are not in order.
func RangeOf(values []float64) (r draw.Range, ok bool) {
	switch len(values) {
	case 1:
		return draw.Range{Low: values[0], Mode: values[0], High: values[0], Flat: true}, true
	case 2:
		r = draw.Between(values[0], values[1])
	case 3:
		r = draw.Around(values[0], values[1], values[2])
	}
	return r, r.Known()
}

// writeRange writes numbers so that [ParseRange] gives them back, times a factor.
func writeRange(values []float64, factor float64, unit string) string {
	texts := make([]string, len(values))
	for i, v := range values {
		texts[i] = strconv.FormatFloat(v*factor, 'f', -1, 64) + " " + unit
	}
	return strings.Join(texts, " to ")
}
