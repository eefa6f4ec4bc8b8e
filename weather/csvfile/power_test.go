package csvfile

import (
	"fmt"
	"strings"
	"testing"

	"loamledger/weather"
)

func TestNASAPower(t *testing.T) {
	rec := check(t, "power", fixture(t, "nasa-power.csv"), Options{}, 3, []want{
		{"2031-05-01", weather.Rs, 22.5}, {"2031-05-02", weather.Rs, na}, {"2031-05-02", weather.Rain, 0.21}, {"2031-05-03", weather.Wind, 3.2},
		{"2031-05-03", weather.RHmean, 78.4},
	}, map[string]int{"missing-code rs_mj_m2": 1, "missing-values rs_mj_m2": 1})
	if s := rec.Station; s.LatDeg != 41.25 || s.LonDeg != -101.5 || s.ElevM != 951.25 || s.WindHeightM != 2 {
		t.Errorf("station %+v", s)
	}
	if got := strings.Join(rec.Assumptions, "\n"); !strings.Contains(got, "midnight of LST") ||
		!strings.Contains(got, "wind is read from WS2M, not from WS10M") {
		t.Errorf("assumptions:\n%s", got)
	}
	rec = check(t, "doy", fixture(t, "nasa-power_doy.csv"), Options{}, 3, []want{
		{"2032-12-30", weather.Tmax, 2.4}, {"2032-12-31", weather.Rs, 7.54}, {"2032-12-31", weather.Wind, na}, {"2033-01-01", weather.Tmax, -0.5},
	}, map[string]int{"missing-code wind_m_s": 1, "missing-values wind_m_s": 1})
	if rec.Station.WindHeightM != 10 {
		t.Errorf("wind height %v", rec.Station.WindHeightM)
	}
}

func TestNASAPowerWithoutPreamble(t *testing.T) {
	_, table, _ := strings.Cut(fixture(t, "nasa-power_doy.csv"), "-END HEADER-\n")
	checkFault(t, table, Options{}, "could be in kWh/m² or MJ/m²", "keep the preamble")
	checkFault(t, table+"2033,2,1.5,13.1,2\n", Options{}, "could be in kWh/m² or MJ/m²") // one cell decides nothing
	bright := table
	for d := 2; d <= 6; d++ {
		bright += fmt.Sprintf("2033,%d,1.5,13.1,2\n", d)
	}
	rec := check(t, "bright", bright, Options{}, 8, []want{{"2033-01-02", weather.Rs, 13.1}},
		map[string]int{"missing-code wind_m_s": 1, "missing-values wind_m_s": 1})
	if got := strings.Join(rec.Assumptions, "\n"); !strings.Contains(got,
		"radiation in MJ/m², inferred from the values: the brightest days have 13.1, impossible in kWh/m²") {
		t.Errorf("assumptions:\n%s", got)
	}
	year := "YEAR,DOY,ALLSKY_SFC_SW_DWN\n"
	for d := 1; d <= 365; d++ {
		year += fmt.Sprintf("2033,%d,%.1f\n", d, float64(d%8))
	}
	check(t, "kWh", year, Options{}, 365, []want{{"2033-01-05", weather.Rs, 18}}, map[string]int{})
	checkFault(t, strings.Replace(fixture(t, "nasa-power_doy.csv"), "(MJ/m^2/day)", "(furlongs)", 1), Options{},
		`f.csv:12:18: ALLSKY_SFC_SW_DWN has the unit "furlongs"`)
	checkFault(t, strings.Replace(fixture(t, "nasa-power_doy.csv"), "2032,366", "2031,366", 1), Options{},
		`f.csv:14:1: "2031 366" is not a calendar date`)
}

func TestNASAPowerShared(t *testing.T) {
	rec := readShared(t, "nasapower-chakwal-pk.csv", "nasa-power", Options{}, 9132, []want{
		{"2000-01-01", weather.Tmax, 23.16}, {"2000-01-01", weather.Tmin, 9.6}, {"2000-01-01", weather.Tdew, -9.07},
		{"2000-01-12", weather.Rain, 24.75},
		{"2000-01-02", weather.Rs, 13.104}, {"2024-12-04", weather.Rs, na}, {"2024-12-31", weather.Wind, 2.48},
	}, map[string]int{"missing-code rs_mj_m2": 1, "missing-values rs_mj_m2": 1})
	if s := rec.Station; s.LatDeg != 32.9348 || s.LonDeg != 72.8576 || s.ElevM != 448.45 || s.WindHeightM != 10 {
		t.Errorf("station %+v", s)
	}
}

func FuzzReadNASAPower(f *testing.F) {
	fuzzLayout(f, "nasa-power", fixture(f, "nasa-power.csv"), fixture(f, "nasa-power_doy.csv"),
		"missing sourCe dAtA\x9cAvAilABilitY rAnge\nYEAR,MO,DY,T2M_MAX")
}

func BenchmarkReadNASAPower(b *testing.B) {
	benchLayout(b, sharedFile(b, "nasapower-chakwal-pk.csv"), Options{})
}
