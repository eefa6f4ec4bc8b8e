package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestOpenMeteo(t *testing.T) {
	text := fixture(t, "open-meteo.csv")
	cells := []want{
		{"2031-05-01", weather.Tmax, 21.4}, {"2031-05-01", weather.Rain, na}, {"2031-05-02", weather.Rs, 23.4}, {"2031-05-03", weather.Rs, na},
		{"2031-05-03", weather.ETo, 2.35},
	}
	findings := map[string]int{"wind-is-maximum wind_m_s": 3, "missing-values rain_mm": 1, "missing-values rs_mj_m2": 1}
	rec := check(t, "om", text, Options{}, 3, cells, findings)
	if s := rec.Station; s.LatDeg != 41.25 || s.LonDeg != -101.5 || s.ElevM != 950 || rec.Has(weather.Wind) {
		t.Errorf("station %+v, wind %v", s, rec.Has(weather.Wind))
	}
	if got := strings.Join(rec.Assumptions, "\n"); !strings.Contains(got, "midnight at UTC-6 h") {
		t.Errorf("assumptions:\n%s", got)
	}
	// Spreadsheets spoil the signs above ASCII; the units must still be known.
	check(t, "mojibake", strings.NewReplacer("°", "Â°", "²", "Â²").Replace(text), Options{}, 3, cells, findings)
	check(t, "latin1", strings.NewReplacer("°", "\xb0", "²", "\xb2").Replace(text), Options{}, 3, cells, findings)
	// A file whose metadata were cut off is still known by its header.
	_, table, _ := strings.Cut(text, "\n\n")
	check(t, "bare", table, Options{}, 3, cells, findings)
	checkFault(t, strings.Replace(text, "(MJ/m²)", "(Wh)", 1), Options{}, `f.csv:4:79: shortwave_radiation_sum has the unknown unit "Wh"`)
	checkFault(t, text[:strings.Index(text, "time,")]+"time,temperature_2m (°C)\n2031-05-01T00:00,3\n", Options{}, "no daily block")
}

func TestOpenMeteoLocations(t *testing.T) {
	text := fixture(t, "open-meteo_locations.csv")
	checkFault(t, text, Options{}, "2 stations: 0, 1")
	rec := check(t, "one", text, Options{Station: "1"}, 2, []want{
		{"2031-05-01", weather.Tmax, 22}, {"2031-05-02", weather.Rain, 2.54}, {"2031-05-02", weather.Wind, 3.57632}, // 8 mph of 0.44704 m/s
	}, map[string]int{})
	if s := rec.Station; s.ID != "1" || s.LatDeg != 40.75 || s.ElevM != 820 || s.WindHeightM != 10 {
		t.Errorf("station %+v", s)
	}
	n := 0
	for rec, err := range ReadAll(strings.NewReader(text), "all", Options{}) {
		if err != nil || rec.Days != 2 {
			t.Fatal(rec, err)
		}
		n++
	}
	if n != 2 {
		t.Errorf("%d stations", n)
	}
	// A block behind the daily one, and one more daily block behind that.
	more := text + "\nlocation_id,time,temperature_2m (°F)\n0,2031-05-01T00:00,51.2\n\nlocation_id,time,temperature_2m_max " +
		"(°F),precipitation_sum (inch),wind_speed_10m_mean (mp/h)\n1,2031-05-03,68,0,1\n"
	check(t, "blocks", more, Options{Station: "1"}, 3, []want{{"2031-05-03", weather.Tmax, 20}}, map[string]int{})
}

func TestOpenMeteoShared(t *testing.T) {
	rec := readShared(t, "openmeteo-torino.csv", "open-meteo", Options{}, 31412, []want{
		{"1940-01-01", weather.Tmax, -0.1}, {"1940-01-01", weather.Rain, na}, {"1940-01-04", weather.Rain, 1}, {"2025-12-31", weather.Tmin, 0.5},
	}, map[string]int{"missing-values rain_mm": 1})
	if s := rec.Station; s.LatDeg != 45.100006 || s.ElevM != 239 {
		t.Errorf("station %+v", s)
	}
}

func FuzzReadOpenMeteo(f *testing.F) {
	fuzzLayout(f, "open-meteo", fixture(f, "open-meteo.csv"), fixture(f, "open-meteo_locations.csv"),
		"time,precipitation_sum (mm)\n2031-05-01,\ntime,shortwave_radiation_sum (MJ/m²)\n2031-05-01,")
}

func BenchmarkReadOpenMeteo(b *testing.B) {
	benchLayout(b, sharedFile(b, "openmeteo-torino.csv"), Options{})
}
