package cli_test

import (
	"math"
	"path/filepath"
	"strings"
	"testing"
)

// Every example is without a fault and its balance closes.
func TestExamples(t *testing.T) {
	files, err := filepath.Glob("../../../scenarios/examples/*.yaml")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			if out := done(t, "check", name); !strings.Contains(out, "no fault found") {
				t.Errorf("got\n%s", out)
			}
			out := filepath.Join(t.TempDir(), "out")
			done(t, "replay", name, "--no-ledger", "--no-charts", "--out", out)
			for _, r := range readTally(t, filepath.Join(out, "tally.csv")) {
				if d := r.imbalance(); math.Abs(d) > balanceRounding {
					t.Errorf("%s, %s, %s: the balance is off by %g mm", r.strategy, r.zone, r.year, d)
				}
				r.sane(t)
			}
		})
	}
}

// What scripts read is one JSON value, and has what a person is shown.
func TestJSON(t *testing.T) {
	scenario := yard(t, 3)
	var sheet struct {
		Strategy string
		Entries  []struct {
			Zone            string
			Month           int
			Program_minutes float64
		}
	}
	decode(t, done(t, "settings", scenario, "--strategy", "as found", "--json"), &sheet)
	if sheet.Strategy != "as found" || len(sheet.Entries) != 2*12 || sheet.Entries[0].Zone != "front lawn" || sheet.Entries[0].Program_minutes != 20 {
		t.Errorf("settings: %+v", sheet)
	}
	for _, args := range [][]string{
		{"deficit", scenario, "--strategy", "as found", "--json"},
		{"tune", scenario, "--kind", "fixed", "--stress-days", "60", "--no-hold-out", "--json"},
	} {
		var any map[string]any
		decode(t, done(t, args...), &any)
		if len(any) < 2 {
			t.Errorf("%q: %v", args, any)
		}
	}
}

// Every layout has a page, and --layout takes each name.
func TestLayouts(t *testing.T) {
	out := done(t, "weather", "--layouts")
	pages := 0
	for line := range strings.Lines(out) {
		name, _, ok := strings.Cut(line, ": ")
		if !ok || strings.HasPrefix(line, " ") {
			if n := len([]rune(strings.TrimSpace(line))); n > 90 {
				t.Errorf("%d columns: %s", n, line)
			}
			continue
		}
		pages++
		code, _, stderr := run(t.Context(), "weather", "no-such-file.csv", "--layout", name)
		if code != 3 || !strings.Contains(stderr, "there is no such file") {
			t.Errorf("layout %s: exit code %d, %s", name, code, stderr)
		}
	}
	if pages < 20 {
		t.Errorf("%d layouts", pages)
	}
}
