package scenarios_test

import (
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/yamlfile"
)

const assumedYard = `site: {name: A, latitude: 1, elevation: 500 ft}
weather: {file: a.csv}
zones: [{name: "lawn, front", area: 100 m2, plant: lawn grass, soil: loam, sprinkler: spray}]
programs: [{name: p, days: odd, starts: ["05:30"], minutes: {"lawn, front": 20}}]
strategies: [{name: as found, programs: p}]
assumed:
  - {key: site.elevation, value: 500 ft, source: our choice}
  - {key: "zones.lawn, front.area", value: 90 m2, source: by eye}
`

func readAssumed(text string) (*scenarios.Scenario, error) {
	return yamlfile.Read(strings.NewReader(strings.Replace(text, "lawn grass", "cool-season turf", 1)), "yard.yaml", nil)
}

// A value that is written but assumed is a default with its source, as long as it is
// the one that was assumed.
func TestAssumed(t *testing.T) {
	sc, err := readAssumed(assumedYard)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]scenarios.Input{}
	for _, in := range sc.Inputs {
		found[in.Key] = in
	}
	if in := found["site.elevation"]; !in.Defaulted || in.Source != "our choice" || in.Grade != catalog.Guess || in.Value != 152.4 {
		t.Errorf("%+v", in)
	}
	if in := found["zones.lawn, front.area"]; in.Defaulted || in.Source != "" {
		t.Errorf("replaced, and still assumed: %+v", in)
	}
	if sc.Canonical.Get("assumed") != nil {
		t.Error("the record repeats what its inputs say")
	}
}

func TestAssumedFaults(t *testing.T) {
	for _, tt := range [][3]string{
		{"site.elevation", "site.elevatoin", `assumed: no value has the key "site.elevatoin"` + "\n\tfix: did you mean site.elevation?"},
		{"value: 500 ft, ", "", "assumed: value is missing"},
		{"source: by eye", "sauce: by eye", `unknown key "sauce"`},
		{"  - {key: site", "  - no\n  - {key: site", "not a group of keys"},
	} {
		_, err := readAssumed(strings.Replace(assumedYard, tt[0], tt[1], 1))
		if err == nil || !strings.Contains(err.Error(), tt[2]) {
			t.Errorf("%s: %v", tt[1], err)
		}
	}
}
