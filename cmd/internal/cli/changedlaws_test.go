package cli_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
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
