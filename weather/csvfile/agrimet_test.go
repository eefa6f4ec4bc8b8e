package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestAgrimet(t *testing.T) {
	rec := check(t, "agrimet", fixture(t, "agrimet.csv"), Options{}, 3, []want{
		{"2031-05-01", weather.Tmax, 20}, {"2031-05-01", weather.Tmin, 5}, {"2031-05-01", weather.Rs, 20.934}, {"2031-05-01", weather.Tdew, 0},
		{"2031-05-01", weather.Wind, 2.2352}, {"2031-05-01", weather.Rain, 2.54}, {"2031-05-01", weather.ETr, 6.35},
		{"2031-05-01", weather.ETo, 5.08},
		{"2031-05-02", weather.Rs, na}, {"2031-05-02", weather.Wind, na}, {"2031-05-03", weather.Tmin, na}, {"2031-05-03", weather.Rain, na},
	}, map[string]int{
		"missing-code rs_mj_m2": 1, "missing-code wind_m_s": 1, "missing-code tmin_c": 1,
		"missing-values rs_mj_m2": 1, "missing-values wind_m_s": 1, "missing-values tmin_c": 1, "missing-values rain_mm": 1,
	})
	checkAssumed(t, rec, "°F, langleys, mph and inches", "3 m", "0.01 inch")
	if rec.Station.WindHeightM != 3 {
		t.Errorf("wind height %v", rec.Station.WindHeightM)
	}
}

func TestAgrimetWeb(t *testing.T) {
	text := fixture(t, "agrimet_web.txt")
	rec := check(t, "web", text, Options{}, 2, []want{
		{"2031-05-01", weather.Tmax, 20}, {"2031-05-01", weather.Wind, 2.2352}, {"2031-05-01", weather.RHmean, 55},
		{"2031-05-01", weather.Rain, 2.54},
		{"2031-05-02", weather.Tmax, na}, {"2031-05-02", weather.Tmin, 6},
	}, map[string]int{"missing-code tmax_c": 1, "missing-values tmax_c": 1})
	if rec.Station.ID != "qfxx" {
		t.Errorf("station %q", rec.Station.ID)
	}
	two := strings.Replace(text, "qfxx_wr", "spxx_mx", 1)
	checkFault(t, two, Options{}, "the file has stations qfxx, spxx side by side")
	check(t, "two", two, Options{Station: "SPXX"}, 2, []want{{"2031-05-01", weather.Tmax, fahrenheit(120)}}, nil)
}

func TestAgrimetShared(t *testing.T) {
	readShared(t, "agrimet-fallon-nv.csv", "agrimet", Options{}, 365, []want{
		{"2015-01-01", weather.Tmax, fahrenheit(31.58)}, {"2015-01-01", weather.Rs, 224.76 * 0.041868}, {"2015-01-01", weather.ETo, 0.508},
		{"2015-04-22", weather.Wind, na}, {"2015-04-22", weather.ETo, 5.08},
	}, map[string]int{"missing-code wind_m_s": 1, "missing-values wind_m_s": 1})
}

func FuzzReadAgrimet(f *testing.F) {
	fuzzLayout(f, "agrimet", fixture(f, "agrimet.csv"), fixture(f, "agrimet_web.txt"))
}
