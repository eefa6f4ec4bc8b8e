package yamlfile_test

import (
	"strings"
	"testing"

	"loamledger/scenarios/yamlfile"
)

// moreSuggestions are errors with suggestions beside those of the other tests: what
// replaces a text in the base, and the text.
var moreSuggestions = [][2]string{
	{"plant: cool-season turf", "plant: sod"}, {"plant: cool-season turf", "plant: desert"}, {"    plant: cool-season turf\n", ""},
	{"plant: cool-season turf", "plant: big old pine"}, {"soil: clay loam", "soil: heavy"}, {"soil: clay loam", "soil: silty"},
	{"kind: spray", "kind: heads"}, {"kind: spray, ", ""}, {"kind: drip, flow: 4 gpm", "kind: drip"},
	{"days: [mon, wed, fri]", "days: weekly"}, {"days: [mon, wed, fri]", "days: 4 x week"}, {"days: [mon, wed, fri]", "days: biweekly"},
	{"days: [mon, wed, fri]", "days: every 5 days"}, {"days: [mon, wed, fri]", "days: M T"}, {"    days: [mon, wed, fri]\n", ""},
	{`["05:30"]`, `5`}, {`["05:30"]`, `[1230]`}, {`["05:30"]`, `[]`}, {`["05:30"]`, `[dawn]`},
	{"    minutes: {front lawn: 20}\n", ""}, {"minutes: {front lawn: 20}", "minutes: 20"},
	{"site: {name: Juniper Court, latitude: 38.9, elevation: 1600 ft}\n", ""}, {"weather: {file: weather.csv, wind_height: 2 m}\n", ""},
	{"units: us", "units: us\nlimits: {window: evening}"}, {"units: us", "units: us\nlimits: {stages: [{name: two, ban: true}]}"},
	{"units: us", "units: us\nforecast: {leads: 2}"}, {"units: us", "units: us\nforecast: {synthetic: {seed: 1, leads: [5]}}"},
	{"    slope: 4 %", "    slope: 4 %\n    storage: 1 in"}, {"    slope: 4 %", "    slope: 4 %\n    rain: {effective: 80 %}"},
	{"elevation: 1600 ft", "elevation: 1600 ft, coefficients: Florida"},
	{"    et_percent: {design_eto: 0.25 in, days: 7 days}", "    manual: [{zone: bed}]"},
	{"    et_percent: {design_eto: 0.25 in, days: 7 days}", "    zone_percent: 80 %"},
	{"    cycle: 8 min", "    from: 05-01\n    to: 10-15\n    cycle: 8 min"},
	{"    et_percent: {design_eto: 0.25 in, days: 7 days}", "    season: {start: 1/2, end: 2014-10-15}"},
	{"    et_percent: {design_eto: 0.25 in, days: 7 days}", "    season: {start: summer, end: 10-15}"},
	{"    et_percent: {design_eto: 0.25 in, days: 7 days}", "    hold: {frost: {}}"},
	{"    et_percent: {design_eto: 0.25 in, days: 7 days}", "    suspend: [{zones: all}]"},
}

// Law: every YAML text that a fix offers can be pasted where it belongs, and then
// the error is gone.
func TestSuggestionsCanBePasted(t *testing.T) {
	n := 0
	for _, c := range append(zoneFaults(), strategyFaults()...) {
		n += yamlfile.Pasted(t, strings.Replace(base, c.old, c.new, 1))
	}
	for _, c := range moreSuggestions {
		if !strings.Contains(base, c[0]) {
			t.Fatalf("the base does not hold %q", c[0])
		}
		found := yamlfile.Pasted(t, strings.Replace(base, c[0], c[1], 1))
		if found == 0 {
			t.Errorf("%q has no suggestion", c[1])
		}
		n += found
	}
	if n < 90 {
		t.Errorf("only %d suggestions were tried", n)
	}
}
