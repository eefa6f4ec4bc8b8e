package csvfile

import (
	"fmt"

	"loamledger/weather"
	"loamledger/weather/cal"
)

var (
	unitsContradicted = kind{weather.CodeUnitsContradicted, "declared units that the values contradict", "read as declared", noSource}
	oddCell           = kind{weather.CodeOddCell, "a cell beyond the world records in the units of all other cells", "kept here; the checks " +
		"drop impossible values", "World Meteorological Organization, archive of weather and climate extremes"}
)

// oddCells notes the cells that are impossible in the units of the others.
func (b *builder) oddCells() {
	for _, l := range [...]struct {
		c         weather.Column
		low, high float64
	}{{weather.Tmax, coldestC, hottestC}, {weather.Tmin, coldestC, hottestC}, {weather.Rain, 0, wettestMM}, {weather.Rs, 0, mostMJ},
		{weather.RHmax, 0, 150}, {weather.RHmin, 0, 150}} {
		for i, v := range b.data[l.c] {
			if i >= len(b.lines) {
				break
			}
			if worth := max(l.low-v, v-l.high); worth > 0.05 {
				b.note(oddCell, l.c, hit{b.base + cal.Date(i), int(b.lines[i]), worth, fmt.Appendf(nil, "%.4g %s", v, l.c.Unit())})
			}
		}
	}
}
