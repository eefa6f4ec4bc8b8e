package scenarios_test

import (
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/weather/quantity"
)

// One mistake at a time in a scenario that has none.
func TestWarnings(t *testing.T) {
	sound := around(`  - {name: front lawn, area: 2400 ft2, plant: cool-season turf, sprinkler: spray}
  - {name: bed, area: 600 ft2, plant: desert plants, sprinkler: {kind: drip, flow: 4 gpm}}`,
		asFound+"  - {name: by need, refill: {zones: [bed]}}\n")
	tests := []struct{ name, old, new, want string }{
		{"nothing", "", "", ""},
		{"a zone in square feet for acres", "2400 ft2", "43 acres",
			`yard.yaml:5:30: zone "front lawn" has 43 acres, which is large for one valve; check the number and its unit`},
		{"20 acres are believed", "2400 ft2", "20 acres", ""},
		{"a large zone in hectares", "2400 ft2", "18 ha",
			`yard.yaml:5:30: zone "front lawn" has 44.5 acres, which is large for one valve; check the number and its unit`},
		{"a zone that is forgotten", "zones: [bed]", "zones: [front lawn]",
			`yard.yaml:6:5: zone "bed" is never watered: no program or refill includes it`},
		{"a zone with no minutes", "refill: {zones: [bed]}", "programs: [lawns]",
			`yard.yaml:6:5: zone "bed" is never watered: no program or refill includes it`},
		{"a zone by hand only", "refill: {zones: [bed]}", "programs: [lawns], manual: {date: 2013-07-01, zone: bed, minutes: 20 min}", ""},
		{"starts 10 min apart, of 20 min each", `["05:30"]`, `["05:30", "05:40"]`,
			`yard.yaml:8:45: program "lawns" starts at 05:40 before its start at 05:30 has finished, which takes at least 80 min`},
		// Three cycles of 8, 8 and 4 min with two soaks of 30 min between them
		// take 80 min.
		{"starts 79 min apart", `["05:30"]`, `["06:49", "05:30"]`,
			`yard.yaml:8:45: program "lawns" starts at 06:49 before its start at 05:30 has finished, which takes at least 80 min`},
		{"starts 80 min apart", `["05:30"]`, `["05:30", "06:50"]`, ""},
		{"one run of 20 min", `["05:30"], minutes: {front lawn: 20}, cycle: 8 min`, `["05:30", "05:50"], minutes: {front lawn: 20}`, ""},
		{"two zones one after the other", `["05:30"], minutes: {front lawn: 20}, cycle: 8 min`,
			`["05:00", "05:30"], minutes: {front lawn: 20, bed: 15}`,
			`yard.yaml:8:45: program "lawns" starts at 05:30 before its start at 05:00 has finished, which takes at least 35 min`},
	}
	for _, tt := range tests {
		text := sound
		if !strings.Contains(text, tt.old) {
			t.Fatalf("%s: the scenario does not hold %q", tt.name, tt.old)
		}
		sc := mustRead(t, strings.Replace(text, tt.old, tt.new, 1), nil)
		var got []string
		for _, w := range sc.Warnings {
			got = append(got, w.String())
			if w.Code == "" || w.Zone+w.Program == "" {
				t.Errorf("%s: %+v lacks its code or what it is about", tt.name, w)
			}
		}
		if text := strings.Join(got, "\n"); text != tt.want {
			t.Errorf("%s: got\n%s\nwant\n%s", tt.name, text, tt.want)
		}
	}
}

// The templates cause no warning but of the place, which is to be replaced.
func TestTemplatesWarnOfTheirPlace(t *testing.T) {
	for _, sys := range []quantity.System{quantity.US, quantity.SI} {
		text := scenarios.Template(sys)
		if sc := mustRead(t, text, nil); len(sc.Warnings) != 2 || sc.Warnings[0].Code != scenarios.TemplatePlace ||
			sc.Warnings[1].Code != scenarios.TemplatePlace {
			t.Errorf("%v", sc.Warnings)
		}
		for _, mark := range []string{"latitude: 38.8888           # REPLACE", "# REPLACE: that of your site\n"} {
			if !strings.Contains(text, mark) {
				t.Errorf("the template does not mark %q", mark)
			}
		}
		place := strings.NewReplacer("38.8888", "39.1", "1588 ft", "1702 ft", "484 m", "519 m")
		if sc := mustRead(t, place.Replace(text), nil); len(sc.Warnings) > 0 {
			t.Errorf("%v", sc.Warnings)
		}
	}
}
