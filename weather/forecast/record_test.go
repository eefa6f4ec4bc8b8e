package forecast

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// TestRealRainKeepsTheSkill makes 100 draws of forecasts for four real years of
// Seattle, whose rain hangs together from day to day as no generator's does,
// and wants POD and FAR over all draws within four standard errors. A forecaster
// who knows only the other years gives too many false alarms in dry years and
// too few in wet ones, so the FAR to expect is not quite the one asked for: it
// follows from pofd and the number of dry days of each month, and on this
// record it is at most 0.015 higher.
func TestRealRainKeepsTheSkill(t *testing.T) {
	s := seattle(t)
	o := Defaults(47.4)
	o.WarmPODCut = 0
	sum := make([]Score, len(o.Leads))
	const draws = 100
	for seed := range draws {
		scores, err := Verify(synthetic(t, s, nil, o, uint64(seed)), s, Rule{RainMM: o.ThresholdMM})
		if err != nil {
			t.Fatal(err)
		}
		for k, sc := range scores {
			sum[k].Hits += sc.Hits
			sum[k].Misses += sc.Misses
			sum[k].FalseAlarms += sc.FalseAlarms
			sum[k].CorrectNegatives += sc.CorrectNegatives
		}
	}
	for k, sc := range sum {
		want := o.Leads[k]
		if off := math.Abs(sc.POD() - want.POD); off > 4*math.Sqrt(want.POD*(1-want.POD)/float64(sc.Hits+sc.Misses)) {
			t.Errorf("lead %d: POD %.4f, asked for %.2f", k+1, sc.POD(), want.POD)
		}
		far := farToExpect(s, o.ThresholdMM, want)
		if off := math.Abs(sc.FAR() - far); off > 4*math.Sqrt(far*(1-far)/float64(sc.Hits+sc.FalseAlarms)) {
			t.Errorf("lead %d: FAR %.4f, expected %.4f", k+1, sc.FAR(), far)
		}
		if far < want.FAR || far > want.FAR+0.015 {
			t.Errorf("lead %d: FAR to expect %.4f, asked for %.2f", k+1, far, want.FAR)
		}
	}
	t.Logf("lead 1: %d of %d days are events", (sum[0].Hits+sum[0].Misses)/draws, s.Days)
}

// farToExpect returns the FAR of forecasts of skill k whose climate in each
// month is that of the same month of the other years, by plain counting.
func farToExpect(s *weather.Series, thresholdMM float64, k Skill) float64 {
	type count struct{ dry, wet float64 }
	months := map[[2]int]count{}
	for i := range s.Days {
		y, m, _ := s.Date(i).YMD()
		c := months[[2]int{y, m}]
		if s.At(weather.Rain, i) >= thresholdMM {
			c.wet++
		} else {
			c.dry++
		}
		months[[2]int{y, m}] = c
	}
	alarms, hits := 0.0, 0.0
	for at, c := range months {
		var others count
		for other, oc := range months {
			if other[1] == at[1] && other[0] != at[0] {
				others.dry, others.wet = others.dry+oc.dry, others.wet+oc.wet
			}
		}
		alarms += c.dry * k.pofd(others.wet/(others.dry+others.wet))
		hits += c.wet * k.POD
	}
	return alarms / (alarms + hits)
}

// seattle reads a file of real weather that lies beside the project, or skips
// the test where it does not.
func seattle(t *testing.T) *weather.Series {
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
	file, err := os.Open(filepath.Join(dir, "..", "shared", "weather", "vega-seattle.csv"))
	if err != nil {
		t.Skip("shared reference data not present")
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows = rows[1:] // date,precipitation,...
	first, err := cal.Parse(rows[0][0])
	if err != nil {
		t.Fatal(err)
	}
	s := weather.NewSeries(weather.UnknownStation(), first, len(rows), weather.Rain)
	for i, row := range rows {
		mm, err := strconv.ParseFloat(row[1], 64)
		if err != nil || row[0] != s.Date(i).String() {
			t.Fatalf("row %d: %v, %v", i, row, err)
		}
		s.Set(weather.Rain, i, mm, weather.Observed)
	}
	return s
}
