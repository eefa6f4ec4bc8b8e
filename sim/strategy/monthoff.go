package strategy

import (
	"slices"

	"loamledger/weather/quantity"
)

// MonthOff reports whether a part keeps the system off in all of calendar month
// m, 1 to 12, of every year.
func MonthOff(p Part, m int) bool {
	off, ok := p.(interface{ monthOff(m int) bool })
	return ok && off.monthOff(m)
}

// AllLines is [Lines] of all parts of a strategy, in their order, without what
// they would set in months in which one of them keeps the system off.
func AllLines(parts []Part, zones []string, sys quantity.System) (out []string, err error) {
	off := func(m int) bool { return slices.ContainsFunc(parts, func(p Part) bool { return MonthOff(p, m) }) }
	for _, p := range parts {
		lines, err := Lines(p, zones, sys)
		if err != nil {
			return nil, err
		}
		if by, ok := p.(interface {
			linesWithout(off func(m int) bool) []string
		}); ok {
			lines = by.linesWithout(off)
		}
		out = append(out, lines...)
	}
	return out, nil
}
