package ledgerfile

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
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

// near allows for the rounding of the tally.
func near(a, b float64) bool { return math.Abs(a-b) <= rounding+1e-9*math.Abs(b) }

// What the tally sums is what anybody gets who sums the daily rows of the
// Parquet, up to the tally's rounding: a ledger column that the tally has too
// is a sum.
func TestTallyIsTheSumOfTheLedger(t *testing.T) {
	var b bytes.Buffer
	var sheets []*replay.Sheet
	table := replaySite(t, 3*365, 2, func(s *replay.Sheet) error {
		sheets = append(sheets, cloned(s))
		return nil
	})
	if err := WriteTally(&b, table, tally.Measures(), nil); err != nil {
		t.Fatal(err)
	}
	got := readTally(t, b.String())
	file := writeParquet(t, nil, sheets...)
	l, err := ReadParquet(bytes.NewReader(file), int64(len(file)), Columns())
	if err != nil {
		t.Fatal(err)
	}

	var active []bool
	for _, s := range sheets {
		for _, phase := range s.Growth.Phase {
			active = append(active, phase&sim.Active != 0)
		}
	}
	want := map[lineKey]map[string]float64{}
	streak := map[string]float64{}
	date, strategies, zones, stress, ks := l.Floats("date"), l.Texts("strategy"), l.Texts("zone"), l.Floats("stress_quarter"), l.Floats("ks")
	minutes, runoff, rainRunoff := l.Floats("minutes"), l.Floats("irrigation_runoff_mm"), l.Floats("rain_runoff_mm")
	for i := range l.Rows {
		key := lineKey{strategies[i], zones[i], cal.Date(date[i]).Year()}
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
		count("watering_days", minutes[i] > 0)
		for key, column := range map[string]string{"stress_days_quarter": "stress_quarter", "stress_days_zone": "stress_zone",
			"browning_days_quarter": "browning_quarter", "browning_days_zone": "browning_zone", "past_raw_days": "past_raw"} {
			count(key, l.Floats(column)[i] == 1)
		}
		count("runoff_events", runoff[i] >= sim.EventRunoffMM)
		count("rain_runoff_days", rainRunoff[i] >= sim.EventRunoffMM)
		place := key.strategy + "/" + key.zone
		streak[place]++
		if stress[i] == 0 {
			streak[place] = 0
		}
		m["longest_streak_days"] = max(m["longest_streak_days"], streak[place])
		if active[i] {
			m["severity_days"] += 1 - ks[i]
		}
		for _, c := range tallyColumns(tally.Measures()) {
			if v := l.Floats(c.Key); v != nil {
				m[c.Key] += v[i]
			}
		}
	}
	for key, m := range want {
		shared := 0
		for _, c := range Columns() {
			if _, there := m[c.Key]; there {
				shared++
			}
		}
		if shared != 16 {
			t.Fatalf("%v: %d columns are both in the ledger and in the tally, want 16: %v", key, shared, m)
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
		residual := g["gross_mm"] + g["rain_mm"] - g["spray_loss_mm"] - g["irrigation_runoff_mm"] -
			g["rain_runoff_mm"] - g["rain_evaporated_mm"] -
			g["overspray_mm"] - g["broken_mm"] - g["fill_drain_mm"] - g["leak_mm"] -
			g["percolation_irrigation_mm"] - g["percolation_rain_mm"] - g["eta_mm"] - g["storage_change_mm"]
		if math.Abs(residual) > 0.002 {
			t.Errorf("%v: the balance misses by %g mm", key, residual)
		}
		least := got[lineKey{table.Strategies[table.LeastWaterIndex()], key.zone, key.year}]["gross_mm"]
		ratio, given := g["application_ratio"]
		if least == 0 && given || least > 0 && !near(ratio,
			w["gross_mm"]/want[lineKey{table.Strategies[table.LeastWaterIndex()], key.zone, key.year}]["gross_mm"]) {
			t.Errorf("%v: application ratio %v, gross %v, requirement %v", key, ratio, w["gross_mm"], least)
		}
		lost := g["irrigation_runoff_mm"] + g["percolation_irrigation_mm"] + g["spray_loss_mm"] + g["overspray_mm"] + g["broken_mm"] +
			g["fill_drain_mm"] + g["leak_mm"]
		if !near(g["need_met"], w["eta_mm"]/w["etc_mm"]) || w["gross_mm"] > 0 && !near(g["share_lost"], lost/w["gross_mm"]) ||
			!near(g["volume_m3"], g["area_m2"]*w["gross_mm"]/1000) {
			t.Errorf("%v: need met, share lost or volume does not follow from the columns: %v", key, g)
		}
	}
}

// Where nothing is required there is no ratio: the cell is empty, not NaN.
func TestTallyWithoutRequirement(t *testing.T) {
	table := replaySite(t, 60, 2, nil)
	table.Outcomes[table.LeastWaterIndex()] = table.Outcomes[table.NoWaterIndex()]
	var b bytes.Buffer
	if err := WriteTally(&b, table, tally.Measures(), nil); err != nil {
		t.Fatal(err)
	}
	for key, m := range readTally(t, b.String()) {
		if _, given := m["application_ratio"]; given || m["requirement_mm"] != 0 {
			t.Errorf("%v: ratio given although nothing is required", key)
		}
	}
	table.Outcomes[0][0].Months[0].ETaMM = math.NaN()
	if err := WriteTally(&b, table, tally.Measures(), nil); err == nil {
		t.Error("a sum that is no number was written")
	}
}
