package examples

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
)

func open(name string) (io.ReadCloser, error) { return os.Open(name) }

func read(t *testing.T, name string) *scenarios.Scenario {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	sc, err := yamlfile.Read(f, name, open)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return sc
}

// Every bundled scenario can be read, its files exist, and no file is unused.
func TestShippedScenarios(t *testing.T) {
	files, err := filepath.Glob("*.yaml")
	if err != nil || len(files) < 4 {
		t.Fatalf("found %d scenarios, %v", len(files), err)
	}
	var used []string
	zones := 0
	for _, name := range files {
		sc := read(t, name)
		for _, w := range sc.Weather.Files {
			if _, err := os.Stat(w.Name); err != nil {
				t.Errorf("%v: %v", w.Pos, err)
			}
			used = append(used, w.Name)
		}
		if len(sc.Zones) == 0 || len(sc.Strategies) < 3 {
			t.Errorf("%s: %d zones, %d strategies", name, len(sc.Zones), len(sc.Strategies))
		}
		zones += len(sc.Zones)
	}
	if zones != 5+12+3+1+6+6+3+4+2+3+6 {
		t.Errorf("the scenarios have %d zones", zones)
	}
	used = append(used, "alder-commons-zones.csv")
	csvs, _ := filepath.Glob("*.csv")
	for _, c := range csvs {
		if !slices.Contains(used, c) {
			t.Errorf("%s is used by no scenario", c)
		}
	}
}
