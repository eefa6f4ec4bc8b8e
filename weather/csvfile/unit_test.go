package csvfile

import (
	"math"
	"testing"

	"loamledger/weather"
)

// Factors: the inch, the mile and the knot by definition (25.4 mm, 1609.344 m,
// 1852 m/h); the zero of °F by definition; radiation by FAO-56 table 3, from
// memory (1 MJ/m²/day = 23.9 cal/cm²/day = 11.6 W/m², rounded there, so within
// half a percent); 1 kWh = 3.6 MJ by definition.
func TestUnits(t *testing.T) {
	for _, tt := range []struct {
		col     weather.Column
		unit    string
		v, want float64
		rel     float64
	}{
		{weather.Tmax, "°C", 21.5, 21.5, 0}, {weather.Tmax, "ºC", 21.5, 21.5, 0}, {weather.Tmin, "Â°C", 1, 1, 0},
		{weather.Tmin, "\xb0C", 1, 1, 0},
		{weather.Tmax, "F", 212, 100, 1e-12}, {weather.Tmax, "°F", -40, -40, 1e-12}, {weather.Tmax, "deg c", 3, 3, 0},
		{weather.Tmax, "K", 273.15, 0, 0},
		{weather.Rain, "in", 1, 25.4, 0}, {weather.Rain, "inch", 2, 50.8, 0}, {weather.Rain, "mm/day", 3, 3, 0}, {weather.ETo, "mm", 4, 4, 0},
		{weather.Rs, "MJ/m²", 20, 20, 0}, {weather.Rs, "MJ/m^2/day", 20, 20, 0}, {weather.Rs, "kW-hr/m^2/day", 5, 18, 1e-12},
		{weather.Rs, "W/sq.m", 11.6, 1, 5e-3}, {weather.Rs, "W/m²", 11.6, 1, 5e-3}, {weather.Rs, "Ly/day", 23.9, 1, 5e-3},
		{weather.Rs, "J/cm2", 100, 1, 0},
		{weather.Ea, "mBars", 10, 1, 0}, {weather.Ea, "Pa", 1000, 1, 0}, {weather.Ea, "kPa", 1, 1, 0},
		{weather.Wind, "mph", 1, 1609.344 / 3600, 1e-12}, {weather.Wind, "mp/h", 1, 1609.344 / 3600, 1e-12},
		{weather.Wind, "km/h", 3.6, 1, 1e-12},
		{weather.Wind, "kn", 1, 1852.0 / 3600, 1e-12}, {weather.Wind, "km/day", 86.4, 1, 1e-12}, {weather.Wind, "m/s", 2, 2, 0},
		{weather.Sun, "s", 7200, 2, 0}, {weather.Sun, "min", 90, 1.5, 0}, {weather.RHmean, "pct", 50, 50, 0},
	} {
		to, ok := toColumn(tt.col, tt.unit)
		got := tt.v
		if to != nil {
			got = to(tt.v)
		}
		if !ok || math.Abs(got-tt.want) > tt.rel*max(1, math.Abs(tt.want)) {
			t.Errorf("%g %s is %g %s (known: %v), want %g", tt.v, tt.unit, got, tt.col.Unit(), ok, tt.want)
		}
	}
	for col, unit := range map[weather.Column]string{weather.Tmax: "", weather.Rain: "m", weather.Rs: "Wh", weather.Wind: "ft/s",
		weather.RHmax: "g/kg"} {
		if _, ok := toColumn(col, unit); ok {
			t.Errorf("unit %q passes for %s", unit, col.Key())
		}
	}
}

func TestHeaded(t *testing.T) {
	for cell, want := range map[string][2]string{
		"Max Air Temp (°C)":          {"Max Air Temp", "°C"},
		"Corrected (Adjusted) (kPa)": {"Corrected (Adjusted)", "kPa"},
		"Date":                       {"Date", ""},
		"odd (":                      {"odd (", ""},
	} {
		if name, unit := headed(cell); name != want[0] || unit != want[1] {
			t.Errorf("headed(%q) = %q, %q", cell, name, unit)
		}
	}
}

func TestDateForms(t *testing.T) {
	want, _ := ymd(2032, 2, 29)
	for text, read := range map[string]func([]byte) (d int, ok bool){
		"2032-02-29": asInt(isoDate), "2032/02/29": asInt(isoDate), "2032-02-29T00:00:00": asInt(isoDate), "2032-02-29 00:00": asInt(isoDate),
		"20320229": asInt(compactDate), "2/29/2032": asInt(monthFirst), "02/29/2032": asInt(monthFirst), "29/02/2032": asInt(dayFirst),
		"29-2-2032 0:00": asInt(dayFirst),
	} {
		if d, ok := read([]byte(text)); !ok || d != int(want) {
			t.Errorf("%q is day %d, %v", text, d, ok)
		}
	}
	for _, text := range []string{"2031-02-29", "2032-2-29", "2032-02-29T06:00", "2032-02/29", "1699-01-01", "2200-01-01", ""} {
		if _, ok := isoDate([]byte(text)); ok {
			t.Errorf("%q passes for a date", text)
		}
	}
	for _, text := range []string{"29/2/2032", "2/29", "2/29/2032/1", "2-29/2032", "//"} {
		if _, ok := monthFirst([]byte(text)); ok {
			t.Errorf("%q passes for month, day and year", text)
		}
	}
	if d, ok := yearDay(2032, 366); !ok || d.String() != "2032-12-31" {
		t.Errorf("day 366 of 2032 is %v, %v", d, ok)
	}
	if _, ok := yearDay(2031, 366); ok {
		t.Error("day 366 of 2031 passes")
	}
}

func asInt[D ~int32](read func([]byte) (D, bool)) func([]byte) (int, bool) {
	return func(b []byte) (int, bool) {
		d, ok := read(b)
		return int(d), ok
	}
}
