package yamlfile

import (
	"math"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/sim/draw"
	"loamledger/weather/quantity"
)

// rangedYard is a site with two lawns, one of them known only by ranges.
const rangedYard = `
site: {name: Range Court, latitude: 38.9, elevation: 300 m}
units: si
weather: {file: weather.csv}
ranges: {eto: 95% to 105%, draws: 500, seed: 7}
zones:
  - {name: front, area: 180 to 220 m2, plant: {name: cool-season turf, k_growing: 0.8 to 0.85 to 1}, soil: loam, root_depth: 15 cm,
     sprinkler: {kind: spray, rate: 30 to 40 mm/h, uniformity: 45% to 65%}}
  - {name: back, area: 100 m2, plant: cool-season turf, soil: loam, root_depth: 10 cm to 20 cm, sprinkler: {kind: rotor, rate: 18 mm/h}}
programs: [{name: lawns, days: daily, starts: ["05:00"], minutes: {front: 10, back: 20}}]
strategies:
  - {name: as found, programs: [lawns]}
  - {name: new heads, like: as found, changes: [{zones: [front], sprinkler: {kind: rotor, rate: 15 to 20 mm/h}}]}
`

func rangedScenario(t *testing.T, text string) *scenarios.Scenario {
	t.Helper()
	sc, err := Read(strings.NewReader(text), "yard.yaml", nil)
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// at returns what picks every doubt at a place in its range.
func at(u float64) func(*scenarios.Doubt) float64 {
	return func(d *scenarios.Doubt) float64 { return d.Range.At(u) }
}

// TestRangesAreRead: two numbers are a flat range with its middle as the value, three a
// triangle with the most likely value, and a unit at the end is that of all.
func TestRangesAreRead(t *testing.T) {
	sc := rangedScenario(t, rangedYard)
	front := &sc.Zones[0]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"area", front.AreaM2, 200}, {"rate", front.PRMMH, 35}, {"uniformity", front.DULQ, 0.55}, {"k in growth", front.PlantSeason.Ka, 0.85},
		{"root depth", sc.Zones[1].RootDepthM, 0.15}, {"ETo", sc.Ranges.ETo, 1}, {"rain", sc.Ranges.Rain, 1},
		{"changed rate", sc.Strategies[1].Stretches[0].Zones[0].PRMMH, 17.5},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if sc.Ranges.Draws != 500 || sc.Ranges.Seed != 7 {
		t.Errorf("%+v", sc.Ranges)
	}
	found := map[string]scenarios.Doubt{}
	for _, d := range sc.Doubts {
		found[d.Input] = d
	}
	area := found["zones.front.area"]
	if area.Range != draw.Between(180, 220) || !area.Given || area.Text(quantity.SI) != "180 m² to 220 m²" {
		t.Errorf("area: %+v, %s", area, area.Text(quantity.SI))
	}
	if k := found["zones.front.plant.k_growing"]; k.Range != draw.Around(0.8, 0.85, 1) || k.Cause != "plant.k of cool-season turf" {
		t.Errorf("k: %+v", k)
	}
	if du := found["zones.back.sprinkler.uniformity"]; du.Given || !du.Range.Known() || du.Source == "" {
		t.Errorf("a default brings its range: %+v", du)
	}
	for _, exact := range []string{"zones.back.area", "zones.back.sprinkler.rate", "zones.front.root_depth", "zones.front.density"} {
		if d, is := found[exact]; is {
			t.Errorf("one number is no range, and neither is that of all gardens: %+v", d)
		}
	}
}

