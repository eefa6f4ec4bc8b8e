package study

import (
	"fmt"

	"loamledger/weather/cal"
	"loamledger/weather/et0"
	"loamledger/weather/quantity"
)

// ReferenceETLine says how the reference ET of a day of the record was
// obtained.
func (l *Study) ReferenceETLine(d cal.Date) string {
	i := int(d - l.Weather.Start)
	method := l.Weather.ET.Methods[i]
	depth := fmt.Sprintf("%.2f mm", l.Weather.ET.EToMM[i])
	if l.Scenario.Units == quantity.US {
		depth = fmt.Sprintf("%.3f in", quantity.Convert(l.Weather.ET.EToMM[i], quantity.Depth, quantity.US))
	}
	line := fmt.Sprintf("Reference ET on %v: %s, %v.", d, depth, method)
	if method.Way == et0.SuppliedByInput {
		line = fmt.Sprintf("Reference ET on %v: %s, supplied with the weather.", d, depth)
	}
	return line
}
