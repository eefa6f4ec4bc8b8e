package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestFAWN(t *testing.T) {
	text := fixture(t, "fawn.csv")
	checkFault(t, text, Options{}, "2 stations: Quiet Grove, Still Pond")
	rec := check(t, "fawn", text, Options{Station: "quiet grove"}, 4, []want{
		{"2031-05-01", weather.Tmax, 30}, {"2031-05-01", weather.Tmin, 20}, {"2031-05-01", weather.Tdew, 18}, {"2031-05-01", weather.Rain, 2.54},
		{"2031-05-01", weather.Rs, 21.6},
		{"2031-05-01", weather.Wind, 2.2352}, {"2031-05-01", weather.RHmean, 72}, {"2031-05-02", weather.RHmean, na},
		{"2031-05-03", weather.Tmax, na}, {"2031-05-03", weather.Rs, na}, {"2031-05-04", weather.Tmax, 31},
	}, map[string]int{
		"zero-humidity rhmean_pct": 1, "partial-day": 1, "short-day": 1, "empty-rows": 1, "missing-values tmax_c": 1, "missing-values tmin_c": 1,
		"missing-values rain_mm": 1,
		"missing-values tdew_c":  1, "missing-values rs_mj_m2": 1, "missing-values wind_m_s": 1, "missing-values rhmean_pct": 2,
	})
	if rec.Station.WindHeightM != 10 {
		t.Errorf("wind height %v", rec.Station.WindHeightM)
	}
	checkFault(t, strings.Replace(text, "1 May 2031", "May-31", 1), Options{},
		`f.csv:2: the period "May-31" is a month: this is the monthly report`)
	checkFault(t, strings.Replace(text, "(in)", "(ft)", 1), Options{}, `column "2m Rain tot (ft)" has the unknown unit "ft"`)
}

func FuzzReadFAWN(f *testing.F) { fuzzLayout(f, "fawn", fixture(f, "fawn.csv")) }
