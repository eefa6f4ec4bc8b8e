package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestBOM(t *testing.T) {
	rec := check(t, "rain", fixture(t, "bom.csv"), Options{}, 6, []want{
		{"2031-01-03", weather.Rain, 0}, {"2031-01-04", weather.Rain, 4.2}, {"2031-01-05", weather.Rain, na}, {"2031-01-07", weather.Rain, na},
		{"2031-01-08", weather.Rain, 1.8},
	}, map[string]int{"before-opening": 2, "multi-day-rain rain_mm": 1, "quality-not-checked rain_mm": 1, "missing-values rain_mm": 3,
		"empty-rows": 3})
	if rec.Station.ID != "099001" {
		t.Errorf("station %q", rec.Station.ID)
	}
	for _, f := range rec.Findings {
		if f.Code == "multi-day-rain" && f.Detail != "42.4 over 3 days (line 8)" {
			t.Errorf("detail %q", f.Detail)
		}
	}
	check(t, "max", fixture(t, "bom_max.csv"), Options{}, 2, []want{{"2031-01-01", weather.Tmax, 31.4}, {"2031-01-02", weather.Tmax, na}},
		map[string]int{"multi-day-extreme tmax_c": 1, "missing-values tmax_c": 1, "empty-rows": 1})
	check(t, "solar", fixture(t, "bom_solar.csv"), Options{}, 3, []want{{"2031-01-01", weather.Rs, 28.4}, {"2031-01-02", weather.Rs, na}},
		map[string]int{"missing-values rs_mj_m2": 1, "empty-rows": 1})
}

// A station that does not observe an element has a file of empty rows.
func TestBOMWithoutValues(t *testing.T) {
	text := strings.NewReplacer("28.4", "", "30.1", "").Replace(fixture(t, "bom_solar.csv"))
	checkFault(t, text, Options{}, "f.csv:4: none of the 3 rows has a value")
}

func FuzzReadBOM(f *testing.F) {
	fuzzLayout(f, "bom", fixture(f, "bom.csv"), fixture(f, "bom_max.csv"), fixture(f, "bom_solar.csv"))
}
