package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestCoagmet(t *testing.T) {
	text := fixture(t, "coagmet.csv")
	rec := check(t, "coagmet", text, Options{}, 3, []want{
		{"2031-05-01", weather.Tmax, 20.5}, {"2031-05-01", weather.RHmax, 92.5}, {"2031-05-01", weather.RHmin, 31},
		{"2031-05-01", weather.Rs, 21.6}, {"2031-05-01", weather.Wind, 2},
		{"2031-05-01", weather.ETo, 4.4}, {"2031-05-01", weather.ETr, 6.1}, {"2031-05-02", weather.RHmax, 102.1},
		{"2031-05-02", weather.Wind, 2.5}, {"2031-05-03", weather.Tmin, na}, {"2031-05-03", weather.RHmin, na},
	}, map[string]int{"rh-above-100 rhmax_pct": 1, "missing-code tmin_c": 1, "missing-values tmin_c": 1, "missing-values rhmin_pct": 1})
	if rec.Station.ID != "qf01" || rec.Station.WindHeightM != 2 {
		t.Errorf("station %+v", rec.Station)
	}
	checkAssumed(t, rec, "humidity is a fraction", "24-hour mean in W/m²", "et_asce is the tall reference", "2 m")
	// A few dark days do not distinguish MJ/m² from W/m².
	dim := strings.NewReplacer("250.0", "25.0", "241.5", "24.1", "255.0", "25.5").Replace(text)
	checkFault(t, dim, Options{}, "3 days of radiation up to 25.5 could be MJ/m² or W/m²")
	checkFault(t, strings.Replace(text, "250.0", "650.0", 1), Options{}, "f.csv:2: radiation of 650 on 2031-05-01 is neither")
	percent := strings.NewReplacer("0.925", "92.5", "1.021", "102.1", "0.88", "88", "0.31", "31", "0.35", "35").Replace(text)
	check(t, "percent", percent, Options{}, 3, []want{{"2031-05-01", weather.RHmax, 92.5}},
		map[string]int{"rh-above-100 rhmax_pct": 1, "missing-code tmin_c": 1, "missing-values tmin_c": 1, "missing-values rhmin_pct": 1})
}

func FuzzReadCoagmet(f *testing.F) { fuzzLayout(f, "coagmet", fixture(f, "coagmet.csv")) }
