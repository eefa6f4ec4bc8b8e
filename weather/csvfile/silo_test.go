package csvfile

import (
	"testing"

	"loamledger/weather"
)

func TestSILO(t *testing.T) {
	rec := check(t, "silo", fixture(t, "silo.csv"), Options{}, 2, []want{
		{"2031-01-01", weather.Tmax, 33.5}, {"2031-01-01", weather.Ea, 1.9}, {"2031-01-01", weather.Rs, 29}, {"2031-01-02", weather.Rain, 12.4},
		{"2031-01-02", weather.ETo, 5.4},
	}, map[string]int{
		"archive-estimate rain_mm": 1, "archive-estimate tmax_c": 2, "archive-estimate tmin_c": 2, "archive-estimate ea_kpa": 2,
		"archive-estimate rs_mj_m2": 2, "archive-estimate eto_mm": 2,
	})
	if st := rec.Station; st.LatDeg != -30.5 || st.LonDeg != 145.25 || st.ElevM != 174.3 {
		t.Errorf("station %+v", st)
	}
	rec = check(t, "station", fixture(t, "silo_station.csv"), Options{}, 2, []want{{"2031-01-02", weather.Rain, 2.2}}, nil)
	if st := rec.Station; st.ID != "99001" || st.Name != "QUIET FLATS" || st.LatDeg != -30.5 || st.LonDeg != 145.25 || st.ElevM != 174.3 {
		t.Errorf("station %+v", st)
	}
	check(t, "standard", fixture(t, "silo_standard.txt"), Options{}, 2, []want{
		{"2031-01-01", weather.Tmax, 33.5}, {"2031-01-01", weather.Ea, 1.9}, {"2031-01-02", weather.Rain, 12.4}, {"2031-01-02", weather.ETo, 5.4},
	}, map[string]int{"archive-estimate tmax_c": 1, "archive-estimate rs_mj_m2": 2})
	checkFault(t, "station,YYYY-MM-DD,daily_rain,daily_rain_source,metadata\n,,,,\n", Options{}, "but no days")
}

func FuzzReadSILO(f *testing.F) {
	fuzzLayout(f, "silo", fixture(f, "silo.csv"), fixture(f, "silo_station.csv"), fixture(f, "silo_standard.txt"))
}
