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
		"  - {name: as found, programs: [lawns], refill: {zones: [bed]}}\n")
	tests := []struct{ name, old, new, want string }{
		{"nothing", "", "", ""},
		{"a zone in square feet for acres", "2400 ft2", "43 acres",
			`yard.yaml:5:30: zone "front lawn": area is 43 acres; the usual range is 5 ft² to 2 acres (guess: two acres at a third of an inch an ` +
				`hour take 300 gpm; our choice)`},
		// 29,000 ft² at 1.4 in/h: 29000·1.4/96.25 = 421.8 gpm.
		{"a zone larger than one valve waters", "2400 ft2", "29000 ft2",
			`yard.yaml:5:30: zone "front lawn": 29,000 ft² at 1.4 in/h take a flow of 422 gpm; the usual range is 0.1 gpm to 300 gpm ` +
				`(guess: a 1-inch pipe at 5 ft/s carries 12 gpm, a 4-inch one at 7.5 ft/s 290 gpm; our choice)`},
		{"a flow of ten zones", "area: 600 ft2, plant: desert plants, sprinkler: {kind: drip, flow: 4 gpm}",
			"area: 40000 ft2, plant: desert plants, sprinkler: {kind: drip, flow: 620 gpm}",
			`yard.yaml:6:86: zone "bed": flow is 620 gpm; the usual range is 0.1 gpm to 300 gpm ` +
				`(guess: a 1-inch pipe at 5 ft/s carries 12 gpm, a 4-inch one at 7.5 ft/s 290 gpm; our choice)`},
		// 96.25/2400 = 0.0401 in/h.
		{"a flow for a larger area than it can water", "sprinkler: spray}", "sprinkler: {kind: drip, flow: 1 gpm}}",
			`yard.yaml:5:95: zone "front lawn": a flow of 1 gpm on 2,400 ft² is a rate of 0.04 in/h; the usual range is 0.05 in/h to 2 in/h ` +
				`(guess: emitters of 1 gal/h, one for each 1 to 30 ft² of planting, apply 1.6 to 0.05 in/h; our choice)`},
		{"a rate of a twentieth", "sprinkler: spray}", "sprinkler: {kind: spray, rate: 0.05 in/h}}",
			`yard.yaml:5:96: zone "front lawn": rate is 0.05 in/h; the usual range is 0.35 in/h to 5.55 in/h (measured elsewhere: audits of ` +
				`over 4,500 Utah homes (Jackson and Mohadjer 2003): mean 1.4 in/h, 95% range 0.7 to 3.7, mean DU 52%; widened, our choice)`},
		{"roots of 8 ft", "sprinkler: spray}", "root_depth: 8 ft, sprinkler: spray}",
			`yard.yaml:5:77: zone "front lawn": root_depth is 8 ft; the usual range is 1.5 in to 18 in (local table: Colorado State University ` +
				`Extension 6 to 8 in; of audited zones 16% reached 6 in and 62% 4 in (Center for ReSource Conservation 2007, p. 8); push a ` +
				`screwdriver in to check; widened, our choice)`},
		{"18 in, rounded to centimeters", "sprinkler: spray}", "root_depth: 46 cm, sprinkler: spray}", ""},
		{"a zone that is forgotten", ", refill: {zones: [bed]}", "",
			`yard.yaml:6:5: zone "bed" is never watered: no program or refill includes it`},
		{"a zone forgotten in one strategy", "refill: {zones: [bed]}}\n", "refill: {zones: [bed]}}\n  - {name: less, programs: [lawns]}\n",
			`yard.yaml:6:5: strategy "less" never waters zone "bed", which another strategy waters: add the zone to a program or refill, ` +
				`if it is to be watered`},
		{"a zone by hand only", "refill: {zones: [bed]}", "manual: {date: 2013-07-01, zone: bed, minutes: 20 min}", ""},
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
