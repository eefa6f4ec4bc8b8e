package generate

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// sharedFile returns a file of real weather that lies beside the project, or
// skips the test where it does not.
func sharedFile(t *testing.T, name string) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the working directory")
		}
		dir = up
	}
	path := filepath.Join(dir, "..", "shared", "weather", name)
	if _, err := os.Stat(path); err != nil {
		t.Skip("shared reference data not present")
	}
	return path
}

type dayValue struct {
	date cal.Date
	col  weather.Column
	v    float64
}

func gather(st weather.Station, values []dayValue) *weather.Series {
	var first, last cal.Date = math.MaxInt32, math.MinInt32
	for _, v := range values {
		first, last = min(first, v.date), max(last, v.date)
	}
	s := weather.NewSeries(st, first, int(last-first)+1)
	for _, v := range values {
		s.Add(v.col)
		s.Set(v.col, int(v.date-first), v.v, weather.Observed)
	}
	return s
}

// readDly reads the fixed-width layout of GHCN-Daily: station 11, year 4, month
// 2, element 4, then 31 times value 5 and three flags; tenths, -9999 missing.
func readDly(t *testing.T, path string) *weather.Series {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	cols := map[string]weather.Column{"TMAX": weather.Tmax, "TMIN": weather.Tmin, "PRCP": weather.Rain}
	var values []dayValue
	for line := range strings.Lines(string(text)) {
		c, ok := cols[line[17:21]]
		if !ok {
			continue
		}
		y, _ := strconv.Atoi(line[11:15])
		m, _ := strconv.Atoi(line[15:17])
		for d := 1; d <= cal.DaysIn(y, m); d++ {
			cell := line[21+8*(d-1) : 29+8*(d-1)]
			v, err := strconv.Atoi(strings.TrimSpace(cell[:5]))
			if err != nil {
				t.Fatal(err)
			}
			if v == -9999 || cell[6] != ' ' { // a quality flag
				continue
			}
			values = append(values, dayValue{cal.Of(y, m, d), c, float64(v) / 10})
		}
	}
	return gather(weather.UnknownStation(), values)
}

// readColumns reads a CSV with a header; date makes the date of a row.
func readColumns(t *testing.T, path string, st weather.Station, cols map[string]weather.Column,
	date func(cell func(string) string) cal.Date) *weather.Series {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	var values []dayValue
	for _, row := range rows[1:] {
		d := date(func(name string) string { return row[at[name]] })
		for name, c := range cols {
			v, err := strconv.ParseFloat(row[at[name]], 64)
			if err != nil || v == 999 { // NA, or the missing code of azmet files
				continue
			}
			values = append(values, dayValue{d, c, v})
		}
	}
	return gather(st, values)
}

func station(lat, elev float64) weather.Station {
	st := weather.UnknownStation()
	st.LatDeg, st.ElevM = lat, elev
	return st
}

// TestRecordsComeBack fits the generator to real records of three climates and
// compares the monthly figures of a long run with those of the record. The
// limit is four standard errors of the difference, from the spread of both.
func TestRecordsComeBack(t *testing.T) {
	t.Run("humid south-east", func(t *testing.T) {
		comesBack(t, readDly(t, sharedFile(t, "ghcnd-greer-sc.dly")))
	})
	t.Run("continental plains", func(t *testing.T) {
		cols := map[string]weather.Column{"pr": weather.Rain, "tmmx": weather.Tmax, "tmmn": weather.Tmin, "srad": weather.Rs, "vs": weather.Wind}
		comesBack(t, readColumns(t, sharedFile(t, "gridmet-johnson-county-ks.csv"), station(38.884, 300), cols,
			func(cell func(string) string) cal.Date {
				d, err := cal.Parse(cell("timestamp"))
				if err != nil {
					t.Fatal(err)
				}
				return d
			}))
	})
	t.Run("hot desert", func(t *testing.T) {
		cols := map[string]weather.Column{
			"precip_total_mm": weather.Rain, "temp_air_maxC": weather.Tmax, "temp_air_minC": weather.Tmin,
			"sol_rad_total": weather.Rs, "wind_spd_mean_mps": weather.Wind, "dwpt_mean": weather.Tdew,
		}
		comesBack(t, readColumns(t, sharedFile(t, "azmet-tucson.csv"), station(32.28, 713), cols, func(cell func(string) string) cal.Date {
			y, _ := strconv.Atoi(cell("date_year"))
			doy, _ := strconv.Atoi(cell("date_doy"))
			return cal.OfYearDay(y, doy)
		}))
	})
}

