package csvfile

import (
	"strings"
	"testing"

	"loamledger/weather"
)

func TestCimis(t *testing.T) {
	rec := check(t, "cimis", fixture(t, "cimis.csv"), Options{}, 4, []want{
		{"2031-01-01", weather.ETo, 1.016}, {"2031-01-01", weather.Rain, 0.254}, {"2031-01-01", weather.Rs, 8.3736},
		{"2031-01-01", weather.Ea, 0.81},
		{"2031-01-01", weather.Tmax, 16}, {"2031-01-01", weather.Tmin, 2}, {"2031-01-01", weather.Tdew, 4}, {"2031-01-01", weather.Wind, 1.78816},
		{"2031-01-02", weather.Rs, na}, {"2031-01-02", weather.Tmax, 17}, {"2031-01-02", weather.Tmin, na}, {"2031-01-04", weather.Wind, 2.68224},
	}, map[string]int{
		"fog-or-dew-rain rain_mm": 1, "quality-flag rs_mj_m2": 1, "quality-note tmax_c": 1, "quality-note wind_m_s": 1, "missing-days": 1,
		"missing-values tmin_c": 1, "missing-values rs_mj_m2": 1, "missing-values eto_mm": 1,
	})
	if s := rec.Station; s.ID != "990" || s.Name != "Quiet Flats/North" || s.WindHeightM != 2 {
		t.Errorf("station %+v", s)
	}
	check(t, "api", fixture(t, "cimis_api.csv"), Options{}, 2, []want{
		{"2031-09-01", weather.Rs, 21.6}, {"2031-09-02", weather.Rs, na}, {"2031-09-01", weather.Ea, 0.86}, {"2031-09-02", weather.Tdew, na},
		{"2031-09-02", weather.Wind, na},
	}, map[string]int{
		"quality-flag rs_mj_m2": 1, "quality-flag wind_m_s": 1, "missing-values rs_mj_m2": 1, "missing-values wind_m_s": 1,
		"missing-values tdew_c": 1,
	})
	checkFault(t, "Stn Id,Stn Name,CIMIS Region,Month Year,Total ETo (in),qc\n2,Q,V,Jan 2022,1.2,K\n", Options{},
		"f.csv:1:30: this is a monthly report", "download the daily report")
	checkFault(t, strings.Replace(fixture(t, "cimis.csv"), "1/4/2031", "13/4/2031", 1), Options{},
		`f.csv:4:39: "13/4/2031" is not a calendar date`)
}

func TestCimisShared(t *testing.T) {
	// A soil and an air temperature only; the last line is 1,024 blanks.
	rec := readShared(t, "cimis-buntingville.csv", "cimis", Options{}, 9943, []want{
		{"1990-01-01", weather.Tmax, (42.7 - 32) * 5 / 9}, {"1990-06-02", weather.Tmax, na}, {"1995-01-31", weather.Tmax, (62.9 - 32) * 5 / 9},
	}, map[string]int{
		// Raw: 37 cells empty with M, one with S, 5 values with R, 246 with Y and 2 with P.
		"empty-rows": 43, "missing-values tmax_c": 43, "quality-flag tmax_c": 5, "quality-note tmax_c": 248,
	})
	if rec.Has(weather.Tmin) || rec.Has(weather.Rain) {
		t.Error("columns that the file lacks")
	}
}

func FuzzReadCimis(f *testing.F) {
	fuzzLayout(f, "cimis", fixture(f, "cimis.csv"), fixture(f, "cimis_api.csv"))
}

func BenchmarkReadCimis(b *testing.B) {
	benchLayout(b, sharedFile(b, "cimis-buntingville.csv"), Options{})
}
