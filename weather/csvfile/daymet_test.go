package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestDaymet(t *testing.T) {
	text := fixture(t, "daymet.csv")
	rec := check(t, "daymet", text, Options{}, 4, []want{
		{"2032-12-29", weather.Rs, 8.4}, // 250 W/m² over 33,600 s
		{"2032-12-30", weather.Ea, 0.4}, {"2032-12-30", weather.Rain, 4}, {"2032-12-31", weather.Tmax, na}, {"2033-01-01", weather.Rain, na},
	}, map[string]int{"leap-day-absent": 1, "missing-days": 1, "missing-code rain_mm": 1, "missing-values rain_mm": 1})
	if s := rec.Station; s.LatDeg != 41.25 || s.LonDeg != -101.5 || s.ElevM != 950 {
		t.Errorf("station %+v", s)
	}
	checkFault(t, strings.Replace(text, "dayl (s)", "day (s)", 1), Options{}, "f.csv:8:33: srad is a mean over the daylight period")
	checkFault(t, strings.Replace(text, "365.0", "365.5", 1), Options{}, `f.csv:10:1: "2032.0 365.5" is not a calendar date`)
}

func TestDaymetShared(t *testing.T) {
	rec := readShared(t, "daymet-oak-ridge-tn.csv", "daymet", Options{}, 4018, []want{
		{"2000-01-01", weather.Tmax, 17}, {"2000-01-01", weather.Rs, 10.7274237890625}, // 310.3999938964844 x 34560 / 1e6
		{"2000-01-04", weather.Rain, 29}, {"2010-12-31", weather.Ea, 0.84}, {"2000-12-31", weather.Tmax, na},
	}, map[string]int{"leap-day-absent": 3, "missing-days": 3, "whole-mm-rain rain_mm": 1341})
	if s := rec.Station; s.LatDeg != 36.0133 || s.LonDeg != -84.2625 || s.ElevM != 279 {
		t.Errorf("station %+v", s)
	}
}

func FuzzReadDaymet(f *testing.F) {
	fuzzLayout(f, "daymet", fixture(f, "daymet.csv"), "\xabLongitude:\nYeAr,YdAY,")
}

func BenchmarkReadDaymet(b *testing.B) {
	benchLayout(b, sharedFile(b, "daymet-oak-ridge-tn.csv"), Options{})
}
