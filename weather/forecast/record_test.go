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
// and wants POD and FAR over all draws within four standard errors.
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
		if off := math.Abs(sc.FAR() - want.FAR); off > 4*math.Sqrt(want.FAR*(1-want.FAR)/float64(sc.Hits+sc.FalseAlarms)) {
			t.Errorf("lead %d: FAR %.4f, asked for %.2f", k+1, sc.FAR(), want.FAR)
		}
	}
	t.Logf("lead 1: %d of %d days are events", (sum[0].Hits+sum[0].Misses)/draws, s.Days)
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
