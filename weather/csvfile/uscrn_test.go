package csvfile

import (
	"testing"

	"loamledger/weather"
)

func TestUSCRN(t *testing.T) {
	for _, name := range []string{"uscrn.csv", "uscrn_blanks.txt"} {
		rec := check(t, name, fixture(t, name), Options{}, 3, []want{
			{"2031-05-01", weather.Tmax, 21.5}, {"2031-05-01", weather.Tmin, 6.1}, {"2031-05-01", weather.Rain, 2.4},
			{"2031-05-01", weather.Rs, 22.31},
			{"2031-05-01", weather.RHmax, 93.5}, {"2031-05-01", weather.RHmin, 30.1}, {"2031-05-01", weather.RHmean, 58.2},
			{"2031-05-02", weather.Tmax, na}, {"2031-05-02", weather.Rs, 23.4}, {"2031-05-03", weather.Rain, 0},
		}, map[string]int{
			"missing-code tmax_c": 1, "missing-code tmin_c": 1, "missing-code rain_mm": 1, "missing-code rhmax_pct": 1, "missing-code rhmin_pct": 1,
			"missing-code rhmean_pct": 1,
			"missing-values tmax_c":   1, "missing-values tmin_c": 1, "missing-values rain_mm": 1, "missing-values rhmax_pct": 1,
			"missing-values rhmin_pct": 1, "missing-values rhmean_pct": 1,
		})
		if st := rec.Station; st.ID != "99000" || st.LatDeg != 41.25 || st.LonDeg != -103.5 {
			t.Errorf("%s: station %+v", name, st)
		}
	}
}

func TestUSCRNShared(t *testing.T) {
	// The counts are those of the file's description: 41 days without temperature, 72 without rain, 2,092 without humidity.
	readShared(t, "uscrn-manhattan-ks.csv", "uscrn", Options{}, 5118, []want{
		{"2003-10-01", weather.Tmax, na}, {"2003-10-02", weather.Tmax, 18.9}, {"2003-10-02", weather.Rs, 16.72},
		{"2014-09-12", weather.RHmin, 65.8}, {"2014-09-12", weather.Rain, 1.7},
	}, map[string]int{
		"missing-code tmax_c": 41, "missing-code tmin_c": 41, "missing-code rain_mm": 72, "missing-code rs_mj_m2": 39,
		"missing-code rhmax_pct": 2092, "missing-code rhmin_pct": 2092, "missing-code rhmean_pct": 2092,
		"missing-values tmax_c": 41, "missing-values tmin_c": 41, "missing-values rain_mm": 72, "missing-values rs_mj_m2": 39,
		"missing-values rhmax_pct": 2092, "missing-values rhmin_pct": 2092, "missing-values rhmean_pct": 2092, "empty-rows": 39,
	})
}

func FuzzReadUSCRN(f *testing.F) {
	fuzzLayout(f, "uscrn", fixture(f, "uscrn.csv"), fixture(f, "uscrn_blanks.txt"))
}

func BenchmarkReadUSCRN(b *testing.B) {
	benchLayout(b, sharedFile(b, "uscrn-manhattan-ks.csv"), Options{})
}
