package cli_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// shared returns the path of a file of real weather next to the project, or skips
// the test.
func shared(t *testing.T, name string) string {
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
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
	path := filepath.Join(filepath.Dir(dir), "shared", "weather", name)
	if _, err := os.Stat(path); err != nil {
		t.Skip("shared reference data not present")
	}
	return path
}

// A station is a real weather record and its location, with bounds on the mean
// reference ET and rain of that climate [mm a year]: common practice, no source;
// they only catch a wrong unit.
type station struct {
	file, weather  string // weather: more keys for the scenario
	lat, elevM     float64
	etLow, etHigh  float64
	rainLow, rainH float64
}

var stations = []station{
	{"azmet-tucson.csv", "wind_height: 3 m", 32.28, 713, 1700, 2100, 180, 400},
	{"azmet-payson.csv", "wind_height: 3 m", 34.23, 1480, 1200, 1800, 300, 700},
	{"gridmet-johnson-county-ks.csv", "wind_height: 10 m, from: 2001-01-01", 38.884, 330, 1000, 1500, 800, 1200},
	{"ghcnd-greer-sc.dly", "from: 1971-01-01, to: 1999-12-31", 34.9, 296, 1000, 1500, 1000, 1500},
	{"daymet-oak-ridge-tn.csv", "", 36.0133, 279, 900, 1400, 1100, 1600},
	{"nasapower-chakwal-pk.csv", "wind_height: 10 m", 32.9348, 448, 1200, 2100, 350, 1100},
	{"siar-valle-guerra.csv", "to: 2012-12-31", 28.5, 300, 900, 1500, 100, 700},
	{"vega-seattle.csv", "", 47.44, 137, 500, 1000, 700, 1400},
	{"openmeteo-torino.csv", "from: 2000-01-01", 45.1, 239, 700, 1200, 600, 1400},
}

// A replay of real records: every balance closes, and the results are plausible.
func TestRealStations(t *testing.T) {
	for _, s := range stations {
		t.Run(s.file, func(t *testing.T) {
			s.replay(t, shared(t, s.file))
		})
	}
}