// TestDrawnScenarios: a drawn scenario has every number at its place in its range, those
// of one cause together, and those that follow from others follow; the scenario itself
// stays.
func TestDrawnScenarios(t *testing.T) {
	sc := rangedScenario(t, rangedYard)
	low, err := sc.Drawn(at(0))
	if err != nil {
		t.Fatal(err)
	}
	high, err := sc.Drawn(at(1))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what            string
		low, high       float64
		want, wantUpper float64
	}{
		{"area", low.Zones[0].AreaM2, high.Zones[0].AreaM2, 180, 220},
		{"rate", low.Zones[0].PRMMH, high.Zones[0].PRMMH, 30, 40},
		{"ETo", low.Ranges.ETo, high.Ranges.ETo, 0.95, 1.05},
		{"TAW", low.Zones[1].TAWMM / low.Zones[1].AWCMMPerM, high.Zones[1].TAWMM / high.Zones[1].AWCMMPerM, 0.10, 0.20},
		{"Ka", low.Zones[0].Season.Ka, high.Zones[0].Season.Ka, 0.8, 1},
		{"changed rate", low.Strategies[1].Stretches[0].Zones[0].PRMMH, high.Strategies[1].Stretches[0].Zones[0].PRMMH, 15, 20},
		{"unchanged area", low.Strategies[1].Stretches[0].Zones[0].AreaM2, high.Strategies[1].Stretches[0].Zones[0].AreaM2, 180, 220},
	} {
		if math.Abs(c.low-c.want) > 1e-12 || math.Abs(c.high-c.wantUpper) > 1e-12 {
			t.Errorf("%s: %v to %v, want %v to %v", c.what, c.low, c.high, c.want, c.wantUpper)
		}
	}
	if a, b := low.Zones[0].AWCMMPerM, low.Zones[1].AWCMMPerM; a != b || a >= sc.Zones[0].AWCMMPerM {
		t.Errorf("the soil of both zones is off together: %v and %v", a, b)
	}
	if sc.Zones[0].AreaM2 != 200 {
		t.Error("drawing changed the scenario")
	}
	causes := map[string]float64{}
	if _, err := sc.Drawn(func(d *scenarios.Doubt) float64 { causes[d.Cause]++; return d.Range.Mode }); err != nil {
		t.Fatal(err)
	}
	for _, cause := range []string{"soil.awc", "sprinkler.rate of front", "sprinkler.rate of front, changed", "eto", "rain"} {
		if causes[cause] == 0 {
			t.Errorf("nothing has the cause %q: %v", cause, causes)
		}
	}
}

// TestRangesInTheRecord: the scenario as understood has the ranges and reads back the
// same.
func TestRangesInTheRecord(t *testing.T) {
	sc := rangedScenario(t, rangedYard)
	again, err := scenarios.Build(sc.Canonical, "again")
	if err != nil {
		t.Fatal(err)
	}
	given := func(sc *scenarios.Scenario) (out []draw.Range) {
		for _, d := range sc.Doubts {
			if d.Given {
				out = append(out, d.Range)
			}
		}
		return out
	}
	a, b := given(sc), given(again)
	if len(a) == 0 || len(a) != len(b) {
		t.Fatalf("%v and %v", a, b)
	}
	for i := range a {
		if a[i] != b[i] {
			t.Errorf("range %d: %v and %v", i, a[i], b[i])
		}
	}
	if sc.Zones[0].Zone.AreaM2 != again.Zones[0].Zone.AreaM2 || sc.Zones[0].PRMMH != again.Zones[0].PRMMH {
		t.Error("the zones differ")
	}
}

// TestWrongRanges: a range that cannot be one is an error with a fix.
func TestWrongRanges(t *testing.T) {
	for _, c := range []struct{ from, into, want string }{
		{"180 to 220 m2", "220 to 180 m2", "is not a range"},
		{"180 to 220 m2", "200 to 200 m2", "is not a range"},
		{"180 to 220 m2", "180 to 190 to 200 to 220 m2", "4 numbers"},
		{"180 to 220 m2", "180 to 220", "unit"},
		{"45% to 65%", "10% to 65%", "outside"},
		{"45% to 65%", "45% to many", "not"},
		{"eto: 95% to 105%", "eto: 10% to 105%", "outside"},
		{"draws: 500", "draws: 5", "outside"},
	} {
		_, err := Read(strings.NewReader(strings.Replace(rangedYard, c.from, c.into, 1)), "yard.yaml", nil)
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "fix:") {
			t.Errorf("%s: %v", c.into, err)
		}
	}
}
