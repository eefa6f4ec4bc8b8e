package generate

import (
	"math"
	"testing"

	"loamledger/weather"
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

// TestDryAirLasts: the dew points that normals give by default hang together from day to day, as
// asked; a fit finds how much; and they never fall so far in a day that the checks of weather
// would take the day for an error.
func TestDryAirLasts(t *testing.T) {
	n := DemoNormals()
	n.DewLag = DefaultDewLag
	p, err := n.Params()
	if err != nil {
		t.Fatal(err)
	}
	rec := years(t, p, 100, 4)
	again, _, err := Fit(&rec.Series, 0)
	if err != nil {
		t.Fatal(err)
	}
	// Rounding to tenths, the limits and days of one kind within a month take a little of it away.
	if math.Abs(again.dewLag-DefaultDewLag) > 0.05 {
		t.Errorf("the dew point has a correlation of %.3f with the day before, given was %g", again.dewLag, DefaultDewLag)
	}
	dew, tmin := rec.Data[weather.Tdew], rec.Data[weather.Tmin]
	for i := 1; i < len(dew); i++ {
		if dew[i] > tmin[i] || dew[i] < dew[i-1]-mostDewFallC-0.051 && dew[i] < tmin[i] {
			t.Errorf("%v: dew point %g °C, the day before %g °C, Tmin %g °C", rec.Date(i), dew[i], dew[i-1], tmin[i])
		}
	}
	p.dewLag = 1
	if _, err := Generate(p, DemoStation(), rec.Start, 10, 1); err == nil {
		t.Error("a correlation of 1 is not refused")
	}
}
