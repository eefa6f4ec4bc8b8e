package csvfile

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

func TestGHCNWide(t *testing.T) {
	rec := check(t, "wide", fixture(t, "ghcn-wide.csv"), Options{}, 4, []want{
		{"2031-05-01", weather.Tmax, 21.4}, {"2031-05-01", weather.Rain, 0}, {"2031-05-02", weather.Tmax, na}, {"2031-05-02", weather.Tmin, 11.2},
		{"2031-05-04", weather.Rain, na},
	}, map[string]int{
		"trace-rain rain_mm": 1, "presumed-zero rain_mm": 1, "quality-flag tmax_c": 1, "multi-day-rain rain_mm": 1, "missing-days": 1,
		"missing-values tmax_c": 1, "missing-values rain_mm": 1,
	})
	if s := rec.Station; s.ID != "XX000000001" || s.Name != "QUIET FLATS 2 N, XX" || s.LatDeg != 41.25 || s.LonDeg != -101.5 ||
		s.ElevM != 950.4 {
		t.Errorf("station %+v", s)
	}
}

func TestCDOTenths(t *testing.T) {
	rec := check(t, "cdo", fixture(t, "cdo-tenths.csv"), Options{}, 3, []want{
		{"2031-05-01", weather.Tmax, 21.4}, {"2031-05-01", weather.Rain, 0}, {"2031-05-02", weather.Rain, na}, {"2031-05-03", weather.Rain, 0.8},
		{"2031-05-02", weather.Wind, na}, {"2031-05-03", weather.Wind, 2.4}, {"2031-05-03", weather.Tmin, na},
	}, map[string]int{
		"trace-rain rain_mm": 1, "quality-flag rain_mm": 1, "missing-code wind_m_s": 1, "missing-code tmin_c": 1,
		"missing-values rain_mm": 1, "missing-values wind_m_s": 1, "missing-values tmin_c": 1,
	})
	if rec.Mark[weather.Rain][0] != weather.Trace || rec.Station.ID != "XX000000001" {
		t.Errorf("mark %v, station %q", rec.Mark[weather.Rain][0], rec.Station.ID)
	}
}

func TestNCEIWide(t *testing.T) {
	text := fixture(t, "ncei-wide.csv")
	cells := []want{{"2031-05-02", weather.Rain, 7.62}, {"2031-05-02", weather.Tmax, na}, {"2031-05-03", weather.Rain, 0},
		{"2031-05-01", weather.Tmin, 95.0 / 9}}
	findings := map[string]int{"missing-values tmax_c": 1, "trace-rain rain_mm": 1}
	rec := check(t, "ncei", text, Options{}, 3, cells, findings)
	if got := strings.Join(rec.Assumptions, "\n"); !strings.Contains(got,
		"units °F, inches, mph, inferred from the values, evidence 2 for, 0 against: "+
			"not °C, mm, m/s: the median of 2 days, 66, would be 66.0 °C") {
		t.Errorf("assumptions:\n%s", got)
	}
	// The same file with a cool week can be in °F as well as in °C.
	cool := strings.NewReplacer(`"71"`, `"51"`, `"  66"`, `"46"`).Replace(text)
	checkFault(t, cool, Options{}, "the file states no units and its values fit °F, inches, mph and also °C, mm, m/s", "fix: set the units")
	check(t, "si", cool, Options{Units: unitsSI}, 3, []want{{"2031-05-01", weather.Tmax, 51}, {"2031-05-02", weather.Rain, 0.3}}, findings)
	check(t, "us", cool, Options{Units: unitsUS}, 3, []want{{"2031-05-01", weather.Tmax, 95.0 / 9}, {"2031-05-02", weather.Rain, 7.62}},
		findings)
}

// yearOf returns a year without decimals in rain whose hottest day is high.
func yearOf(high float64) string {
	var b strings.Builder
	b.WriteString("STATION,NAME,DATE,TMAX,TMIN,PRCP\n")
	for i := range 365 {
		v := high - 15 - 15*math.Cos(2*math.Pi*float64(i)/365)
		fmt.Fprintf(&b, "XX1,Q,%v,%.1f,%.1f,0.0\n", cal.Of(2031, 1, 1)+cal.Date(i), v, v-10)
	}
	return b.String()
}

