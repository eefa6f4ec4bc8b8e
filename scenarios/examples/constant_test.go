package examples

import (
	"encoding/csv"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim"
	"loamledger/sim/tally"
)

// TestConstantCoefficientsAsBefore: with k: constant, and with monthly numbers, a
// year's water is to the last digit of tally.csv what it was before coefficients
// followed the season. Only zones whose other defaults did not change since then
// are compared. The golden figures are in testdata.
func TestConstantCoefficientsAsBefore(t *testing.T) {
	f, err := os.Open(filepath.Join("testdata", "constant.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sums := map[string]func(*sim.Sums) float64{
		"etc_mm": func(s *sim.Sums) float64 { return s.ETcMM }, "gross_mm": func(s *sim.Sums) float64 { return s.GrossMM },
		"eta_mm":                    func(s *sim.Sums) float64 { return s.ETaMM },
		"percolation_irrigation_mm": func(s *sim.Sums) float64 { return s.PercIrrMM },
		"percolation_rain_mm":       func(s *sim.Sums) float64 { return s.PercRainMM },
	}
	tables := map[string]*tally.Table{}
	for _, site := range []string{"juniper-court", "weir-meadow"} {
		sc := constantK(t, site+".yaml")
		tables[site] = tableOf(t, sc, weatherOf(t, sc))
	}
	const first = 4 // column with a sum
	if len(lines) != 27 || len(lines[0]) != first+len(sums) {
		t.Fatalf("%d lines of %d columns", len(lines), len(lines[0]))
	}
	for _, line := range lines[1:] {
		table := tables[line[0]]
		year, err := strconv.Atoi(line[3])
		if err != nil {
			t.Fatal(err)
		}
		zone := slices.IndexFunc(table.Zones, func(z sim.Zone) bool { return z.Name == line[2] })
		sum := table.Year(slices.Index(table.Strategies, line[1]), zone, year)
		for i, name := range lines[0][first:] {
			want, err := strconv.ParseFloat(line[first+i], 64)
			if err != nil {
				t.Fatal(err)
			}
			if got := sums[name](&sum); math.Round(1e4*got) != math.Round(1e4*want) {
				t.Errorf("%s: %s is %.4f, before it was %g", strings.Join(line[:first], ", "), name, got, want)
			}
		}
	}
}

// constantK reads a site with k: constant for every plant from the catalog.
func constantK(t *testing.T, name string) *scenarios.Scenario {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	for i, line := range lines {
		if plant, ok := strings.CutPrefix(line, "    plant: "); ok && plant[0] != '{' {
			lines[i] = `    plant: {name: "` + plant + `", k: constant}`
		}
	}
	sc, err := yamlfile.Read(strings.NewReader(strings.Join(lines, "\n")), name, func(n string) (io.ReadCloser, error) { return os.Open(n) })
	if err != nil {
		t.Fatal(err)
	}
	return sc
}
