package csvfile

import (
	"math"
	"strings"
	"testing"

	"loamledger/weather"
)

// hourlyDay is what a whole day of the two fixtures comes to: 22 hours of 10 °C,
// one of 4 and one of 19.5; humidity 60%, once 90 and once 30; 8 hours of 500 Wh/m².
func hourlyDay(date string) []want {
	return []want{
		{date, weather.Tmax, 19.5}, {date, weather.Tmin, 4}, {date, weather.RHmax, 90}, {date, weather.RHmin, 30}, {date, weather.RHmean, 60},
		{date, weather.Tdew, 5}, {date, weather.Rs, 14.4}, {date, weather.Wind, 3}, {date, weather.Rain, 2.5},
	}
}

func TestTMY3(t *testing.T) {
	text := fixture(t, "tmy3.csv")
	cells := append(hourlyDay("2001-01-01"), hourlyDay("2001-02-01")...)
	cells = append(cells, want{"2001-01-02", weather.Tmax, na}, want{"2001-01-02", weather.Rain, na}, want{"2001-01-02", weather.Rs, 14.4})
	rec := check(t, "tmy3", text, Options{}, 32, cells, map[string]int{
		"missing-hours tmax_c": 1, "missing-hours rain_mm": 24, "partial-day tmax_c": 1, "partial-day tmin_c": 1, "typical-year-rain rain_mm": 1,
		"missing-days": 29, "missing-values tmax_c": 1, "missing-values tmin_c": 1, "missing-values rain_mm": 1,
	})
	if st := rec.Station; st.ID != "990990" || st.Name != "QUIET FLATS" || st.LatDeg != 41.25 || st.LonDeg != -103.5 || st.ElevM != 1180 ||
		st.WindHeightM != 10 {
		t.Errorf("station %+v", st)
	}
	checkAssumed(t, rec, "(1988-01, 1996-02), combined into the common year 2001", "anemometer height 10 m")
	checkFault(t, strings.Replace(text, "01/01/1988,07:00", "01/01/1988,06:00", 1), Options{}, "f.csv:9: duplicate hour 6 on 1988-01-01")
	checkFault(t, strings.Replace(text, "01/01/1988,24:00", "01/01/1988,25:00", 1), Options{}, "f.csv:26: invalid hour 25 on 1988-01-01")
}

func TestTMY3Shared(t *testing.T) {
	// 1988-01-01 summed by hand from the hours of the file: GHI 1,158 Wh/m².
	name := "tmy3-greensboro-nc.csv"
	cells := []want{{"2001-01-01", weather.Tmax, 11.7}, {"2001-01-01", weather.Tmin, 5}, {"2001-01-01", weather.RHmax, 96},
		{"2001-01-01", weather.Rs, 4.1688}, {"2001-12-31", weather.Tmax, 3.9}}
	rec := readShared(t, name, "tmy3", Options{}, 365, cells, map[string]int{"rain-unusable rain_mm": 365})
	if rec.Has(weather.Rain) {
		t.Error("8,345 mm a year were taken for rain")
	}
	rec = readShared(t, name, "tmy3", Options{Units: "tenths"}, 365, cells, map[string]int{"typical-year-rain rain_mm": 1})
	sum := 0.0
	for _, v := range rec.Data[weather.Rain] {
		sum += v
	}
	if math.Abs(sum-834.5) > 1e-9 {
		t.Errorf("rain of the year %v mm; the file's column adds up to 8345", sum)
	}
}

func TestEPW(t *testing.T) {
	text := fixture(t, "epw.epw")
	cells := append(hourlyDay("2001-01-01"), hourlyDay("2001-02-28")[:8]...)
	cells = append(cells, want{"2001-02-28", weather.Rain, na}, want{"2001-03-01", weather.Tmax, na}, want{"2001-03-01", weather.Rs, na},
		want{"2001-03-01", weather.Wind, 3})
	rec := check(t, "epw", text, Options{}, 60, cells, map[string]int{
		"leap-day-dropped": 1, "missing-hours rain_mm": 24, "missing-hours rs_mj_m2": 1, "missing-hours tmax_c": 1, "partial-day rs_mj_m2": 1,
		"partial-day tmax_c": 1, "partial-day tmin_c": 1,
		"typical-year-rain rain_mm": 1, "missing-days": 57, "missing-values tmax_c": 1, "missing-values tmin_c": 1, "missing-values rs_mj_m2": 1,
		"missing-values rain_mm": 1,
	})
	if st := rec.Station; st.ID != "990990" || st.Name != "QUIET FLATS" || st.LatDeg != 41.25 || st.ElevM != 1180 {
		t.Errorf("station %+v", st)
	}
	// Hours of a single year keep their dates.
	one, _, _ := strings.Cut(text, "2020,2,28,1,")
	check(t, "one year", one, Options{}, 1, hourlyDay("2019-01-01"), nil)
	over := strings.NewReplacer("2019,1,1,", "2019,12,31,", "2020,2,28,", "2020,1,1,").Replace(text)
	over, _, _ = strings.Cut(over, "2020,2,29,1,")
	check(t, "turn of the year", over, Options{}, 2, append(hourlyDay("2019-12-31"), hourlyDay("2020-01-01")[:8]...),
		map[string]int{"missing-hours rain_mm": 24, "missing-values rain_mm": 1})
	checkFault(t, strings.Replace(text, "PERIODS,1,1", "PERIODS,1,4", 1), Options{}, "f.csv:6:16: the file has 4 rows per hour")
	checkFault(t, one+"2019,1,32,1,0,?,1\n2019,1,2,1,0,?,x,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1\nTHE END,1\n", Options{},
		"f.csv:31:1: the row has 7 cells", `f.csv:32:16: dry bulb "x" is not a number`, `f.csv:33:1: "THE END" does not begin an hourly row`)
}

func FuzzReadTMY3(f *testing.F) { fuzzLayout(f, "tmy3", fixture(f, "tmy3.csv")) }

func FuzzReadEPW(f *testing.F) { fuzzLayout(f, "epw", fixture(f, "epw.epw")) }

func BenchmarkReadTMY3(b *testing.B) {
	benchLayout(b, sharedFile(b, "tmy3-greensboro-nc.csv"), Options{})
}

// checkAssumed wants every part among the record's assumptions.
func checkAssumed(t *testing.T, rec *weather.Record, parts ...string) {
	t.Helper()
	all := strings.Join(rec.Assumptions, "; ")
	for _, p := range parts {
		if !strings.Contains(all, p) {
			t.Errorf("%s: assumptions %q lack %q", rec.File, rec.Assumptions, p)
		}
	}
}