func (s station) replay(t *testing.T, path string) {
	dir := t.TempDir()
	comma := ""
	if s.weather != "" {
		comma = ", "
	}
	text := string(read(t, "testdata/yard.yaml"))
	text = strings.Replace(text, "latitude: 38.9, elevation: 500 m", fmt.Sprintf("latitude: %g, elevation: %g m", s.lat, s.elevM), 1)
	text = strings.Replace(text, "{file: weather.csv}", fmt.Sprintf("{file: %q%s%s}", path, comma, s.weather), 1)
	scenario, out := filepath.Join(dir, "yard.yaml"), filepath.Join(dir, "out")
	if err := os.WriteFile(scenario, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	code, _, stderr := run(t.Context(), "replay", scenario, "--no-ledger", "--no-charts", "--allow-outside", "--out", out)
	if code != 0 || stderr != "" {
		t.Fatalf("exit code %d\n%s", code, stderr)
	}
	rows := readTally(t, filepath.Join(out, "tally.csv"))
	worst, days, et, rain, gross := 0.0, 0.0, 0.0, 0.0, 0.0
	for _, r := range rows {
		worst = max(worst, math.Abs(r.imbalance()))
		if math.Abs(r.imbalance()) > balanceRounding {
			t.Errorf("%s, %s, %s: the balance is off by %g mm", r.strategy, r.zone, r.year, r.imbalance())
		}
		r.sane(t)
		if r.zone == "front lawn" && r.strategy == "least water at full supply" {
			days, et, rain, gross = days+r.v["days"], et+r.v["eto_mm"], rain+r.v["rain_mm"], gross+r.v["gross_mm"]
		}
	}
	years := days / 365.25
	et, rain, gross = et/years, rain/years, gross/years
	t.Logf("%.1f years, ETo %.0f mm, rain %.0f mm, least water %.0f mm a year; worst imbalance in a year %.1e mm",
		years, et, rain, gross, worst)
	if years < 1 || et < s.etLow || et > s.etHigh {
		t.Errorf("ETo of %.0f mm a year over %.1f years; the climate has %g to %g", et, years, s.etLow, s.etHigh)
	}
	if rain < s.rainLow || rain > s.rainH {
		t.Errorf("rain of %.0f mm a year; the climate has %g to %g", rain, s.rainLow, s.rainH)
	}
	// A lawn without losses cannot need more than it can use, nor less than that
	// minus all rain.
	if need := 0.8 * et; gross > need || gross < need-rain {
		t.Errorf("least water of %.0f mm a year for a lawn that uses %.0f mm with %.0f mm of rain", gross, need, rain)
	}
}

// A tallyRow is a row of tally.csv.
type tallyRow struct {
	strategy, zone, year string
	v                    map[string]float64
}

// losses lists the columns of water losses. The tally has columns for losses at
// heads and in pipes only if there are any.
var losses = []string{
	"spray_loss_mm", "irrigation_runoff_mm", "rain_runoff_mm", "rain_evaporated_mm",
	"percolation_irrigation_mm", "percolation_rain_mm", "eta_mm",
}

var otherLosses = []string{"overspray_mm", "broken_mm", "fill_drain_mm", "leak_mm"}

// Numbers in tally.csv have a rounding error of at most 0.00005; a balance is the
// sum of 14 of them, over a year of days that each close to 1e-9 mm.
const (
	rounding        = 0.00005
	balanceRounding = 14*rounding + 366*1e-9
)

// imbalance returns the irrigation and rain that the row does not account for
// [mm].
func (r tallyRow) imbalance() float64 {
	rest := r.v["gross_mm"] + r.v["rain_mm"] - r.v["storage_change_mm"]
	for _, c := range append(losses, otherLosses...) {
		rest -= r.v[c]
	}
	return rest
}

// sane checks a row for impossible values.
func (r tallyRow) sane(t *testing.T) {
	t.Helper()
	at := r.strategy + ", " + r.zone + ", " + r.year
	columns := []string{"gross_mm", "rain_mm", "eto_mm", "etc_mm", "stress_days_quarter", "volume_m3"}
	for _, c := range append(columns, append(losses, otherLosses...)...) {
		if r.v[c] < -1e-9 || math.IsNaN(r.v[c]) {
			t.Errorf("%s: %s is %g", at, c, r.v[c])
		}
	}
	if r.v["eta_mm"] > r.v["etc_mm"]+1e-9 {
		t.Errorf("%s: plants used %g mm of %g", at, r.v["eta_mm"], r.v["etc_mm"])
	}
	// A streak may begin in the year before.
	if r.v["stress_days_quarter"] > r.v["days"] || r.v["stress_days_quarter"] > 0 && r.v["longest_streak_days"] < 1 {
		t.Errorf("%s: %g stress days, %g in a row, in %g days", at, r.v["stress_days_quarter"], r.v["longest_streak_days"], r.v["days"])
	}
	if d := r.v["volume_m3"] - r.v["gross_mm"]*r.v["area_m2"]/1000; math.Abs(d) > rounding*(1.001+r.v["area_m2"]/1000+r.v["gross_mm"]/1000) {
		t.Errorf("%s: %g m3 is not the gross depth over the area", at, r.v["volume_m3"])
	}
	switch r.strategy {
	case "no watering":
		if r.v["gross_mm"] != 0 || r.v["volume_m3"] != 0 {
			t.Errorf("%s: %g mm applied", at, r.v["gross_mm"])
		}
	case "least water at full supply":
		if r.v["stress_days_quarter"] != 0 || r.v["percolation_irrigation_mm"] > 1e-9 {
			t.Errorf("%s: %g stress days, %g mm percolated", at, r.v["stress_days_quarter"], r.v["percolation_irrigation_mm"])
		}
	}
}

// readTally reads tally.csv.
func readTally(t *testing.T, name string) []tallyRow {
	t.Helper()
	table, err := csv.NewReader(strings.NewReader(string(read(t, name)))).ReadAll()
	if err != nil || len(table) < 2 {
		t.Fatalf("%s: %d rows: %v", name, len(table), err)
	}
	for _, c := range losses {
		if !strings.Contains(strings.Join(table[0], ","), c) {
			t.Fatalf("no column %s", c)
		}
	}
	var rows []tallyRow
	for _, cells := range table[1:] {
		r := tallyRow{v: map[string]float64{}}
		for i, name := range table[0] {
			switch name {
			case "controller", "meter":
			case "strategy":
				r.strategy = cells[i]
			case "zone":
				r.zone = cells[i]
			case "year":
				r.year = cells[i]
			default:
				if cells[i] == "" {
					continue // undefined, such as a ratio to zero
				}
				v, err := strconv.ParseFloat(cells[i], 64)
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				r.v[name] = v
			}
		}
		rows = append(rows, r)
	}
	return rows
}
