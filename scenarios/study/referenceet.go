package study

import (
	"fmt"

	"loamledger/weather/cal"
	"loamledger/weather/et0"
)

// ReferenceETLine says how the reference ET of a day of the record was
// obtained.
func (l *Study) ReferenceETLine(d cal.Date) string {
	i := int(d - l.Weather.Start)
	method := l.Weather.ET.Methods[i]
	line := fmt.Sprintf("Reference ET of %v: %.2f mm, %v.", d, l.Weather.ET.EToMM[i], method)
	if method.Way == et0.SuppliedByInput {
		line = fmt.Sprintf("Reference ET of %v: %.2f mm, supplied with the weather.", d, l.Weather.ET.EToMM[i])
	}
	return line
}
