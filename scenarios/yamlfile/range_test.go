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

// ownRanges is [rangedYard] with ranges of what programs and strategies have entered.
var ownRanges = strings.NewReplacer("minutes: {front: 10, back: 20}",
	"minutes: {front: 8 to 12, back: 20 to 22 to 30 min}, cycle: 5 to 10 min",
	"programs: [lawns]}", "programs: [lawns], hold: {rain: {at_least: 4 to 6 mm, dry_out: 1 to 4 days}}, "+
		"monthly: [0, 0, 50 to 70, 80, 100, 100, 100, 60% to 90%, 80, 40, 0, 0], habit: {edits: 2 to 4}}").Replace(rangedYard)

// TestOwnNumbersAreDrawn: what programs and strategies have entered may be ranges; whole
// numbers are drawn whole, each with the same chance; months of one list are off together,
// and what a strategy copies is off as in the one that it copies.
func TestOwnNumbersAreDrawn(t *testing.T) {
	sc := rangedScenario(t, ownRanges)
	whole, causes := 0, map[string]int{}
	for i := range sc.Doubts {
		d := &sc.Doubts[i]
		if d.Range.Whole {
			whole++
			counts := map[float64]int{}
			for k := range 1200 {
				counts[d.Range.At((float64(k)+0.5)/1200)]++
			}
			for v := d.Range.Low; v <= d.Range.High; v++ {
				if n := float64(counts[v]) * (d.Range.High - d.Range.Low + 1); n != 1200 {
					t.Errorf("%s: %v is drawn %d times of 1,200", d.Input, v, counts[v])
				}
			}
		}
		if d.Zone == "" {
			causes[d.Cause]++
		}
	}
	// By two strategies of which the second is like the first: trip level, days on hold and
	// edits, and two months; and once the programs.
	for cause, want := range map[string]int{
		"strategies.as found.hold.rain.at_least": 2, "strategies.as found.hold.rain.dry_out": 2, "strategies.as found.habit.edits": 2,
		"strategies.as found.monthly": 4, "programs.lawns.minutes.front": 1, "programs.lawns.minutes.back": 1, "programs.lawns.cycle": 1,
	} {
		if causes[cause] != want {
			t.Errorf("%s: %d doubts, want %d", cause, causes[cause], want)
		}
	}
	if whole != 4 {
		t.Errorf("%d whole ranges, want days on hold and edits, twice", whole)
	}
	high, err := sc.Drawn(at(1))
	if err != nil {
		t.Fatal(err)
	}
	if p := high.Programs[0]; p.Minutes[0] != 12 || p.Minutes[1] != 30 || p.Cycle != 10 || sc.Programs[0].Minutes[0] != 10 {
		t.Errorf("drawn program %+v", p)
	}
}

// TestOwnRangesComeBack: a scenario with ranges of programs and strategies, written as
// understood and read again, has the same ranges.
func TestOwnRangesComeBack(t *testing.T) {
	sc := rangedScenario(t, ownRanges)
	sc.RecordRanges(500)
	again, err := scenarios.Build(sc.Canonical, "again.yaml")
	if err != nil {
		t.Fatal(err)
	}
	ranges := func(sc *scenarios.Scenario) map[string]draw.Range {
		out := map[string]draw.Range{}
		for i := range sc.Doubts {
			if d := &sc.Doubts[i]; d.Zone == "" {
				out[d.Input] = d.Range
			}
		}
		return out
	}
	a, b := ranges(sc), ranges(again)
	if len(a) < 8 || len(a) != len(b) {
		t.Errorf("%d and %d ranges", len(a), len(b))
	}
	for input, r := range a {
		if b[input] != r {
			t.Errorf("%s: %v and %v", input, r, b[input])
		}
	}
}

// TestRangesThatCannotBe: a range where none can be is an error at its place, with the
// reason and a fix.
func TestRangesThatCannotBe(t *testing.T) {
	for _, c := range []struct{ from, into, want string }{
		{"latitude: 38.9", "latitude: 38 to 39", "known from any map"},
		{"elevation: 300 m", "elevation: 200 to 300 m", "known from any map"},
		{"{file: weather.csv}", "{file: weather.csv, wind_height: 2 to 3 m}", "computed once, before the draws"},
		{"{file: weather.csv}", "{file: weather.csv, dew_point_offset: 0 to 2 C}", "computed once, before the draws"},
		{"{file: weather.csv}", "{file: weather.csv, default_wind: 1 to 2 m/s}", "computed once, before the draws"},
		{"draws: 500", "draws: 500 to 600", "number of draws"},
		{"seed: 7", "seed: 7 to 8", "measures nothing"},
		{"soil: loam, root_depth: 15 cm", "strips: 4 to 8, soil: loam, root_depth: 15 cm", "how finely"},
		{"strategies:", "start: {depletion: 10% to 30%}\nstrategies:", "forgets its start"},
		{"strategies:", "limits: {flow: 30 to 40 L/min}\nstrategies:", "capacity"},
		{"strategies:", "verdict: {stress_days: 10 to 20}\nstrategies:", "that you choose"},
		{"strategies:", "allowance: {factor: 70% to 80%}\nstrategies:", "states one number"},
		{"strategies:", "timer: {programs: 2 to 3}\nstrategies:", "manual"},
		{"strategies:", "meters: [{name: a, people: 2 to 4}]\nstrategies:", "compared with meter reads"},
		{"programs: [lawns]}", "programs: [lawns], hold: {rain: {at_least: 4 mm, lasts: {life: 5 to 8}}}}", "works|have devices"},
		{"changes: [{", "changes: [{minutes: 80% to 90%, ", "zone_percent"},
		{"changes: [{", "changes: [{cost: 800 to 900, ", "under money"},
		{"name: cool-season turf, k_growing: 0.8 to 0.85 to 1", "k: [1, 1, 1, 1, 1, 0.8 to 1, 1, 1, 1, 1, 1, 1], p: 0.4", "off together"},
		{"uniformity: 45% to 65%", "catch_cans: [10, 12 to 14, 9, 11, 8, 9, 10, 11]", "measurements"},
	} {
		text := strings.Replace(rangedYard, c.from, c.into, 1)
		if text == rangedYard {
			t.Fatalf("%s is not in the scenario", c.from)
		}
		_, err := Read(strings.NewReader(text), "yard.yaml", nil)
		if err == nil || !strings.Contains(err.Error(), "cannot be a range: ") || !strings.Contains(err.Error(), "fix:") {
			t.Errorf("%s: %v", c.into, err)
			continue
		}
		found := false
		for _, want := range strings.Split(c.want, "|") {
			found = found || strings.Contains(err.Error(), want)
		}
		if !found || !strings.Contains(err.Error(), "yard.yaml:") {
			t.Errorf("%s: %v", c.into, err)
		}
	}
}

// TestRangeThatNeverFits: run times that take longer than a day at their highest are an
// error before any draw.
func TestRangeThatNeverFits(t *testing.T) {
	const from, into = `starts: ["05:00"], minutes: {front: 10,`, `starts: ["05:00", "15:00"], minutes: {front: 10 to 900,`
	text := strings.Replace(rangedYard, from, into, 1)
	if _, err := Read(strings.NewReader(text), "yard.yaml", nil); err == nil || !strings.Contains(err.Error(), "a day has") {
		t.Errorf("%v", err)
	}
}
