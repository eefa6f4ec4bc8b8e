package csvfile

import (
	"math"
	"strings"
	"testing"

	"loamledger/weather"
)

func TestGridmet(t *testing.T) {
	text := fixture(t, "gridmet.csv")
	rec := check(t, "native", text, Options{}, 3, []want{
		{"2031-05-01", weather.Tmax, 20.5}, {"2031-05-01", weather.Tmin, 5}, {"2031-05-01", weather.Rs, 21.6},
		{"2031-05-01", weather.RHmax, 85.5}, {"2031-05-01", weather.Wind, 4.5},
		{"2031-05-02", weather.Rain, 2.4}, {"2031-05-02", weather.Rs, na}, {"2031-05-03", weather.ETo, 5}, {"2031-05-03", weather.ETr, 6.6},
	}, map[string]int{"dark-day rs_mj_m2": 1, "missing-values rs_mj_m2": 1})
	checkAssumed(t, rec, "highest temperature is in K: 293.65 to 295.15", "radiation is a 24-hour mean in W/m²: the brightest days reach 250")
	if st := rec.Station; st.LatDeg != 41.25 || st.LonDeg != -103.5 || st.WindHeightM != 10 {
		t.Errorf("station %+v", st)
	}
	check(t, "header", fixture(t, "gridmet_header.csv"), Options{}, 2, []want{{"2031-05-01", weather.Tmax, 20.5},
		{"2031-05-02", weather.Rs, 20.736}, {"2031-05-02", weather.Rain, 2.4}}, nil)
	checkFault(t, strings.Replace(text, "278.15", "5.15", 1), Options{},
		"f.csv:2: lowest temperature ranges from 5.15 on 2031-05-01 to 280.15", "neither °C nor K")
	dim := strings.NewReplacer(",250,", ",25,", ",300,", ",30,").Replace(text)
	checkFault(t, dim, Options{}, "could be MJ/m² or W/m²")
	checkAssumed(t, check(t, "si", dim, Options{Units: "si"}, 3, []want{{"2031-05-01", weather.Rs, 25}},
		map[string]int{"dark-day rs_mj_m2": 1, "missing-values rs_mj_m2": 1}), "MJ/m² as given")
	checkFault(t, strings.Replace(fixture(t, "gridmet_header.csv"), "tmmx(K)", "tmmx(R)", 1), Options{},
		`column "tmmx(R)" has the unknown unit "R"`)
}

func TestGridmetShared(t *testing.T) {
	rec := readShared(t, "gridmet-johnson-county-ks.csv", "gridmet", Options{}, 14976, []want{
		{"1980-01-01", weather.Tmax, 7.847253418}, {"1980-01-01", weather.Rs, 8.263646631}, {"1980-01-01", weather.ETo, 1.040586114},
		{"1980-01-01", weather.RHmin, 43.28624725},
		{"2014-12-22", weather.Rs, na}, {"2014-12-29", weather.Rs, na}, {"2020-12-31", weather.Rain, 9.199999809},
		{"2020-12-31", weather.ETr, 1.299999952},
	}, map[string]int{"dark-day rs_mj_m2": 2, "missing-values rs_mj_m2": 2})
	checkAssumed(t, rec, "highest temperature is in °C: -20.18434753 to 45.61907349", "radiation is in MJ/m²", "10 m")
}

func FuzzReadGridmet(f *testing.F) {
	fuzzLayout(f, "gridmet", fixture(f, "gridmet.csv"), fixture(f, "gridmet_header.csv"))
}

func BenchmarkReadGridmet(b *testing.B) {
	benchLayout(b, sharedFile(b, "gridmet-johnson-county-ks.csv"), Options{})
}

// Hand-worked: at 0 m the pressure is 101.3 kPa (FAO-56 eq. 7, and its table
// 2.1), and 0.01 kg/kg is 0.01 · 101.3 / (0.622 + 0.00378) = 1.6188 kPa.
func TestGridmetSpecificHumidity(t *testing.T) {
	const text = "timestamp,pr (mm),sph (kg/kg),tmmn (C),tmmx (C)\n2031-05-01,0,0.01,15,25\n2031-05-02,0,,15,25\n"
	elev := 0.0
	rec := check(t, "given", text, Options{SiteElevM: &elev}, 2, []want{{"2031-05-02", weather.Ea, na}},
		map[string]int{"missing-values ea_kpa": 1})
	if got := rec.At(weather.Ea, 0); math.Abs(got-1.6188) > 0.00005 {
		t.Errorf("ea %.5f kPa, want 1.6188", got)
	}
	checkAssumed(t, rec, "vapor pressure from specific humidity at 101.30 kPa")
	rec = check(t, "unknown", text, Options{}, 2, nil, map[string]int{})
	checkAssumed(t, rec, "specific humidity) is not read")
	checkFault(t, strings.Replace(text, "kg/kg", "g/kg", 1), Options{ElevM: &elev}, `the unit "g/kg" of column "sph (kg/kg)"`[:22])
}
