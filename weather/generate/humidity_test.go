package generate

import (
	"math"
	"testing"
)

// TestDewPointAt against FAO Irrigation and Drainage Paper 56 (1998), annex 2, table
// 2.3: saturation vapor pressure e°(T), in kPa with 3 decimals. Air at T with the humidity
// e°(dew)/e°(T) has that dew point; the rounding of e° moves it by less than 0.02 °C.
func TestDewPointAt(t *testing.T) {
	e := map[float64]float64{1: 0.657, 12.5: 1.449, 25: 3.168, 30: 4.243, 35: 5.623, 40: 7.376, 45: 9.582}
	for dew, eDew := range e {
		for at, eAt := range e {
			if got := dewPointAt(eDew/eAt, at); math.Abs(got-dew) > 0.02 {
				t.Errorf("air at %g °C with a humidity of %.3f has the dew point %.3f °C, table 2.3 says %g", at, eDew/eAt, got, dew)
			}
		}
	}
}
