package cli_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// aSheet is the part of the JSON of settings that the tests read.
type aSheet struct {
	Lead    []string
	Entries []struct {
		Month            int
		Percent, Minutes float64
	}
	AsAsked struct {
		Median float64 `json:"stress_days_median_year"`
		Dry    float64 `json:"stress_days_dry_year"`
	} `json:"as_asked"`
	Sheet struct {
		Median float64 `json:"stress_days_median_year"`
		Dry    float64 `json:"stress_days_dry_year"`
	}
}

// TestSheetOfABalanceFollowsTheSeason: at Tucson, where the record shows the
// highest need in June and some need in every month, the sheet waters in every
// month, most in May or June, changes gradually, and is as wet as the strategy or
// says that it is not.
func TestSheetOfABalanceFollowsTheSeason(t *testing.T) {
	scenario := filepath.Join(t.TempDir(), "yard.yaml")
	yard, err := os.ReadFile("testdata/yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer(
		"latitude: 38.9, elevation: 500 m", "latitude: 32.28, elevation: 713 m",
		"weather.csv", shared(t, "azmet-tucson.csv"), "cool-season", "warm-season",
	).Replace(string(yard))
	if err := os.WriteFile(scenario, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	var s aSheet
	if err := json.Unmarshal(runOut(t, "settings", scenario, "--strategy", "refill when due", "--json", "--allow-outside"), &s); err != nil {
		t.Fatal(err)
	}
	if len(s.Entries) < 12 {
		t.Fatalf("%d entries", len(s.Entries))
	}
	top := 0
	for m := range 12 {
		now, next := s.Entries[m].Percent, s.Entries[(m+1)%12].Percent
		if now <= 0 || math.Abs(now-next) > 40 {
			t.Errorf("month %d has %g %%, the next %g %%", m+1, now, next)
		}
		if now > s.Entries[top].Percent {
			top = m
		}
	}
	if top != 4 && top != 5 || s.Entries[5].Percent < 90 {
		t.Errorf("most in month %d, June has %g %%", top+1, s.Entries[5].Percent)
	}
	more := s.Sheet.Median > s.AsAsked.Median || s.Sheet.Dry > s.AsAsked.Dry
	if lead := strings.Join(s.Lead, "\n"); strings.Contains(lead, "MORE") != more {
		t.Errorf("stress days %+v, the strategy's %+v, the sheet says:\n%s", s.Sheet, s.AsAsked, lead)
	}
}