func comesBack(t *testing.T, s *weather.Series) {
	t.Helper()
	p, found, err := Fit(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		t.Logf("%s %s: %d: %s", f.Code, f.Column, f.Count, f.What)
	}
	t.Logf("spread of years %.3f, M1%.3f", p.yearSpread, p.m1)
	const n = 300
	rec, err := Generate(p, s.Station, cal.Of(2001, 1, 1), int(cal.Of(2001+n, 1, 1)-cal.Of(2001, 1, 1)), 21)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range rec.Findings {
		t.Logf("%s: %d", f.Code, f.Count)
	}
	for _, c := range []weather.Column{weather.Rain, weather.Tmax, weather.Tmin, weather.Rs} {
		if !s.Has(c) {
			continue
		}
		was, is := monthMeans(s, c), monthMeans(&rec.Series, c)
		for m := range 12 {
			near(t, m, c.Key(), is[m].mean(), was[m].mean(), 4*math.Sqrt(was[m].variance()/was[m].n()+is[m].variance()/is[m].n()))
		}
	}
	again, _, err := Fit(&rec.Series, 0)
	if err != nil {
		t.Fatal(err)
	}
	wasDays, isDays := wetDays(s), wetDays(&rec.Series)
	for m := range 12 {
		near(t, m, "share of wet days", isDays[m].mean(), wasDays[m].mean(),
			4*math.Sqrt(wasDays[m].variance()/wasDays[m].n()+isDays[m].variance()/isDays[m].n()))
	}
	for i := range 3 {
		if d := again.m1[i][i] - p.m1[i][i]; math.Abs(d) > 0.03 {
			t.Errorf("carry-over of %s is %.3f, the record's is %.3f", residualColumns[i].Key(), again.m1[i][i], p.m1[i][i])
		}
	}
	if math.Abs(again.yearSpread-p.yearSpread) > 0.08 {
		t.Errorf("spread of years is %.3f, the record's is %.3f", again.yearSpread, p.yearSpread)
	}
	for m := range 12 {
		for st := range 2 {
			near(t, m, "spread of Tmax", again.month[m].tmaxSD[st], p.month[m].tmaxSD[st], 0.12*p.month[m].tmaxSD[st])
			near(t, m, "spread of Tmin", again.month[m].tminSD[st], p.month[m].tminSD[st], 0.12*p.month[m].tminSD[st])
		}
	}
}

// monthMeans collects the mean of each single month that lacks at most five
// days; the spread between them holds all that makes the mean uncertain.
func monthMeans(s *weather.Series, c weather.Column) [12]sums {
	return singleMonths(s, func(i int) float64 {
		v := s.At(c, i)
		if c == weather.Rain && v < DefaultWetMM {
			return 0 // what is below a wet day is not generated
		}
		return v
	})
}

func wetDays(s *weather.Series) [12]sums {
	return singleMonths(s, func(i int) float64 {
		switch v := s.At(weather.Rain, i); {
		case math.IsNaN(v):
			return v
		case v >= DefaultWetMM:
			return 1
		}
		return 0
	})
}

func singleMonths(s *weather.Series, get func(int) float64) (out [12]sums) {
	var one sums
	for i := range s.Days {
		d := s.Date(i)
		if v := get(i); !math.IsNaN(v) {
			one.add(v)
		}
		m, _ := place(d)
		if next, _ := place(d + 1); next != m {
			if one.n() >= monthDays[m]-6 {
				out[m].add(one.mean())
			}
			one = sums{}
		}
	}
	return out
}
