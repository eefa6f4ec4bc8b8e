package cli_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// record is the part of run.json that names the weather files.
type record struct {
	Scenario struct {
		Weather map[string]any   `json:"weather"`
		Money   map[string]any   `json:"money"`
		Meters  []map[string]any `json:"meters"`
	} `json:"scenario"`
}

// moved copies run.json from the folder out, with only the weather file, the rates
// and the reads that it names, to a new folder, and returns the new name of run.json.
func moved(t *testing.T, out, weather string) string {
	t.Helper()
	text := read(t, filepath.Join(out, "run.json"))
	var rec record
	if err := json.Unmarshal(text, &rec); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	put := func(name string, data []byte) string {
		to := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(to), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(to, data, 0o666); err != nil {
			t.Fatal(err)
		}
		return to
	}
	file, ok := rec.Scenario.Weather["file"].(string)
	if !ok {
		t.Fatalf("run.json names no weather file: %v", rec.Scenario.Weather)
	}
	put(file, read(t, filepath.Join(weather, file)))
	if file, ok := rec.Scenario.Money["rates"].(string); ok {
		put(file, read(t, filepath.Join(weather, file)))
	}
	for _, m := range rec.Scenario.Meters {
		if file, ok := m["reads"].(string); ok {
			put(file, read(t, filepath.Join(weather, file)))
		}
	}
	return put("run.json", text)
}

// sameOutputs checks that a run and its repetition wrote the same bytes.
func sameOutputs(t *testing.T, a, b string) {
	t.Helper()
	sameFigures(t, a, b)
	if !bytes.Equal(read(t, filepath.Join(a, "run.json")), read(t, filepath.Join(b, "run.json"))) {
		t.Error("run.json of the run and of its repetition differ")
	}
}

// sameFigures checks the files with figures and the records of both runs up to the list of all files that they wrote.
func sameFigures(t *testing.T, a, b string) {
	t.Helper()
	for _, name := range []string{"tally.csv", "ledger.csv", "ledger.parquet"} {
		if !bytes.Equal(read(t, filepath.Join(a, name)), read(t, filepath.Join(b, name))) {
			t.Errorf("%s of the run and of its repetition differ", name)
		}
	}
	const list = `"outputs": [`
	before, _, ok := strings.Cut(string(read(t, filepath.Join(a, "run.json"))), list)
	after, _, _ := strings.Cut(string(read(t, filepath.Join(b, "run.json"))), list)
	if !ok || before != after {
		t.Error("run.json of the run and of its repetition differ before the list of files")
	}
}

// Every example can be repeated from its run.json and its weather.
func TestExamplesAreRepeatedFromTheirRecords(t *testing.T) {
	const folder = "../../../scenarios/examples"
	files, err := filepath.Glob(folder + "/*.yaml")
	if err != nil || len(files) < 6 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			a, b := filepath.Join(t.TempDir(), "a"), filepath.Join(t.TempDir(), "b")
			first := done(t, "replay", name, "--no-charts", "--out", a)
			again := moved(t, a, folder)
			second := done(t, "replay", again, "--no-charts", "--out", b)
			sameOutputs(t, a, b)
			first = strings.NewReplacer(a, "", folder+"/", "", folder, "").Replace(first)
			second = strings.NewReplacer(b, "", filepath.Dir(again)+"/", "", filepath.Dir(again), "").Replace(second)
			if first != second {
				t.Errorf("the run printed\n%s\nand its repetition\n%s", first, second)
			}
		})
	}
}

// So can the demo.
func TestDemoIsRepeatedFromItsRecord(t *testing.T) {
	a, b := filepath.Join(t.TempDir(), "a"), filepath.Join(t.TempDir(), "b")
	done(t, "demo", "--out", a)
	done(t, "replay", moved(t, a, filepath.Join(a, "inputs")), "--no-charts", "--out", b)
	sameFigures(t, a, b) // the demo also writes its inputs and charts
}

// Differences from the recorded run give warnings.
func TestChangedRecord(t *testing.T) {
	scenario := yard(t, 3)
	out := filepath.Join(filepath.Dir(scenario), "out")
	done(t, "replay", scenario, "--no-charts", "--out", out)
	name := moved(t, out, filepath.Dir(scenario))
	text := read(t, name)
	other := bytes.Replace(text, []byte(`"elevation": "`), []byte(`"elevation": "1`), 1)
	if bytes.Equal(text, other) {
		t.Fatal("nothing was changed")
	}
	weather := filepath.Join(filepath.Dir(name), "weather.csv")
	if err := os.WriteFile(weather, append(read(t, weather), '\n'), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, other, 0o666); err != nil {
		t.Fatal(err)
	}
	got := done(t, "check", name)
	for _, want := range []string{
		"the scenario in run.json was edited after the run",
		"weather.csv differs from the file in the recorded run",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
}

// A warning of a repeated run names the place in the scenario of the first run, also
// for values of a change.
func TestWarningsOfARepeatedRunKeepTheirPlaces(t *testing.T) {
	scenario := yard(t, 2)
	text := string(read(t, scenario)) + `
  - name: compost
    like: as found
    changes:
      - {zones: all, soil: {awc: 290 mm/m}, minutes: same minutes}
      - {zones: all, minutes: 90%, from: 2040-01-01}
`
	if err := os.WriteFile(scenario, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	out, again := filepath.Join(filepath.Dir(scenario), "out"), filepath.Join(t.TempDir(), "again")
	first := done(t, "replay", scenario, "--out", out)
	for _, want := range []string{`: zone "`, ` begins on 2040-01-01`} {
		if !strings.Contains(first, want) {
			t.Fatalf("no warning has %q:\n%s", want, first)
		}
	}
	done(t, "replay", moved(t, out, filepath.Dir(scenario)), "--out", again)
	sameOutputs(t, out, again)
	if !bytes.Equal(read(t, filepath.Join(out, "report.html")), read(t, filepath.Join(again, "report.html"))) {
		t.Error("report.html of the run and of its repetition differ")
	}
}
