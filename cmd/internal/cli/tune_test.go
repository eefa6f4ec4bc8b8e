package cli_test

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
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
// scenario, replays to the water use that tune reports.
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
			Kind    string
			Outcome struct {
				M3 float64 `json:"volume_m3_per_year"`
			}
		}
	}
	if err := json.Unmarshal(runOut(t, "tune", scenario, "--no-holdout", "--json"), &reported); err != nil {
		t.Fatal(err)
	}
	head, _, _ := strings.Cut(string(yard), "programs:")
	tuned := filepath.Join(dir, "tuned.yaml")
	if err := os.WriteFile(tuned, append([]byte(head), runOut(t, "tune", scenario, "--yaml")...), 0o666); err != nil {
		t.Fatal(err)
	}
	var replayed struct {
		Strategies []map[string]any
	}
	if err := json.Unmarshal(runOut(t, "replay", tuned, "--json"), &replayed); err != nil {
		t.Fatal(err)
	}
	if len(reported.Kinds) != 4 || len(replayed.Strategies) < 4 {
		t.Fatalf("%d kinds reported, %d strategies replayed", len(reported.Kinds), len(replayed.Strategies))
	}
	for i, k := range reported.Kinds {
		got, ok := replayed.Strategies[i]["volume_m3_per_year"].(float64)
		if !ok {
			t.Fatalf("the comparison has %v", replayed.Strategies[i])
		}
		if want := k.Outcome.M3; math.Abs(got-want) > 1e-6*want {
			t.Errorf("%s: tune reports %g m³ a year, its YAML replays to %g", k.Kind, want, got)
		}
	}
}