// The hottest day of a year in °C would be a winter's day in °F; but a year
// whose hottest day is 52 may be of a cool coast in °F or of a desert in °C.
func TestNCEIWideSettlesCelsiusByItsSummer(t *testing.T) {
	rec := check(t, "si", yearOf(32), Options{}, 365, []want{{"2031-01-01", weather.Tmax, 2}}, map[string]int{})
	if got := strings.Join(rec.Assumptions, "\n"); !strings.Contains(got,
		"units °C, mm, m/s, inferred from the values, evidence 3 for, 0 against: "+
			"not °F, inches, mph: the hottest 2% of 365 days, 32, would be 0.0 °C") {
		t.Errorf("assumptions:\n%s", got)
	}
	checkFault(t, yearOf(52), Options{}, "fit °F, inches, mph and also °C, mm, m/s")
	// A declared unit wins; that the values contradict it is a finding.
	rec = check(t, "declared", yearOf(95), Options{Units: unitsSI}, 365, []want{{"2031-01-01", weather.Tmax, 65}},
		map[string]int{"units-contradicted": 1, "odd-cell tmax_c": 365, "odd-cell tmin_c": 308})
	if got := rec.Findings[0].Detail; !strings.HasPrefix(got, "declared °C, mm, m/s, but the hottest 2% of 365 days, 95, would be 95.0 °C") {
		t.Errorf("finding %q", got)
	}
}

func TestNCEIShared(t *testing.T) {
	// 71 °F is 195/9 °C; 119 °F and 0.30 in on 2021-07-18.
	readShared(t, "ncei-standard-death-valley.csv", "ncei-wide", Options{}, 365, []want{
		{"2021-01-01", weather.Tmax, 195.0 / 9}, {"2021-05-04", weather.Tmax, na}, {"2021-07-18", weather.Rain, 7.62},
		{"2021-07-18", weather.Tmax, 435.0 / 9},
	}, map[string]int{"missing-values tmax_c": 1})
	readShared(t, "cdo-tenths-seattle-tacoma.csv", "cdo-tenths", Options{}, 1340, []want{{"2012-01-03", weather.Wind, 2.3}},
		map[string]int{"missing-code wind_m_s": 1, "missing-values wind_m_s": 1})
}

// The same station and days stand in another file in °C, mm and m/s: all cells
// agree but one of wind, missing in the older export.
func TestCDOTenthsAgainstConvertedFile(t *testing.T) {
	rec, err := Read(bytes.NewReader(sharedFile(t, "cdo-tenths-seattle-tacoma.csv")), "cdo", Options{})
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(sharedFile(t, "vega-seattle.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	compared, differ := 0, 0
	for _, row := range rows[1:] {
		d, err := cal.Parse(row[0])
		if err != nil {
			t.Fatal(err)
		}
		if d > rec.End() {
			continue
		}
		for k, c := range []weather.Column{weather.Rain, weather.Tmax, weather.Tmin, weather.Wind} {
			v, err := strconv.ParseFloat(row[k+1], 64)
			if err != nil {
				t.Fatal(err)
			}
			compared++
			if rec.At(c, int(d-rec.Start)) != v {
				differ++
			}
		}
	}
	if compared != 4*1340 || differ != 1 {
		t.Errorf("%d of %d cells differ, want 1 of %d", differ, compared, 4*1340)
	}
}

func FuzzReadNCEI(f *testing.F) {
	fuzzLayout(f, "ncei-wide", fixture(f, "ncei-wide.csv"), fixture(f, "cdo-tenths.csv"), fixture(f, "ghcn-wide.csv"))
}

func FuzzReadGHCNWide(f *testing.F) { fuzzLayout(f, "ghcn-wide", fixture(f, "ghcn-wide.csv")) }

func FuzzReadCDOTenths(f *testing.F) { fuzzLayout(f, "cdo-tenths", fixture(f, "cdo-tenths.csv")) }

func BenchmarkReadCDOTenths(b *testing.B) {
	benchLayout(b, sharedFile(b, "cdo-tenths-seattle-tacoma.csv"), Options{})
}

func BenchmarkReadNCEIWide(b *testing.B) {
	benchLayout(b, sharedFile(b, "ncei-standard-death-valley.csv"), Options{})
}

func BenchmarkReadGHCNWide(b *testing.B) {
	head, rows, _ := strings.Cut(fixture(b, "ghcn-wide.csv"), "\n")
	row, _, _ := strings.Cut(rows, "\n")
	var text strings.Builder
	text.WriteString(head + "\n")
	for i := range 14610 {
		text.WriteString(strings.Replace(row, "2031-05-01", cal.Date(i).String(), 1) + "\n")
	}
	benchLayout(b, []byte(text.String()), Options{})
}

// The values override the usual tenths.
func TestCDOTenthsContradicted(t *testing.T) {
	text := "STATION,STATION_NAME,DATE,PRCP,TMAX\nGHCND:XX1,Q,20310501,0.30,91\nGHCND:XX1,Q,20310502,0.00,88\n"
	check(t, "us", text, Options{}, 2, []want{{"2031-05-01", weather.Rain, 7.62}, {"2031-05-02", weather.Tmax, 280.0 / 9}}, map[string]int{})
	checkFault(t, strings.NewReplacer("91", "41", "88", "38").Replace(text), Options{},
		"fit °F, inches, mph and also °C, mm, m/s (not tenths of °C, of mm and of m/s: rain is written with decimals")
}
