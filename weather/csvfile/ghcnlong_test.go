package csvfile

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"loamledger/weather"
)

func TestGHCNLong(t *testing.T) {
	cells := []want{
		{"2031-05-01", weather.Tmax, 21.4}, {"2031-05-01", weather.Rain, 0}, {"2031-05-01", weather.Wind, 1.9},
		{"2031-05-02", weather.Tmax, na}, {"2031-05-02", weather.Tmin, 11.2}, {"2031-05-03", weather.Rain, na},
		{"2031-05-04", weather.Rain, na}, {"2031-05-05", weather.Rain, 3.1}, {"2031-05-05", weather.Tmax, na},
	}
	findings := map[string]int{
		"trace-rain rain_mm": 1, "presumed-zero rain_mm": 1, "quality-flag tmax_c": 1, "multi-day-rain rain_mm": 1, "empty-rows": 1,
		"missing-values tmax_c": 3, "missing-values tmin_c": 2, "missing-values rain_mm": 2, "missing-values wind_m_s": 4,
	}
	for _, name := range []string{"ghcn-long.csv", "ghcn-long_one.csv"} {
		rec := check(t, name, fixture(t, name), Options{}, 5, cells, findings)
		if m := rec.Mark[weather.Rain]; m[0] != weather.Trace || m[1] != weather.Presumed || m[4] != weather.Observed {
			t.Errorf("%s: rain marks %v", name, m)
		}
	}
	two := fixture(t, "ghcn-long_header.csv")
	checkFault(t, two, Options{}, "2 stations: XX000000001, XX000000002")
	check(t, "two", two, Options{Station: "XX000000002"}, 1, []want{{"2031-05-01", weather.Tmax, 21.4}},
		map[string]int{"trace-rain rain_mm": 1})
	checkFault(t, fixture(t, "ghcn-long.csv")+
		"XX000000001,20310505,PRCP,32,,,W,\nXX000000001,20310532,PRCP,3,,,W,\nXX000000001,20310506,PRCP,x,,,W,\nXX000000001,203\n",
		Options{}, "f.csv:14:27: duplicate rain on 2031-05-05", `f.csv:15:13: "20310532" is not a calendar date`, `f.csv:16:27: PRCP "x"`,
		"f.csv:17:13: the row has 2 cells")
}

// By-year files go date by date over all stations.
func TestReadAllOfMixedStations(t *testing.T) {
	var mixed, grouped strings.Builder
	for d := 1; d <= 9; d++ {
		for s := range 30 {
			fmt.Fprintf(&mixed, "XX0000000%02d,2031010%d,TMAX,%d,,,W,\n", s, d, 10*s+d)
		}
	}
	for s := range 30 {
		for d := 1; d <= 9; d++ {
			fmt.Fprintf(&grouped, "XX0000000%02d,2031010%d,TMAX,%d,,,W,\n", s, d, 10*s+d)
		}
	}
	for name, text := range map[string]string{"mixed": mixed.String(), "grouped": grouped.String()} {
		n := 0
		for rec, err := range ReadAll(strings.NewReader(text), name, Options{}) {
			if err != nil {
				t.Fatal(name, err)
			}
			if rec.Days != 9 || rec.Station.ID != fmt.Sprintf("XX0000000%02d", n) || rec.Data[weather.Tmax][8] != float64(10*n+9)/10 {
				t.Errorf("%s: station %s has %d days", name, rec.Station.ID, rec.Days)
			}
			n++
		}
		if n != 30 {
			t.Errorf("%s: %d stations", name, n)
		}
	}
}

// A station that occurs again after it was emitted cannot be merged.
func TestReadAllOfUnsortedStations(t *testing.T) {
	var text strings.Builder
	for _, s := range []int{1, 2, 1} {
		for d := 1; d <= 3; d++ {
			fmt.Fprintf(&text, "XX0000000%02d,2031010%d,TMAX,%d,,,W,\n", s, d, d)
		}
	}
	records, last := 0, error(nil)
	for rec, err := range ReadAll(strings.NewReader(text.String()), "f.csv", Options{}) {
		if rec != nil {
			records++
		}
		last = err
	}
	if records != 2 && records != 1 || last == nil || !strings.Contains(last.Error(),
		"f.csv:7: station XX000000001 occurs again after others") {
		t.Errorf("%d records, then %v", records, last)
	}
	check(t, "picked", text.String(), Options{Station: "XX000000002"}, 3, []want{{"2031-01-03", weather.Tmax, 0.3}}, map[string]int{})
}

