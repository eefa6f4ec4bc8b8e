package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestKNMI(t *testing.T) {
	for _, name := range []string{"knmi.txt", "knmi_stations.txt"} {
		rec := check(t, name, fixture(t, name), Options{}, 3, []want{
			{"2031-05-01", weather.Tmax, 18.7}, {"2031-05-02", weather.Tmin, -0.1}, {"2031-05-01", weather.Rain, 0},
			{"2031-05-02", weather.Rain, 2.4}, {"2031-05-03", weather.Tmax, na},
			{"2031-05-01", weather.Rs, 18.75}, {"2031-05-01", weather.Wind, 3.1}, {"2031-05-02", weather.Sun, 0}, {"2031-05-02", weather.RHmean, na},
			{"2031-05-02", weather.RHmin, 50},
		}, map[string]int{"trace-rain rain_mm": 1, "trace-sun sun_h": 1, "missing-values tmax_c": 1, "missing-values rhmean_pct": 1})
		if rec.Mark[weather.Rain][0] != weather.Trace || rec.Mark[weather.Rain][2] != weather.Observed {
			t.Errorf("%s: rain marks %v", name, rec.Mark[weather.Rain])
		}
		checkAssumed(t, rec, "not read as ETo", "10 m")
		if rec.Has(weather.ETo) {
			t.Errorf("%s: Makkink evaporation was taken for ETo", name)
		}
		if st := rec.Station; st.ID != "990" || st.WindHeightM != 10 || name == "knmi_stations.txt" &&
			(st.Name != "Stille Vlakte" || st.LatDeg != 52.4 || st.LonDeg != 5.25 || st.ElevM != 3.5) {
			t.Errorf("%s: station %+v", name, st)
		}
	}
	checkFault(t, strings.Replace(fixture(t, "knmi.txt"), ",   FG,", ",   HH,", 1), Options{}, "f.csv:8: the file has hourly values")
}

func TestKNMIShared(t *testing.T) {
	readShared(t, "knmi-debilt.txt", "knmi", Options{}, 14610, []want{
		{"1980-01-01", weather.Tmax, 2.3}, {"1980-01-01", weather.Tmin, -0.8}, {"1980-01-01", weather.Rain, 5.8},
		{"1980-01-01", weather.Rs, 2.53}, {"1980-01-01", weather.Wind, 2.6},
		{"1980-01-06", weather.Sun, 0}, {"1980-01-09", weather.Rain, 0}, {"2019-12-31", weather.Tmax, 8.8}, {"2019-12-31", weather.RHmin, 73},
	}, map[string]int{"trace-rain rain_mm": 2204, "trace-sun sun_h": 81}) // cells of -1, counted with awk
}

func FuzzReadKNMI(f *testing.F) {
	fuzzLayout(f, "knmi", fixture(f, "knmi.txt"), fixture(f, "knmi_stations.txt"))
}

func BenchmarkReadKNMI(b *testing.B) { benchLayout(b, sharedFile(b, "knmi-debilt.txt"), Options{}) }
