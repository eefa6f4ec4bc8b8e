package strategy_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"loamledger/sim/strategy"
)

// TestRunTimeMultiplier against the formula worked to three places (common
// practice, from memory).
func TestRunTimeMultiplier(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", "sprinkler-run-time-multiplier.csv"))
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
	if len(lines) != 8 {
		t.Fatalf("%d lines, want a header and 7 rows", len(lines))
	}
	for _, line := range lines[1:] {
		du, err1 := strconv.ParseFloat(line[0], 64)
		want, err2 := strconv.ParseFloat(line[1], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%v: %v %v", line, err1, err2)
		}
		if got := strategy.RunTimeMultiplier(du); math.Abs(got-want) > 0.0005 {
			t.Errorf("DU %g: %.4f, want %.3f", du, got, want)
		}
	}
}

// TestKindsAreDescribed: every kind has a key of its own, a sentence and an
// example that begins with its key; every default lies in its range and names
// its source.
func TestKindsAreDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range strategy.Kinds() {
		if k.Key == "" || seen[k.Key] {
			t.Errorf("key %q is empty or taken", k.Key)
		}
		seen[k.Key] = true
		first, _, _ := strings.Cut(k.Key, ".")
		if k.Doc == "" || !strings.HasPrefix(k.Example, first+":") || k.Make == nil {
			t.Errorf("%s: doc %q, example %q", k.Key, k.Doc, k.Example)
		}
		params := map[string]bool{}
		for _, p := range k.Params {
			if params[p.Key] || p.Doc == "" || p.Key == "" && len(k.Params) > 1 {
				t.Errorf("%s: parameter %q is not described or stands twice", k.Key, p.Key)
			}
			params[p.Key] = true
			if p.Required {
				continue
			}
			if p.Source == "" {
				t.Errorf("%s: the default of %q has no source", k.Key, p.Key)
			}
			// Where a word describes the default, the number may lie outside.
			if (p.Type == strategy.Quantity || p.Type == strategy.Number) && p.Word == "" && (p.Default < p.Min || p.Default > p.Max) {
				t.Errorf("%s: the default %g of %q is outside %g to %g", k.Key, p.Default, p.Key, p.Min, p.Max)
			}
		}
	}
}
