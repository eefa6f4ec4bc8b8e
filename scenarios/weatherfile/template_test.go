package weatherfile

import (
	"strings"
	"testing"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/generate"
	"loamledger/weather/quality"
)

// TestTemplateWeatherIsBelievable: the checks find no odd value in the weather of the
// template, in 30 years from each of ten seeds.
func TestTemplateWeatherIsBelievable(t *testing.T) {
	n, st, err := ReadNormals(strings.NewReader(NormalsExample), "normals.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, err := n.Params()
	if err != nil {
		t.Fatal(err)
	}
	first, last := cal.Of(2001, 1, 1), cal.Of(2030, 12, 31)
	for seed := range uint64(10) {
		rec, err := generate.Generate(p, st, first, int(last-first)+1, seed)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range quality.Check(rec) {
			if f.Code == weather.CodeOddValue || f.Code.Weight().Stops() {
				t.Errorf("seed %d: %s %s: %s, %d cases, %v: %s", seed, f.Code, f.Column, f.What, f.Count, f.Worst, f.Detail)
			}
		}
	}
}
