package runfile_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/demo"
	"loamledger/scenarios/runfile"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/timer"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func read(t *testing.T, text string, more ...scenarios.ZoneParam) *scenarios.Scenario {
	t.Helper()
	beside := func(name string) (io.ReadCloser, error) { return os.Open(filepath.Join("../examples", name)) }
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", beside, more...)
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// written returns the run.json of a scenario.
func written(t *testing.T, sc *scenarios.Scenario) string {
	t.Helper()
	text, err := json.MarshalIndent(runfile.New(sc), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// meaning writes everything in a scenario that a replay uses, with exact floats
// and without positions.
func meaning(sc *scenarios.Scenario) string {
	var b strings.Builder
	for _, z := range sc.Zones {
		z.Pos = diag.Pos{}
		fmt.Fprintf(&b, "%+v\n", z)
	}
	for _, st := range sc.Strategies {
		fmt.Fprintln(&b, st.Name)
		for _, p := range st.Parts {
			fmt.Fprintf(&b, "%T %+v\n", p, reflect.Indirect(reflect.ValueOf(p)))
		}
		for _, s := range st.Stretches {
			fmt.Fprintf(&b, "%+v\n", s)
		}
	}
	w := sc.Weather
	names := func(list ...scenarios.File) (out []string) {
		for _, f := range list {
			out = append(out, f.Name)
		}
		return out
	}
	fmt.Fprintln(&b, names(w.Files...), names(w.FillFiles...), w.RainFile != nil, w.Declared != nil)
	w.Files, w.FillFiles, w.RainFile, w.Declared, w.Pos = nil, nil, nil, nil, diag.Pos{}
	fmt.Fprintf(&b, "%+v\n%+v %v\n%+v\n%v %v\n", w, sc.Site, sc.Units, sc.Programs, sc.NoSpinUp, sc.StartShare)
	if sc.Limits != nil {
		fmt.Fprintf(&b, "%+v\n", *sc.Limits)
	}
	if sc.Timer != nil {
		fmt.Fprintf(&b, "%+v\n", *sc.Timer)
	}
	if f := sc.Forecast; f != nil {
		fmt.Fprintf(&b, "%v %+v\n", f.File != nil, f.Synthetic)
	}
	return b.String()
}

// repeated checks that the scenario is restored from its record, bit for bit,
// and the record byte for byte.
func repeated(t *testing.T, sc *scenarios.Scenario, more ...scenarios.ZoneParam) *scenarios.Scenario {
	t.Helper()
	text := written(t, sc)
	run, err := runfile.Read(strings.NewReader(text), "run.json", more...)
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	if run.Changed {
		t.Error("an untouched record counts as changed")
	}
	if a, b := meaning(sc), meaning(run.Scenario); a != b {
		t.Errorf("the scenario was\n%s\nand is\n%s", a, b)
	}
	if again := written(t, run.Scenario); again != text {
		t.Errorf("the record was\n%s\nand is\n%s", text, again)
	}
	return run.Scenario
}

// everything is a scenario with every group of keys, in units that do not
// convert to round numbers.
const everything = `
site: {name: Thistle Yard, latitude: 38.9, longitude: -104.83, elevation: 1603 ft, strips: 12, rain: {method: share}}
units: us
weather: {file: [a.csv, b.csv], rain_file: gauge.csv, fill_files: c.csv, wind_height: 33 ft, layout: own, units: us, station: "007",
  from: 2011-03-01, to: 2019-02-03, max_fill_days: 0 days, max_fill_run: 7 days, exclude_years: [2013, 2015], dew_point_offset: 3 F,
  coastal: yes, default_wind: 5 mph, calibrate: true, compute_eto: on}
forecast: {synthetic: {seed: 9007199254740991, threshold: 0.1 in, leads: [{pod: 61 %, far: 33 %}, {pod: 0.5 share, far: 41 %}]}}
zones:
  - {name: "a.b: <lawn> & 7 %", area: 0.137 acre, plant: cool-season turf, soil: clay loam, slope: 7 %,
     root_depth: 5.3 in, rain: {method: share, effective: 0 %},
     sprinkler: {kind: spray, rate: 1.37 in/h, catch_cans: [7, 9, 11, 13, 15, 17, 19, 21], overspray: 3.3 %, broken_heads: 1.7 %,
     fill_drain: 3.7 gal}, leak: 0.07 gpm, density: 1.07, microclimate: 0.83}
  - {name: "12", area: 613 ft2, plant: {k: [0.31, 0.33, 0.37, 0.41, 0.47, 0.53, 0.59, 0.61, 0.57, 0.43, 0.37, 0.29], p: 0.43, p_adjust: no},
     soil: {awc: 1.7 in/ft, intake: 0.31 in/h, surface_storage: 0.21 in, curve_number: 73, group: b}, cover: "lawn, fair",
     root_depth: 37 cm, sprinkler: {kind: drip, flow: 3.3 gpm}, rain: {method: curve number}}
  - {name: store, area: 95 m2, plant: {name: "shrubs, dry climate", k: 0.47}, soil: {intake: 11 mm/h, surface_storage: 5 mm},
     sprinkler: rotor, balance: working storage, storage: 0.85 in}
  - {name: both, area: 1111 ft2, plant: "trees, humid climate", coefficients: S623,
     sprinkler: {kind: rotor, rate: 0.5 in/h, flow: 5.6 gpm}, strips: 4}
  - {name: dripping, area: 317 ft2, plant: annuals, soil: heavy clay, sprinkler: {kind: emitters, emitters: 37, emitter_flow: 0.53 gph}}
  - {name: dripping both, area: 30 m2, plant: annuals, sprinkler: {kind: drip, emitters: 41, emitter_flow: 2.3 L/h, rate: 3.0 mm/h}}
programs:
  - {name: p, days: {every: 3 days, from: 2011-04-02}, starts: ["05:30", "22:15"],
     minutes: {"a.b: <lawn> & 7 %": 17.3, "12": 1.1 h, both: 0}, cycle: 7.7 min, from: 2011-04-01, to: 2018-10-01, ramp_to: 43 %}
  - {name: q, days: [Monday, thu], minutes: {both: 20}}
baseline: all skips
limits: {from: 2014-05-03, days: odd, window: ["20:00-06:15", "10:00-10:30"], max_minutes: 47 min,
  exempt: [store], exempt_manual: true, flow: 37 gpm, on_conflict: flag,
  stages: [{name: two, from: 2014-06-01, to: 2014-09-30, ban: true, exempt: "12"}]}
start: {depletion: 33 %}
strategies:
  - {name: as found, programs: [p, q], monthly: [0, 0, 41, 61 %, 83, 100, 100, 97, 77, 53, 29, 0], zone_percent: {both: 77 %}, round: 1 min}
  - name: all skips
    programs: p
    et_percent: {design_eto: 0.27 in, days: 5 days}
    habit: {edits: 3, min_delay: 14 days, max_delay: 42 days, seed: 5}
    hold: {rain: {at_least: 0.23 in}, frost: {below: 37 F}, wind: {above: 11 mph},
      forecast: {at_least: 0.19 in, days: 2 days, max_held: 3 days}}
    season: {start: 04-15, end: 10-15}
    suspend: [{from: 2012-07-01, to: 2012-07-14}, {from: 2013-07-01, to: 2013-07-02, zones: both}]
    manual: [{date: 2012-07-03, zone: both, minutes: 13 min}]
    sensor: {permit_at: 37 %}
  - name: refill
    refill: {mad: 37 %, cycle: 6 min, soak: 1 h}
    season: {frost: 28 F}
  - {name: all skips but frost, like: all skips, limits: none, hold: {frost: {below: 31 F}}, round: 2 min}
`

func TestEverythingComesBack(t *testing.T) {
	sc := repeated(t, read(t, everything))
	if z := sc.Zones[0]; z.Rain.EffectiveShare != 0 || z.DULQ != 8.0/14 { // lowest two 7 and 9, mean of all 14
		t.Errorf("the first zone is %+v", z)
	}
}

// TestChangesComeBack: every kind of change, in several strategies and copied by like,
// gives the same zones and run times from the record, bit for bit, though the record
// has every parameter of the zones before them.
func TestChangesComeBack(t *testing.T) {
	const changed = `
  - name: changed
    programs: [p]
    hold: {rain: {at_least: 0.31 in, from: 2012-03-01, until: 2016-04-30, off: [{from: 2013-01-01, to: 2013-01-31}]},
      frost: {below: 31 F, lasts: {life: 7.3, unplugged: 3.1 %, overridden: 7 %, seed: 11}}}
    changes:
      - {name: nozzles, zones: [both, "a.b: <lawn> & 7 %"], sprinkler: {kind: multi-stream, rate: 0.47 in/h}, minutes: same depth,
         cost: 913.07}
      - {zones: all, leak: 0.013 gpm, minutes: same minutes, from: 2014-03-01}
      - {zones: "12", soil: clay loam, root_depth: 43 cm}
      - {zones: both, plant: {name: desert plants, tolerance: 0.53 share}, cover: natural desert, from: 2013-10-01, removal: 43 days,
         establish: {days: 97 days, root_depth: 3.1 in, k: 71 %, minutes: 131 %}, minutes: 37 %}
      - {zones: "a.b: <lawn> & 7 %", slope: 3 %, area: 0.1 acre, microclimate: 0.91}
      - {zones: dripping, area: none, from: 2015-05-05}
      - {zones: dripping both, sprinkler: {emitters: 29, emitter_flow: 1.1 L/h}, plant: {k: 0.41}, root_depth: 31 cm, density: 0.9}
      - {zones: both, overseed: {plant: overseeded ryegrass, from: 10-15, to: 05-01}}
  - {name: changed more, like: changed, changes: {zones: "12", minutes: 83 %, from: 2016-06-06}}
`
	sc := repeated(t, read(t, everything+changed))
	if n := len(sc.Strategies[len(sc.Strategies)-1].Stretches); n < 15 {
		t.Errorf("%d stretches, for a removal, an establishment of 97 days in weeks and other dates", n)
	}
}

// TestTimersComeBack: a timer by name, by some of its values and by all of them,
// with and without units, is the same in the record; values not given are those of
// the plain profile, by hand 3 programs, 4 starts, 10%, 1 min and no cycle.
func TestTimersComeBack(t *testing.T) {
	for _, c := range []struct {
		text string
		want timer.Profile
	}{
		{"with cycle and soak", timer.Profile{Name: timer.WithCycle, Programs: 4, Starts: 4, PercentStep: 0.05, MinMinutes: 1, Cycle: true}},
		{"Plain", timer.Profile{Name: timer.Plain, Programs: 3, Starts: 4, PercentStep: 0.1, MinMinutes: 1}},
		{"{starts: 8}", timer.Profile{Programs: 3, Starts: 8, PercentStep: 0.1, MinMinutes: 1}},
		{"{programs: 1, starts: 2, percent_step: 0.2 share, min_minutes: 120 s, cycle: yes}",
			timer.Profile{Programs: 1, Starts: 2, PercentStep: 0.2, MinMinutes: 2, Cycle: true}},
		{"{min_minutes: 3}", timer.Profile{Programs: 3, Starts: 4, PercentStep: 0.1, MinMinutes: 3}},
	} {
		sc := repeated(t, read(t, beforeZones+"\n  - {name: a, area: 100 m2, plant: cool-season turf, soil: loam, sprinkler: spray}\n"+afterZones+
			"timer: "+c.text+"\n"))
		if sc.Timer == nil || *sc.Timer != c.want {
			t.Errorf("timer %s is %+v, by hand %+v", c.text, sc.Timer, c.want)
		}
	}
}

func TestShippedScenariosComeBack(t *testing.T) {
	names, err := filepath.Glob("../examples/*.yaml")
	if err != nil || len(names) < 6 {
		t.Fatalf("%d scenarios, %v", len(names), err)
	}
	texts := map[string]string{"demo": demo.Scenario, "us": scenarios.Template(quantity.US), "si": scenarios.Template(quantity.SI)}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts[filepath.Base(name)] = string(text)
	}
	for name, text := range texts {
		t.Run(name, func(t *testing.T) { repeated(t, read(t, text)) })
	}
}

// Every figure in the catalog can be read back from a record.
func TestCatalogComesBack(t *testing.T) {
	var b strings.Builder
	b.WriteString("site: {name: A, latitude: 1, elevation: 1 m}\nweather: {file: a.csv}\nstrategies: [{name: r, refill: {mad: 40 " +
		"%}}]\nzones:\n")
	n := 0
	zone := func(format string, args ...any) {
		n++
		fmt.Fprintf(&b, "  - {name: z%d, area: 100 m2, %s}\n", n, fmt.Sprintf(format, args...))
	}
	for _, p := range catalog.Plants() {
		for _, set := range p.Coefficients {
			zone("plant: %q, coefficients: %q, sprinkler: spray", p.Name, set.Set)
		}
	}
	for _, s := range catalog.Soils() {
		for _, c := range catalog.Covers() {
			zone("plant: %q, soil: %q, cover: %q, slope: %d %%, sprinkler: spray", catalog.PlantNames()[0], s.Name, c.Name, n%15)
		}
	}
	for _, k := range catalog.Sprinklers() {
		rate := "rate: 7 mm/h"
		if k.Rate.Known() {
			rate = "fill_drain: 0 m3"
		}
		zone("plant: %q, sprinkler: {kind: %q, %s}", catalog.PlantNames()[0], k.Name, rate)
	}
	repeated(t, read(t, b.String()))
}

// A share of 0% is a share, and is recorded as one.
func TestNoEffectiveRainIsAShare(t *testing.T) {
	text := written(t, read(t, everything))
	var got struct {
		Zones []struct {
			Parameters []struct {
				Key, Text string
				Value     *float64
			}
		}
	}
	if err := json.Unmarshal([]byte(text), &got); err != nil {
		t.Fatal(err)
	}
	method, share := "", -1.0
	for _, p := range got.Zones[0].Parameters {
		switch p.Key {
		case "rain.method":
			method = p.Text
		case "rain.effective":
			if p.Value != nil {
				share = *p.Value
			}
		}
	}
	if method != "share" || share != 0 {
		t.Errorf("the rain method is %q with a share of %g", method, share)
	}
}

// A scenario edited in its record is read, and reported as edited.
func TestEditedRecord(t *testing.T) {
	text := written(t, read(t, everything))
	run, err := runfile.Read(strings.NewReader(strings.Replace(text, `"days": "odd"`, `"days": "even"`, 1)), "run.json")
	if err != nil || !run.Changed {
		t.Errorf("changed is %v, %v", run != nil && run.Changed, err)
	}
}

func TestFaults(t *testing.T) {
	good := written(t, read(t, demo.Scenario))
	edit := func(old, new string) string {
		if !strings.Contains(good, old) {
			t.Fatalf("%q is not in the record", old)
		}
		return strings.Replace(good, old, new, 1)
	}
	tests := []struct{ name, text, want string }{
		{"empty", "", "run.json:1:1: invalid JSON"},
		{"cut short", good[:len(good)/2], "invalid JSON"},
		{"another file", `{"zones": []}`, "run.json: this file has no scenario"},
		{"a list", `[1, 2]`, "run.json: this file has no scenario"},
		{"more behind it", good + "\n{}", "unexpected text after the record"},
		{"a key twice", `{"scenario": {},` + "\n" + ` "scenario": {}}`, "run.json:2:2: duplicate key \"scenario\""},
		{"deep", strings.Repeat("[", 100), "run.json:1:34: lists and groups are nested too deeply"},
		{"a wrong value", edit(`"area": "`, `"area": "many `), "is not a number with a unit"},
		{"an unknown key", edit(`"slope":`, `"sloope":`), `did you mean "slope"?`},
		{"another default", edit(`"key": "start.depletion",`+"\n"+`      "text": "`, `"key": "start.depletion",`+"\n"+`      "text": "old `),
			"the default of start.depletion was old spin-up"},
		{"a default less", edit(`"key": "start.depletion"`, `"key": "start.other"`), "start.other no longer has a default"},
	}
	for _, tt := range tests {
		_, err := runfile.Read(strings.NewReader(tt.text), "run.json")
		if !diag.IsInput(err) || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got\n%v\nwant\n%s", tt.name, err, tt.want)
		}
	}
}

// For any bytes, reading ends with a scenario that can be recorded, or with an
// input error.
func FuzzRead(f *testing.F) {
	for _, text := range []string{demo.Scenario, everything} {
		sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", nil)
		if err != nil {
			f.Fatal(err)
		}
		data, err := json.Marshal(runfile.New(sc))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(`{"scenario": {"zones": [null, 1e999, true]}, "inputs": [0]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		run, err := runfile.Read(bytes.NewReader(data), "run.json")
		if err != nil {
			if !diag.IsInput(err) {
				t.Fatalf("not a fault of the input: %v", err)
			}
			return
		}
		if _, err := json.Marshal(runfile.New(run.Scenario)); err != nil {
			t.Fatal(err)
		}
	})
}
