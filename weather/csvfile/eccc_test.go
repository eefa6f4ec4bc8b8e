package csvfile

import (
	"testing"

	"loamledger/weather"
)

func TestECCC(t *testing.T) {
	rec := check(t, "eccc", fixture(t, "eccc.csv"), Options{}, 6, []want{
		{"2031-05-01", weather.Tmax, 18.5}, {"2031-05-01", weather.Rain, 0}, {"2031-05-02", weather.Tmax, na}, {"2031-05-02", weather.Rain, 2.4},
		{"2031-05-03", weather.Tmax, 17}, {"2031-05-03", weather.Rain, na}, {"2031-05-04", weather.Tmin, -0.5}, {"2031-05-04", weather.Rain, na},
		{"2031-05-05", weather.Rain, 0},
	}, map[string]int{
		"trace-rain rain_mm": 1, "flag-missing tmax_c": 1, "flag-missing tmin_c": 1, "flag-estimated tmax_c": 1, "multi-day-rain rain_mm": 1,
		"rain-uncertain rain_mm": 1,
		"flag-unknown rain_mm":   1, "missing-values tmax_c": 2, "missing-values tmin_c": 2, "missing-values rain_mm": 3, "empty-rows": 1,
	})
	if st := rec.Station; st.ID != "9900990" || st.Name != "QUIET FLATS" || st.LatDeg != 50.25 || st.LonDeg != -99.5 ||
		rec.Mark[weather.Rain][0] != weather.Trace {
		t.Errorf("station %+v, marks %v", st, rec.Mark[weather.Rain])
	}
	older := check(t, "older", fixture(t, "eccc_older.csv"), Options{}, 2, []want{
		{"2031-05-01", weather.Tmax, 18.5}, {"2031-05-02", weather.Tmax, na}, {"2031-05-02", weather.Tmin, 3.1},
		{"2031-05-02", weather.Rain, 1.2},
	}, map[string]int{"trace-rain rain_mm": 1, "flag-missing tmax_c": 1, "missing-values tmax_c": 1})
	if st := older.Station; st.ID != "9900990" || st.Name != "QUIET FLATS" || st.LatDeg != 50.25 || st.ElevM != 512 {
		t.Errorf("station of the older form %+v", st)
	}
}

func TestECCCShared(t *testing.T) {
	readShared(t, "eccc-montreal.csv", "eccc", Options{}, 365, []want{
		{"2022-01-01", weather.Tmax, 1.4}, {"2022-01-01", weather.Rain, 2.4}, {"2022-01-04", weather.Rain, 0}, {"2022-10-30", weather.Tmax, na},
		{"2022-12-04", weather.Tmin, na}, {"2022-04-19", weather.Rain, 33.8},
	}, map[string]int{"trace-rain rain_mm": 61, "flag-missing tmax_c": 2, "flag-missing tmin_c": 2, "missing-values tmax_c": 2,
		"missing-values tmin_c": 2})
}

func FuzzReadECCC(f *testing.F) {
	fuzzLayout(f, "eccc", fixture(f, "eccc.csv"), fixture(f, "eccc_older.csv"))
}
