package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestWideFlags(t *testing.T) {
	text := fixture(t, "wide-flags.csv")
	rec := check(t, "wide-flags", text, Options{}, 6, []want{
		{"2031-05-01", weather.Tmax, 21.4}, {"2031-05-01", weather.Tmin, 6.1}, {"2031-05-01", weather.Rain, 0}, {"2031-05-02", weather.Tmax, na},
		{"2031-05-02", weather.Tmin, 5.2},
		{"2031-05-02", weather.Rain, 0}, {"2031-05-03", weather.Rain, na}, {"2031-05-04", weather.Tmax, na}, {"2031-05-06", weather.Rain, 3.1},
	}, map[string]int{
		"misnamed-date": 4, "presumed-zero rain_mm": 1, "trace-rain rain_mm": 1, "quality-flag tmax_c": 1, "flagged-tmax-below-tmin": 1,
		"multi-day-rain rain_mm": 1,
		"missing-days":           2, "missing-values tmax_c": 2, "missing-values rain_mm": 1,
	})
	if m := rec.Mark[weather.Rain]; m[0] != weather.Presumed || m[1] != weather.Trace || m[5] != weather.Observed {
		t.Errorf("rain marks %v", m)
	}
	checkFault(t, strings.Replace(text, "2031,5,3", "2031,5,4", 1), Options{}, `f.csv:4:1: "2031-05-03" is not a calendar date`,
		"matching YEAR, MONTH and DAY")
	mild := strings.NewReplacer("214.0", "114.0", "231.0", "121.0").Replace(text)
	checkFault(t, mild, Options{}, "the file states no units and its values fit °F, inches, mph and also tenths")
	slashes := strings.NewReplacer("2031-05-0", "05/0", ",XX", "/2031,XX").Replace(text)
	check(t, "slashes", slashes, Options{Units: "tenths"}, 6, []want{{"2031-05-01", weather.Tmax, 21.4}}, map[string]int{
		"presumed-zero rain_mm": 1, "trace-rain rain_mm": 1, "quality-flag tmax_c": 1, "flagged-tmax-below-tmin": 1, "multi-day-rain rain_mm": 1,
		"missing-days": 2, "missing-values tmax_c": 2, "missing-values rain_mm": 1,
	})
}

func TestWideFlagsShared(t *testing.T) {
	// The file's description: 19,732 days, 2,145 absent in 729 holes, the longest of 396; 5,549 rains
	// presumed zero; 46 days with Tmax below Tmin,
	// all flagged; rain missing on 1,494 rows.
	rec := readShared(t, "ghcnd-wideflags-san-francisco-oceanside.csv", "wide-flags", Options{}, 21877, []want{
		{"1958-12-09", weather.Tmax, na}, {"1958-12-10", weather.Tmax, 21.1}, {"1958-12-10", weather.Tmin, 8.9},
		{"2018-10-31", weather.Tmax, 18.9}, {"1985-04-14", weather.Tmax, na}, {"1961-02-11", weather.Rain, na},
	}, map[string]int{
		"misnamed-date": 19732, "quality-flag tmax_c": 225, "quality-flag tmin_c": 127, "flagged-tmax-below-tmin": 46, "trace-rain rain_mm": 98,
		"presumed-zero rain_mm":  5549,
		"multi-day-rain rain_mm": 23, "missing-days": 2145, "missing-values tmax_c": 314, "missing-values tmin_c": 346,
		"missing-values rain_mm": 1494, "empty-rows": 26,
	})
	checkAssumed(t, rec, "units tenths of °C, of mm and of m/s, inferred from the values")
	for _, f := range rec.Findings {
		if f.Code == "missing-days" && (f.Detail != "gaps: 729; the longest is from 1987-04-01 to 1988-04-30") {
			t.Errorf("gaps: %s", f.Detail)
		}
	}
}

func FuzzReadWideFlags(f *testing.F) { fuzzLayout(f, "wide-flags", fixture(f, "wide-flags.csv")) }

func BenchmarkReadWideFlags(b *testing.B) {
	benchLayout(b, sharedFile(b, "ghcnd-wideflags-san-francisco-oceanside.csv"), Options{})
}
