package csvfile

import (
	"testing"

	"loamledger/weather"
)

func TestGSOD(t *testing.T) {
	rec := check(t, "gsod", fixture(t, "gsod.csv"), Options{}, 6, []want{
		{"2031-05-01", weather.Tmax, 20}, {"2031-05-01", weather.Tmin, 5}, {"2031-05-01", weather.Rain, 2.54}, {"2031-05-01", weather.Tdew, 5},
		{"2031-05-01", weather.Wind, 3.704}, // a knot is 1852 m/h
		{"2031-05-02", weather.Tmax, 19}, {"2031-05-02", weather.Tdew, na}, {"2031-05-02", weather.Rain, na}, {"2031-05-02", weather.Wind, na},
		{"2031-05-03", weather.Tmin, na}, {"2031-05-03", weather.Rain, na}, {"2031-05-04", weather.Rain, 0.508}, {"2031-05-05", weather.Rain, na},
		{"2031-05-06", weather.Rain, 0},
	}, map[string]int{
		"from-hourly tmax_c": 1, "from-hourly tmin_c": 1, "no-rain-report rain_mm": 1, "rain-incomplete rain_mm": 1,
		"rain-of-part-day rain_mm": 1,
		"missing-code tdew_c":      1, "missing-code wind_m_s": 1, "missing-code tmin_c": 1, "missing-code rain_mm": 1,
		"missing-values tmin_c": 1, "missing-values rain_mm": 3, "missing-values tdew_c": 1, "missing-values wind_m_s": 1,
	})
	st := rec.Station
	if st.ID != "99000099999" || st.Name != "QUIET FLATS AIRPORT, XX" || st.LatDeg != 41.25 || st.LonDeg != -103.5 || st.ElevM != 1180.5 ||
		st.WindHeightM != 10 {
		t.Errorf("station %+v", st)
	}
}

func FuzzReadGSOD(f *testing.F) { fuzzLayout(f, "gsod", fixture(f, "gsod.csv")) }