func TestGHCNLongShared(t *testing.T) {
	// Counts of flags and rows are from awk over the raw files.
	readShared(t, "ghcnd-long-san-francisco-ap.csv", "ghcn-long", Options{}, 400, []want{
		{"2014-01-01", weather.Tmax, 13.3}, {"2014-01-01", weather.Tmin, 5}, {"2014-01-01", weather.Wind, 0.4}, {"2014-01-07", weather.Rain, 0},
	}, map[string]int{"trace-rain rain_mm": 30})
	readShared(t, "ghcnd-long-new-york-central-park.csv", "ghcn-long", Options{}, 401, []want{
		{"2014-01-01", weather.Tmax, 0.6}, {"2014-01-01", weather.Tmin, -4.3},
	}, map[string]int{"trace-rain rain_mm": 14, "missing-values wind_m_s": 1})
}

func FuzzReadGHCNLong(f *testing.F) {
	fuzzLayout(f, "ghcn-long", fixture(f, "ghcn-long.csv"), fixture(f, "ghcn-long_one.csv"), fixture(f, "ghcn-long_header.csv"))
}

func BenchmarkReadGHCNLong(b *testing.B) {
	benchLayout(b, sharedFile(b, "ghcnd-long-san-francisco-ap.csv"), Options{})
}

func TestGHCNDly(t *testing.T) {
	check(t, "dly", fixture(t, "ghcn-dly.dly"), Options{}, 33, []want{
		{"2031-04-29", weather.Tmax, 21.4}, {"2031-04-29", weather.Rain, 0}, {"2031-04-30", weather.Tmax, na}, {"2031-04-30", weather.Rain, 2.5},
		{"2031-05-01", weather.Tmin, 10.1}, {"2031-05-02", weather.Tmax, na}, {"2031-05-31", weather.Tmax, 24}, {"2031-05-31", weather.Rain, na},
	}, map[string]int{
		"trace-rain rain_mm": 1, "quality-flag tmax_c": 1, "multi-day-rain rain_mm": 1, "missing-days": 28, "empty-rows": 1,
		"missing-values tmax_c": 2, "missing-values tmin_c": 2, "missing-values rain_mm": 3,
	})
	text := fixture(t, "ghcn-dly.dly")
	checkFault(t, strings.Replace(text, "  214", "  2x4", 1)+"junk\n", Options{}, `f.csv:1:246: TMAX of day 29: "2x4" is not a number`,
		"f.csv:8:1: the line does not begin")
	checkFault(t, strings.Replace(text, "330 IW-9999", "330 IW   12", 1), Options{}, "day 31 of month 4, 2031 does not exist")
}

func TestGHCNDlyShared(t *testing.T) {
	readShared(t, "ghcnd-greer-sc.dly", "ghcn-dly", Options{}, 18319, []want{
		{"1962-10-15", weather.Tmax, 28.9}, {"1962-10-15", weather.Tmin, 15}, {"1962-10-17", weather.Rain, 0}, {"1962-11-08", weather.Rain, 1},
		{"1962-11-09", weather.Rain, 71.1},
	}, map[string]int{
		// 18,319 days hold 18,318 TMAX and TMIN, 18,317 good and one flagged PRCP, 10,023 AWND, 14,028 good and 11 flagged TSUN.
		"trace-rain rain_mm": 1651, "quality-flag rain_mm": 1, "quality-flag sun_h": 11, "empty-rows": 1,
		"missing-values tmax_c": 1, "missing-values tmin_c": 1, "missing-values rain_mm": 2, "missing-values wind_m_s": 8296,
		"missing-values sun_h": 4291,
	})
}

func FuzzReadGHCNDly(f *testing.F) { fuzzLayout(f, "ghcn-dly", fixture(f, "ghcn-dly.dly")) }

func BenchmarkReadGHCNDly(b *testing.B) {
	benchLayout(b, sharedFile(b, "ghcnd-greer-sc.dly"), Options{})
}

func FuzzReadOwn(f *testing.F) {
	fuzzLayout(f, "own", fixture(f, "own.csv"), "station,date,tmax_c\na,2012-01-01,1\nb,2012-01-01,2\na,2012-01-02,3\n")
}

func BenchmarkReadOwn(b *testing.B) {
	b.Run("40 years", func(b *testing.B) {
		var s weather.Series
		s.Days, s.Start = 14610, 0
		for _, c := range []weather.Column{weather.Tmax, weather.Tmin, weather.Rain, weather.RHmean, weather.Rs, weather.Wind} {
			s.Add(c)
			for i := range s.Days {
				s.Set(c, i, float64((i*7919+int(c)*31)%400)/10, weather.Observed)
			}
		}
		var text bytes.Buffer
		if err := WriteOwn(&text, &s); err != nil {
			b.Fatal(err)
		}
		benchLayout(b, text.Bytes(), Options{})
	})
}
