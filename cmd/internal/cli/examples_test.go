package cli_test

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Every example has no errors, and its water balance closes.
func TestExamples(t *testing.T) {
	files, err := filepath.Glob("../../../scenarios/examples/*.yaml")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			if out := done(t, "check", name); !strings.Contains(out, "no errors") {
				t.Errorf("got\n%s", out)
			}
			out := filepath.Join(t.TempDir(), "out")
			sameWarnings(t, done(t, "replay", name, "--no-ledger", "--no-charts", "--out", out), filepath.Join(out, "run.json"))
			for _, r := range readTally(t, filepath.Join(out, "tally.csv")) {
				if d := r.imbalance(); math.Abs(d) > balanceRounding {
					t.Errorf("%s, %s, %s: the balance is off by %g mm", r.strategy, r.zone, r.year, d)
				}
				r.sane(t)
			}
		})
	}
}

// sameWarnings checks that run.json has exactly the alarms that were printed.
func sameWarnings(t *testing.T, printed, record string) {
	t.Helper()
	var told struct {
		Warnings []struct{ Kind, Code, Text string }
	}
	decode(t, string(read(t, record)), &told)
	var alarms []string
	for _, w := range told.Warnings {
		if w.Code == "" {
			t.Errorf("without a code: %+v", w)
		}
		if w.Kind == "alarm" && !slices.Contains(alarms, w.Text) {
			alarms = append(alarms, w.Text)
		}
	}
	var lines []string
	for line := range strings.Lines(printed) {
		if text, ok := strings.CutPrefix(strings.TrimSuffix(line, "\n"), "Implausible: "); ok {
			lines = append(lines, text)
		}
	}
	if !slices.Equal(alarms, lines) {
		t.Errorf("printed %q, run.json has %q", lines, alarms)
	}
}

// The JSON for scripts is one value with the same results as the text.
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
	if sheet.Strategy != "as found" || len(sheet.Entries) != 2*12 {
		t.Fatalf("settings: %+v", sheet)
	}
	if e := sheet.Entries[0]; e.Zone != "front lawn" || e.Program_minutes != 20 {
		t.Errorf("settings: %+v", e)
	}
	tuned := string(runOut(t, "tune", scenario, "--kind", "fixed", "--stress-days", "60", "--no-holdout", "--json"))
	for _, text := range []string{done(t, "tradeoff", scenario, "--strategy", "as found", "--json"), tuned} {
		var any map[string]any
		decode(t, text, &any)
		if len(any) < 2 {
			t.Errorf("%v", any)
		}
	}
}

// Every layout is described, and --layout accepts each name.
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
		if code != 3 || !strings.Contains(stderr, "file not found") {
			t.Errorf("layout %s: exit code %d, %s", name, code, stderr)
		}
	}
	if pages < 20 {
		t.Errorf("%d layouts", pages)
	}
}
