package cli_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/weather/cal"
)

// With --force, a result replaces an earlier one, but neither what it was made of, also
// under another name, nor a table that is not from the same command.
func TestForceSparesInputs(t *testing.T) {
	yard, err := os.ReadFile("testdata/yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	weather := synthetic(cal.Of(2013, 1, 1), 730)
	err = errors.Join(os.WriteFile(at("yard.yaml"), yard, 0o666), os.WriteFile(at("weather.csv"), weather, 0o666),
		os.WriteFile(at("other.csv"), weather, 0o666), os.Symlink("weather.csv", at("link.csv")))
	if err != nil {
		t.Fatal(err)
	}
	for _, command := range []string{"settings", "tradeoff"} {
		for name, want := range map[string]string{"weather.csv": "is an input of this run", "link.csv": "is an input of this run",
			"other.csv": "has other columns"} {
			code, _, stderr := run(t.Context(), command, at("yard.yaml"), "--strategy", "as found", "--out", at(name), "--force")
			if code != 2 || !strings.Contains(stderr, want) {
				t.Errorf("%s --out %s: exit %d: %s", command, name, code, stderr)
			}
		}
		for range 2 { // its own table is replaced
			code, _, stderr := run(t.Context(), command, at("yard.yaml"), "--strategy", "as found", "--out", at(command+".csv"), "--force")
			if code != 0 {
				t.Errorf("%s: exit %d: %s", command, code, stderr)
			}
		}
	}
	for _, name := range []string{"weather.csv", "other.csv"} {
		if now, err := os.ReadFile(at(name)); err != nil || string(now) != string(weather) {
			t.Errorf("%s has changed: %v", name, err)
		}
	}
	if left, _ := filepath.Glob(at(".*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// A flag that is not a number, or the number that stands for a flag not given, is
// refused instead of ignored.
func TestFlagsThatAreNoNumbers(t *testing.T) {
	data := filepath.Join(t.TempDir(), "weather.csv")
	if err := os.WriteFile(data, synthetic(cal.Of(2013, 1, 1), 730), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"weather", data, "--latitude", "NaN"}, {"weather", data, "--latitude", "-inf"},
		{"weather", data, "--max-fill-days", "-1"}, {"weather", data, "--max-fill-run", "-1"},
		{"tune", "testdata/yard.yaml", "--margin", "NaN"}, {"tune", "testdata/yard.yaml", "--mark-reserve", "Inf"},
		{"tune", "testdata/yard.yaml", "--browning-days", "-1"}, {"tune", "testdata/yard.yaml", "--runoff-events", "nan"}} {
		code, _, stderr := run(t.Context(), args...)
		if flag := args[2]; code != 2 || !strings.Contains(stderr, flag+" ") || !strings.Contains(stderr, "is not valid") {
			t.Errorf("%q: exit %d: %s", args[2:], code, stderr)
		}
	}
}
