package cli_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// withChanges writes the scenario of the scripts with one more strategy, which is like
// what ran with the given changes, and replays it. It returns the folder of the results.
func withChanges(t *testing.T, changes string) string {
	t.Helper()
	name := yard(t, 3)
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	added := "  - name: project\n    programs: [lawns]\n"
	if changes != "" {
		added += "    changes: [" + changes + "]\n"
	}
	text = bytes.Replace(text, []byte("  - name: refill when due"), []byte(added+"  - name: refill when due"), 1)
	if err := os.WriteFile(name, text, 0o666); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(filepath.Dir(name), "out")
	done(t, "replay", name, "--out", out)
	return out
}

// sameResults checks that two folders have the same bytes in the ledgers, the tally and
// every chart, and the same figures in run.json.
func sameResults(t *testing.T, what, a, b string) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(a, "charts", "*.png"))
	if err != nil || len(names) < 5 {
		t.Fatalf("%d charts, %v", len(names), err)
	}
	for _, name := range append(names, "ledger.csv", "ledger.parquet", "tally.csv") {
		name = strings.TrimPrefix(name, a+string(filepath.Separator))
		one, errA := os.ReadFile(filepath.Join(a, name))
		two, errB := os.ReadFile(filepath.Join(b, name))
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		if name == "ledger.parquet" { // its footer has the scenario
			one, two = beforeFooter(t, one), beforeFooter(t, two)
		}
		if !bytes.Equal(one, two) {
			t.Errorf("%s: %s differs", what, name)
		}
	}
	if one, two := figuresOf(t, a), figuresOf(t, b); !bytes.Equal(one, two) {
		t.Errorf("%s: figures of run.json differ:\n%s\n%s", what, one, two)
	}
}

// beforeFooter returns a Parquet file without its footer, whose length is in the four
// bytes before the last four.
func beforeFooter(t *testing.T, file []byte) []byte {
	t.Helper()
	n := len(file) - 8
	if n < 0 {
		t.Fatal("no Parquet file")
	}
	footer := int(binary.LittleEndian.Uint32(file[n:]))
	if footer <= 0 || footer > n/2 {
		t.Fatalf("a footer of %d bytes in a file of %d", footer, len(file))
	}
	return file[:n-footer]
}

// figuresOf returns the figures of every strategy in run.json.
func figuresOf(t *testing.T, dir string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "run.json"))
	if err != nil {
		t.Fatal(err)
	}
	var run struct {
		Results json.RawMessage `json:"results"`
	}
	if err := json.Unmarshal(text, &run); err != nil {
		t.Fatal(err)
	}
	var results map[string]json.RawMessage
	if err := json.Unmarshal(run.Results, &results); err != nil || len(results["strategies"]) == 0 {
		t.Fatalf("no results in run.json: %v", err)
	}
	return append(append([]byte{}, results["strategies"]...), results["figures"]...)
}

// TestLawsOfChangesInEveryOutput: changes that restate what is there, whole or from a day
// in the record, changes after the record, and the order of changes that have nothing to
// do with each other make no difference in any digit of ledger, tally, JSON and charts.
func TestLawsOfChangesInEveryOutput(t *testing.T) {
	plain := withChanges(t, "")
	for _, changes := range []string{
		"{zones: front lawn, sprinkler: {rate: 1.5 in/h}, root_depth: 6 in}",
		"{zones: all, minutes: 100%, from: 2002-04-01}, {zones: front lawn, sprinkler: {rate: 1.5 in/h}, minutes: same depth, from: 2002-07-15}",
		"{zones: front lawn, plant: desert plants, minutes: 10%, from: 2004-01-01}",
	} {
		sameResults(t, changes, plain, withChanges(t, changes))
	}
	roots := "{zones: front lawn, root_depth: 10 in, from: 2002-04-01}"
	nozzles := "{zones: front lawn, sprinkler: {kind: multi-stream, rate: 0.45 in/h, uniformity: 70%}}"
	one := withChanges(t, roots+", "+nozzles)
	sameResults(t, "order of changes", one, withChanges(t, nozzles+", "+roots))
	if bytes.Equal(figuresOf(t, plain), figuresOf(t, one)) {
		t.Error("changes of roots and nozzles change nothing")
	}
}

// TestInteractionByHand: with fixed programs the water of the front lawn follows its rate,
// its area and its minutes. With V for that of the strategy without changes, half the
// rate, half the area and 80% of the minutes alone make −0.5 V, −0.5 V and −0.2 V, in
// order −0.5 V, −0.25 V and −0.05 V; together −0.8 V, which is 0.4 V less than the sum.
func TestInteractionByHand(t *testing.T) {
	out := withChanges(t, "{zones: front lawn, sprinkler: {rate: 0.75 in/h}, minutes: same minutes, cost: 10}, "+
		"{zones: front lawn, area: 1200 ft2, minutes: same minutes}, {zones: front lawn, minutes: 80%, cost: 5}")
	text, err := os.ReadFile(filepath.Join(out, "run.json"))
	if err != nil {
		t.Fatal(err)
	}
	type effect struct {
		M3 float64 `json:"volume_m3_per_year"`
	}
	var run struct {
		Changes []struct {
			Changes          []struct{ Alone, Added effect }
			Sum              effect `json:"sum_of_each_alone"`
			Together         effect
			Interaction      effect
			Cost             float64
			ChangesWithoutIt int `json:"changes_without_cost"`
		}
	}
	text = bytes.ReplaceAll(text, []byte(`"added_in_order"`), []byte(`"Added"`))
	if err := json.Unmarshal(text, &run); err != nil || len(run.Changes) != 1 || len(run.Changes[0].Changes) != 3 {
		t.Fatalf("%v: %+v", err, run)
	}
	c := &run.Changes[0]
	v := -2 * c.Changes[0].Alone.M3
	for i, pair := range [][2]float64{
		{c.Changes[1].Alone.M3, -0.5}, {c.Changes[2].Alone.M3, -0.2}, {c.Changes[0].Added.M3, -0.5}, {c.Changes[1].Added.M3, -0.25},
		{c.Changes[2].Added.M3, -0.05}, {c.Sum.M3, -1.2}, {c.Together.M3, -0.8}, {c.Interaction.M3, 0.4},
	} {
		if math.Abs(pair[0]/v-pair[1]) > 1e-9 || v <= 0 {
			t.Errorf("figure %d: %g V, by hand %g V", i, pair[0]/v, pair[1])
		}
	}
	if c.Cost != 15 || c.ChangesWithoutIt != 1 {
		t.Errorf("cost %g, %d without, by hand 15 and 1", c.Cost, c.ChangesWithoutIt)
	}
}
