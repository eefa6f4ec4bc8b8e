package cli_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamledger/cmd/internal/cli"
	"loamledger/weather/cal"
)

// runOut runs a command that must succeed and returns what it printed.
func runOut(t *testing.T, args ...string) []byte {
	t.Helper()
	var out, err bytes.Buffer
	if code := cli.Main(context.Background(), args, cli.Streams{Out: &out, Err: &err}); code != 0 {
		t.Fatalf("%v ended with %d: %s", args, code, err.String())
	}
	return out.Bytes()
}

// TestTunedYAMLReplaysAsReported: the YAML that tune prints, pasted into a
// scenario, replays to the figures that tune reports, also zone by zone. It has what
// is proposed and nothing else.
func TestTunedYAMLReplaysAsReported(t *testing.T) {
	dir := t.TempDir()
	yard, err := os.ReadFile("testdata/yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	scenario := filepath.Join(dir, "yard.yaml")
	if err := os.WriteFile(filepath.Join(dir, "weather.csv"), synthetic(cal.Of(2013, 1, 1), 730), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(scenario, yard, 0o666); err != nil {
		t.Fatal(err)
	}
	var reported struct {
		Kinds []struct {
			Strategy string
			Proposed bool
			Outcome  struct {
				M3    float64 `json:"volume_m3_per_year"`
				Zones []struct {
					Zone    string
					GrossMM float64 `json:"gross_mm_per_year"`
				}
			}
		}
	}
	if err := json.Unmarshal(runOut(t, "tune", scenario, "--no-holdout", "--json"), &reported); err != nil {
		t.Fatal(err)
	}
	head, _, _ := strings.Cut(string(yard), "programs:")
	tuned := filepath.Join(dir, "tuned.yaml")
	if err := os.WriteFile(tuned, append([]byte(head), runOut(t, "tune", scenario, "--no-holdout", "--yaml")...), 0o666); err != nil {
		t.Fatal(err)
	}
	var replayed struct {
		Strategies []map[string]any
	}
	if err := json.Unmarshal(runOut(t, "replay", tuned, "--json"), &replayed); err != nil {
		t.Fatal(err)
	}
	results := filepath.Join(dir, "results")
	runOut(t, "replay", tuned, "--out", results)
	grossMM := map[string]float64{} // by strategy and zone, over the record, from the tally
	f, err := os.Open(filepath.Join(results, "tally.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := func(name string) int { return slices.Index(rows[0], name) }
	years := map[string]bool{}
	for _, row := range rows[1:] {
		mm, err := strconv.ParseFloat(row[column("gross_mm")], 64)
		if err != nil {
			t.Fatal(err)
		}
		grossMM[row[column("strategy")]+"/"+row[column("zone")]] += mm
		years[row[column("year")]] = true
	}
	at := 0
	for _, k := range reported.Kinds {
		if !k.Proposed {
			continue
		}
		if at >= len(replayed.Strategies) || replayed.Strategies[at]["strategy"] != k.Strategy {
			t.Fatalf("%s is proposed and not in the YAML: %v", k.Strategy, replayed.Strategies)
		}
		got, want := replayed.Strategies[at]["volume_m3_per_year"].(float64), k.Outcome.M3
		if math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s: tune reports %g m³ a year, its YAML replays to %g", k.Strategy, want, got)
		}
		for _, z := range k.Outcome.Zones {
			// The tally rounds each year to 0.0001 mm.
			if got := grossMM[k.Strategy+"/"+z.Zone] / float64(len(years)); math.Abs(got-z.GrossMM) > 1e-4 {
				t.Errorf("%s, %s: tune reports %g mm a year, its YAML replays to %g", k.Strategy, z.Zone, z.GrossMM, got)
			}
		}
		at++
	}
	if at == 0 || len(replayed.Strategies) != at+2 { // with the two references
		t.Errorf("%d proposed, %d in the YAML", at, len(replayed.Strategies))
	}
}
