package ledgerfile

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"loamledger/sim"
)

type lineKey struct {
	strategy, zone string
	year           int
}

// readTally reads a tally with the standard library: a map of columns for each
// line. An empty cell is left out.
func readTally(t *testing.T, text string) map[lineKey]map[string]float64 {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	got := map[lineKey]map[string]float64{}
	for _, line := range lines[1:] {
		m := map[string]float64{}
		for i, key := range lines[0][2:] {
			cell := line[i+2]
			if cell == "" {
				continue
			}
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s: %q is no number", key, cell)
			}
			m[key] = v
		}
		got[lineKey{line[0], line[1], int(m["year"])}] = m
	}
	return got
}

func near(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b)) || math.Abs(a-b) <= 1e-12
}

// What the tally sums is what anybody gets who sums the daily rows of the CSV.
func TestTallyIsTheSumOfTheLedger(t *testing.T) {
	var b, ledger bytes.Buffer
	csvFile := NewCSV(&ledger)
	table := replaySite(t, 3*365, 2, csvFile.Write)
	if err := csvFile.Close(); err != nil {
		t.Fatal(err)
	}
	if err := WriteTally(&b, table); err != nil {
		t.Fatal(err)
	}
	got := readTally(t, b.String())

	want := map[lineKey]map[string]float64{}
	streak := map[string]float64{}
	for _, r := range readCSV(t, ledger.String()) {
		key := lineKey{r.Strategy, r.Zone, r.Date.Year()}
		m := want[key]
		if m == nil {
			m = map[string]float64{}
			want[key] = m
		}
		m["days"]++
		count := func(name string, yes bool) {
			if yes {
				m[name]++
			}
		}
		count("watering_days", r.Minutes > 0)
		count("stress_days", r.Stress)
		count("runoff_events", r.IrrRunoffMM >= sim.EventRunoffMM)
		count("rain_runoff_days", r.RainRunoffMM >= sim.EventRunoffMM)
		place := r.Strategy + "/" + r.Zone
		streak[place]++
		if !r.Stress {
			streak[place] = 0
		}
		m["longest_streak_days"] = max(m["longest_streak_days"], streak[place])
		m["severity_days"] += 1 - r.Ks
		for name, v := range map[string]float64{
			"minutes": r.Minutes, "eto_mm": r.EToMM, "etc_mm": r.ETcMM, "rain_mm": r.RainMM, "gross_mm": r.GrossMM, "spray_loss_mm": r.SprayLossMM,
			"irrigation_runoff_mm": r.IrrRunoffMM, "rain_runoff_mm": r.RainRunoffMM, "rain_evaporated_mm": r.RainEvapMM,
			"percolation_irrigation_mm": r.PercIrrMM, "percolation_rain_mm": r.PercRainMM, "eta_mm": r.ETaMM,
			"overspray_mm": r.OversprayMM, "broken_mm": r.BrokenMM, "fill_drain_mm": r.FillDrainMM, "leak_mm": r.LeakMM,
		} {
			m[name] += v
		}
	}
	if len(got) != len(want) || len(got) != 4*2*4 {
		t.Fatalf("%d lines, the ledger has %d strategies, zones and years, the site 32", len(got), len(want))
	}
	for key, w := range want {
		g := got[key]
		for name, v := range w {
			if !near(g[name], v) {
				t.Errorf("%v: %s is %v in the tally, %v summed from the ledger", key, name, g[name], v)
			}
		}
		residual := g["gross_mm"] + g["rain_mm"] - g["spray_loss_mm"] - g["irrigation_runoff_mm"] - g["rain_runoff_mm"] - g["rain_evaporated_mm"] -
			g["overspray_mm"] - g["broken_mm"] - g["fill_drain_mm"] - g["leak_mm"] - g["percolation_irrigation_mm"] - g["percolation_rain_mm"] - g["eta_mm"] - g["storage_change_mm"]
		if math.Abs(residual) > 1e-9 {
			t.Errorf("%v: the balance misses by %g mm", key, residual)
		}
		least := got[lineKey{table.Strategies[table.LeastWaterIndex()], key.zone, key.year}]["gross_mm"]
		ratio, given := g["application_ratio"]
		if least == 0 && given || least > 0 && !near(ratio, w["gross_mm"]/least) {
			t.Errorf("%v: application ratio %v, gross %v, requirement %v", key, ratio, w["gross_mm"], least)
		}
		lost := g["irrigation_runoff_mm"] + g["percolation_irrigation_mm"] + g["spray_loss_mm"] + g["overspray_mm"] + g["broken_mm"] + g["fill_drain_mm"] + g["leak_mm"]
		if !near(g["adequacy"], w["eta_mm"]/w["etc_mm"]) || !near(g["excess"]*w["gross_mm"], lost) || !near(g["volume_m3"], g["area_m2"]*w["gross_mm"]/1000) {
			t.Errorf("%v: adequacy, excess or volume does not follow from the columns: %v", key, g)
		}
	}
}

// Where nothing is required there is no ratio: the cell is empty, not NaN.
func TestTallyWithoutRequirement(t *testing.T) {
	table := replaySite(t, 60, 2, nil)
	table.Outcomes[table.LeastWaterIndex()] = table.Outcomes[table.NoWaterIndex()]
	var b bytes.Buffer
	if err := WriteTally(&b, table); err != nil {
		t.Fatal(err)
	}
	for key, m := range readTally(t, b.String()) {
		if _, given := m["application_ratio"]; given || m["requirement_mm"] != 0 {
			t.Errorf("%v: ratio given although nothing is required", key)
		}
	}
	table.Outcomes[0][0].Months[0].ETaMM = math.NaN()
	if err := WriteTally(&b, table); err == nil {
		t.Error("a sum that is no number was written")
	}
}
