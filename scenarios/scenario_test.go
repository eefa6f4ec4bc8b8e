package scenarios_test

import (
	"fmt"
	"io"
	"io/fs"
	"math"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// files is a substitute for a folder.
type files map[string]string

func (f files) open(name string) (io.ReadCloser, error) {
	text, ok := f[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

func mustRead(t *testing.T, text string, beside files) *scenarios.Scenario {
	t.Helper()
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", beside.open)
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	return sc
}

// around makes a complete scenario from zones and strategies.
func around(zones, strategies string) string {
	return `site: {name: Juniper Court, latitude: 38.9, elevation: 1600 ft}
units: us
weather: {file: weather.csv}
zones:
` + zones + `
programs:
  - {name: lawns, days: [mon, wed], starts: ["05:30"], minutes: {front lawn: 20}, cycle: 8 min}
strategies:
` + strategies
}

const asFound = "  - {name: as found, programs: [lawns]}\n"

func zone(t *testing.T, keys string) scenarios.Zone {
	t.Helper()
	return mustRead(t, around("  - {name: front lawn, "+keys+"}", asFound), nil).Zones[0]
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(b)) }

func want(t *testing.T, what string, got, expected float64) {
	t.Helper()
	if !near(got, expected) {
		t.Errorf("%s is %v, want %v", what, got, expected)
	}
}

// The expected values are worked by hand from the figures named.
func TestZoneIsWorkedOut(t *testing.T) {
	z := zone(t, "area: 1000 ft2, plant: cool-season turf, soil: clay loam, slope: 5 %, root_depth: 6 in, sprinkler: {kind: "+
		"spray, flow: 12 gpm}")
	want(t, "area", z.AreaM2, 92.90304)
	want(t, "TAW", z.TAWMM, 180*0.1524)                       // FAO-56 eq. 82; clay loam 0.18 in/in
	want(t, "rate", z.PRMMH, 1.155*25.4)                      // 96.25 × 12 / 1000 in/h
	want(t, "flow", z.FlowLMin, 12*3.785411784)               // as given
	want(t, "uniformity", z.DULQ, 0.41)                       // measured average of sprays
	want(t, "loss", z.LossShare, 0.015)                       // daily mean
	want(t, "intake", z.IntakeMMH, 0.20*25.4)                 // clay loam
	want(t, "surface storage", z.SurfaceStorageMM, 0.22*25.4) // clay loam at 4 to 6 %
	want(t, "curve number", z.Rain.CN, 80)                    // good lawn on group D
	want(t, "p", z.P, 0.40)                                   // FAO-56 table 22
	want(t, "K in July", z.K[6], 0.8)                         // S623
	want(t, "strips", float64(z.Strips), 8)
	if z.Rain.Method != sim.CurveNumber || z.PConstant || z.Group != 'D' || z.Cover != "lawn, good" || z.Coefficients != "S623" ||
		z.Plant != "cool-season turf" || z.Soil != "clay loam" || z.Sprinkler != "spray" {
		t.Errorf("zone %+v", z)
	}
}

func TestZoneOfNumbers(t *testing.T) {
	z := zone(t, "area: 100 m2, plant: {k: [0,0,.4,.5,.6,.7,.8,.7,.6,.5,.4,0], p: .45, p_adjust: false}, density: 0.9, "+
		"microclimate: 1.1, soil: {awc: 150 mm/m, intake: 9 mm/h, surface_storage: 6 mm, curve_number: 74}, root_depth: 20 cm, "+
		"strips: 12, sprinkler: {kind: rotor, rate: 12 mm/h, "+
		"uniformity: 70 %, spray_loss: 4 %}")
	want(t, "TAW", z.TAWMM, 30)
	want(t, "K in January", z.K[0], 0)
	want(t, "K in July", z.K[6], 0.8*0.9*1.1)
	want(t, "p", z.P, 0.45)
	want(t, "intake", z.IntakeMMH, 9)
	want(t, "surface storage", z.SurfaceStorageMM, 6)
	want(t, "curve number", z.Rain.CN, 74)
	want(t, "flow", z.FlowLMin, 20) // 12 mm/h on 100 m² is 1200 L/h
	want(t, "uniformity", z.DULQ, 0.7)
	want(t, "loss", z.LossShare, 0.04)
	if !z.PConstant || z.Strips != 12 || z.Plant != scenarios.Custom || z.Soil != scenarios.Custom || z.Cover != "" || z.Group != 0 {
		t.Errorf("zone %+v", z)
	}
}

// A named soil, plant or kind supplies the values not given.
func TestNamesFillIn(t *testing.T) {
	z := zone(t, "area: 100 m2, plant: {name: warm-season turf, p: .35}, coefficients: UC, soil: {name: sandy loam, awc: 1.5 "+
		"in/ft, group: C}, cover: lawn fair, sprinkler: rotor")
	want(t, "p", z.P, 0.35)
	want(t, "K in January", z.K[0], 0.61) // University of California, as read
	want(t, "awc", z.AWCMMPerM, 125)
	want(t, "intake", z.IntakeMMH, 0.40*25.4)
	want(t, "surface storage", z.SurfaceStorageMM, 0.33*25.4) // nearly level
	want(t, "root depth", z.RootDepthM, 10*0.0254)
	want(t, "curve number", z.Rain.CN, 79) // fair lawn on group C
	want(t, "rate", z.PRMMH, 0.7*25.4)
	if z.Group != 'C' || z.Soil != "sandy loam" || z.Coefficients != "UC" {
		t.Errorf("zone %+v", z)
	}
}

func TestTwelveNumbersAreAPlant(t *testing.T) {
	z := zone(t, "area: 100 m2, plant: [.1,.2,.3,.4,.5,.6,.7,.8,.9,1,1.1,1.2], root_depth: 20 cm, sprinkler: rotor")
	want(t, "K in December", z.K[11], 1.2)
	want(t, "p", z.P, 0.5)
	want(t, "awc of the default soil", z.AWCMMPerM, 1.85*1000/12) // loam
}

func TestSiteRulesAndTheirExceptions(t *testing.T) {
	text := around(`  - {name: front lawn, area: 1 m2, plant: cool-season turf, sprinkler: spray}
  - {name: bed, area: 1 m2, plant: desert plants, coefficients: S623, strips: 1, rain: {method: curve number}, sprinkler: spray}`, asFound)
	text = strings.Replace(text, "latitude: 38.9", "latitude: 38.9, strips: 16, coefficients: FAO-56, rain: {method: share, "+
		"effective: 70 %}", 1)
	sc := mustRead(t, text, nil)
	a, b := sc.Zones[0], sc.Zones[1]
	if a.Strips != 16 || a.Coefficients != "FAO-56" || a.Rain.Method != sim.FixedShare || a.Rain.EffectiveShare != 0.7 || a.K[0] != 0.95 {
		t.Errorf("by the site's rules: %+v", a)
	}
	if b.Strips != 1 || b.Coefficients != "S623" || b.Rain.Method != sim.CurveNumber || b.Rain.CN != 85-8 || b.K[0] != 0.3 {
		t.Errorf("by its own rules: %+v", b) // natural desert on group B is 77
	}
}

func TestSiteWeatherAndStart(t *testing.T) {
	text := around("  - {name: front lawn, area: 1 m2, plant: cool-season turf, sprinkler: spray}", asFound)
	sc := mustRead(t, text, nil)
	want(t, "latitude", sc.Site.LatDeg, 38.9)
	want(t, "elevation", sc.Site.ElevM, 487.68)
	if !math.IsNaN(sc.Site.LonDeg) || !math.IsNaN(sc.Weather.WindHeightM) || sc.NoSpinUp || sc.Units != quantity.US ||
		sc.Site.Name != "Juniper Court" || sc.File != "yard.yaml" {
		t.Errorf("site %+v, weather %+v", sc.Site, sc.Weather)
	}
	text = strings.Replace(text, "weather: {file: weather.csv}", `weather: {file: [a.csv, b.csv], rain_file: gauge.csv, fill_files: c.csv,
  wind_height: 10 ft, units: tenths, station: "42", layout: daymet}
start: {depletion: 30 %}`, 1)
	sc = mustRead(t, text, nil)
	w := sc.Weather
	want(t, "wind height", w.WindHeightM, 3.048)
	if len(w.Files) != 2 || w.Files[1].Name != "b.csv" || w.RainFile.Name != "gauge.csv" || len(w.FillFiles) != 1 || w.Units != "tenths" ||
		w.Station != "42" || w.Layout != "daymet" {
		t.Errorf("weather %+v", w)
	}
	if w.Files[1].Pos.String() != "yard.yaml:3:25" {
		t.Errorf("b.csv stands at %v", w.Files[1].Pos)
	}
	if !sc.NoSpinUp || sc.StartShare != 0.3 {
		t.Errorf("start %v %v", sc.NoSpinUp, sc.StartShare)
	}
}

func TestProgram(t *testing.T) {
	zones := "  - {name: bed, area: 1 m2, plant: cool-season turf, sprinkler: spray}\n  - {name: front lawn, area: 1 m2, plant: " +
		"cool-season turf, sprinkler: spray}"
	p := mustRead(t, around(zones, asFound), nil).Programs[0]
	if p.Name != "lawns" || p.Cycle != 8 || p.Soak != 30 || len(p.Starts) != 1 || p.Starts[0] != 330 || p.Minutes[0] != 0 ||
		p.Minutes[1] != 20 {
		t.Errorf("program %+v", p)
	}
	if p.Days.Kind != strategy.Weekdays || p.Days.Weekdays != [7]bool{1: true, 3: true} {
		t.Errorf("days %+v", p.Days)
	}
	for days, rule := range map[string]strategy.DayRule{
		"any":                               {Kind: strategy.AnyDay},
		"odd":                               {Kind: strategy.OddDays},
		"even":                              {Kind: strategy.EvenDays},
		"Sunday":                            {Kind: strategy.Weekdays, Weekdays: [7]bool{0: true}},
		"[sat, SUN]":                        {Kind: strategy.Weekdays, Weekdays: [7]bool{0: true, 6: true}},
		"{every: 3 days, from: 2012-02-29}": {Kind: strategy.Interval, Every: 3, From: cal.Of(2012, 2, 29)},
	} {
		text := strings.Replace(around(zones, asFound), "[mon, wed]", days, 1)
		if got := mustRead(t, text, nil).Programs[0].Days; got != rule {
			t.Errorf("days %s: %+v, want %+v", days, got, rule)
		}
	}
	text := strings.Replace(around(zones, asFound), "{front lawn: 20}", "{front lawn: 1.5 h, bed: 0}", 1)
	if got := mustRead(t, text, nil).Programs[0].Minutes; got[0] != 0 || got[1] != 90 {
		t.Errorf("minutes %v", got)
	}
}

// Every kind of part can be written as in its own example.
func TestExamplesOfEveryKind(t *testing.T) {
	zones := "  - {name: front lawn, area: 1 m2, plant: cool-season turf, sprinkler: spray}"
	for _, k := range strategy.Kinds() {
		text := "  - name: example\n"
		if k.Key != "programs" && k.Key != "refill" {
			text += "    programs: [lawns]\n"
		}
		for _, line := range strings.Split(strings.TrimRight(k.Example, "\n"), "\n") {
			text += "    " + line + "\n"
		}
		sc := mustRead(t, around(zones, text), nil)
		if n := len(sc.Strategies[0].Parts); n == 0 || k.Doc == "" {
			t.Errorf("%s: %d parts, doc %q", k.Key, n, k.Doc)
		}
	}
}

func TestPartsGetTheirValues(t *testing.T) {
	zones := "  - {name: bed, area: 1 m2, plant: cool-season turf, sprinkler: spray}\n  - {name: front lawn, area: 1 m2, plant: " +
		"cool-season turf, sprinkler: spray}"
	sc := mustRead(t, around(zones, `  - name: whole
    programs: lawns
    monthly: [0, 0, 40, 60 %, 80, 100, 150, 95, 75, 50, 25, 0]
    hold: {rain: {at_least: 0.25 in, dry_out: 48 h}, frost: {below: 37 F}}
    sensor: {permit_at: 40 %, zones: [front lawn], placement: DRIEST}
  - name: due
    refill: {zones: bed, mad: 40 %, days: odd}
`), nil)
	var seen int
	for _, st := range sc.Strategies {
		for _, p := range st.Parts {
			switch p := p.(type) {
			case strategy.Programs:
				seen++
				if len(p.List) != 1 || p.List[0].Name != "lawns" {
					t.Errorf("programs %+v", p)
				}
			case strategy.Monthly:
				seen++
				if p.Share != [12]float64{0, 0, .4, .6, .8, 1, 1.5, .95, .75, .5, .25, 0} {
					t.Errorf("monthly %+v", p)
				}
			case strategy.RainHold:
				seen++
				if !near(p.AtLeastMM, 6.35) || p.DryOut != 2 {
					t.Errorf("rain skip %+v", p)
				}
			case strategy.FrostHold:
				seen++
				want(t, "held: frost", p.BelowC, 25.0/9)
			case strategy.Sensor:
				seen++
				if p.PermitAt != 0.4 || p.Zones[0] || !p.Zones[1] || p.Placement != "driest" || p.Error != 0 {
					t.Errorf("sensor %+v", p)
				}
			case *strategy.Refill:
				seen++
				if p.MAD != 0.4 || !p.Zones[0] || p.Zones[1] || p.Days.Kind != strategy.OddDays || p.Extra >= 0 || p.CycleMin != 0 {
					t.Errorf("refill %+v", p)
				}
			}
		}
	}
	if seen != 6 {
		t.Errorf("%d parts looked at, want 6", seen)
	}
}

// Law: the unit of a value makes no difference.
func TestUnitsChangeNothing(t *testing.T) {
	us := zone(t, "area: 2400 ft2, plant: cool-season turf, soil: {name: loam, awc: 2 in/ft, intake: 0.35 in/h, surface_storage: "+
		"0.25 in}, slope: 4 %, root_depth: 6 in, sprinkler: {kind: spray, rate: 1.5 in/h, flow: 37.4 gpm}")
	si := zone(t, "area: 222.967296 m2, plant: cool-season turf, soil: {name: loam, awc: 16.666666666666667 %, intake: 8.89 "+
		"mm/h, surface_storage: 6.35 mm}, slope: 0.04 share, root_depth: 152.4 mm, sprinkler: {kind: spray, rate: 38.1 mm/h, flow: "+
		"8.4944640433 m3/h}")
	pairs := [][2]float64{{us.AreaM2, si.AreaM2}, {us.TAWMM, si.TAWMM}, {us.IntakeMMH, si.IntakeMMH},
		{us.SurfaceStorageMM, si.SurfaceStorageMM}, {us.PRMMH, si.PRMMH}, {us.FlowLMin, si.FlowLMin}, {us.SlopeShare, si.SlopeShare}}
	for i, p := range pairs {
		if math.Abs(p[0]-p[1]) > 1e-9*p[0] {
			t.Errorf("pair %d: %v and %v", i, p[0], p[1])
		}
	}
}

func TestInputsTellEveryDefault(t *testing.T) {
	sc := mustRead(t, around("  - {name: front lawn, area: 1000 ft2, plant: cool-season turf, sprinkler: {kind: spray, uniformity: 60 %}}",
		"  - {name: as found, programs: [lawns], sensor: {permit_at: 40 %}}\n"), nil)
	byKey := map[string]scenarios.Input{}
	for _, in := range sc.Inputs {
		if _, ok := byKey[in.Key]; ok {
			t.Errorf("%s is recorded twice", in.Key)
		}
		byKey[in.Key] = in
		if in.Defaulted == (in.Pos.Line != 0) {
			t.Errorf("%s: defaulted %v, at %v", in.Key, in.Defaulted, in.Pos)
		}
		if in.Defaulted && (in.Source == "" || in.Grade == catalog.Given) || !in.Defaulted && in.Grade != catalog.Given {
			t.Errorf("%s: source %q, grade %v", in.Key, in.Source, in.Grade)
		}
	}
	for key, text := range map[string]string{
		"zones.front lawn.soil.name":            "loam",
		"zones.front lawn.soil.awc":             "1.85 in/ft",
		"zones.front lawn.root_depth":           "6 in",
		"zones.front lawn.sprinkler.rate":       "1.4 in/h",
		"zones.front lawn.sprinkler.spray_loss": "1.5%",
		"zones.front lawn.soil.curve_number":    "61",
		"programs.lawns.soak":                   "30 min",
		"strategies.as found.sensor.placement":  "average",
		"strategies.as found.sensor.error":      "0%",
		"start.depletion":                       "spin-up over the first 365 days",
	} {
		if in := byKey[key]; in.Text != text || !in.Defaulted {
			t.Errorf("default %s: %+v, want %s", key, in, text)
		}
	}
	if in := byKey["zones.front lawn.sprinkler.uniformity"]; in.Defaulted || in.Value != 0.6 || in.Text != "60 %" || in.Unit != "share" {
		t.Errorf("given uniformity: %+v", in)
	}
	if in := byKey["zones.front lawn.sprinkler.rate"]; in.Range != "0.7 in/h to 3.7 in/h" || !in.Numeric || !near(in.Value, 1.4*25.4) {
		t.Errorf("default rate: %+v", in)
	}
	for _, key := range strings.Fields("start.depletion " +
		"Z.coefficients Z.plant.k Z.plant.p Z.plant.p_adjust Z.density Z.microclimate Z.slope Z.soil.name " +
		"Z.soil.awc Z.soil.intake Z.soil.surface_storage Z.soil.group " +
		"Z.root_depth Z.sprinkler.rate Z.sprinkler.spray_loss Z.strips Z.rain.method Z.cover Z.soil.curve_number " +
		"programs.lawns.soak S.zones S.placement S.error S.seed") {
		key = strings.NewReplacer("Z.", "zones.front lawn.", "S.", "strategies.as found.sensor.").Replace(key)
		if !byKey[key].Defaulted {
			t.Errorf("%s is not told as a default", key)
		}
	}
	n := 0
	for _, in := range sc.Inputs {
		if in.Off && (!in.Defaulted || in.Text == "") {
			t.Errorf("%+v leaves out what was given", in)
		}
		if in.Defaulted && !in.Off {
			n++
		}
	}
	if got := len(sc.Defaults()); got != n || n < 23 {
		t.Errorf("%d defaults, %d of the inputs are", got, n)
	}
}

// The unit systems have other names, too.
func TestNamesOfTheSystems(t *testing.T) {
	for word, want := range map[string]quantity.System{"us": quantity.US, "SI": quantity.SI, "metric": quantity.SI, "English": quantity.US,
		"imperial": quantity.US} {
		text := strings.Replace(scenarios.Template(quantity.US), "units: us ", "units: "+word+" ", 1)
		if sc := mustRead(t, text, nil); sc.Units != want {
			t.Errorf("units: %s are %v", word, sc.Units)
		}
	}
}

func TestTemplates(t *testing.T) {
	us := mustRead(t, scenarios.Template(quantity.US), nil)
	si := mustRead(t, scenarios.Template(quantity.SI), nil)
	if us.Units != quantity.US || si.Units != quantity.SI {
		t.Errorf("units %v and %v", us.Units, si.Units)
	}
	for _, sc := range []*scenarios.Scenario{us, si} {
		if len(sc.Zones) != 2 || len(sc.Programs) != 2 || len(sc.Strategies) != 4 || sc.Weather.Files[0].Name != "weather.csv" {
			t.Errorf("template has %d zones, %d programs, %d strategies", len(sc.Zones), len(sc.Programs), len(sc.Strategies))
		}
	}
	for _, s := range []quantity.System{quantity.US, quantity.SI} {
		if text := scenarios.Template(s); strings.ContainsAny(text, "<>\t") {
			t.Errorf("the template of %v holds a mark that was not filled in", s)
		}
	}
	// The two describe the same place to the rounding of their numbers.
	for i := range us.Zones {
		a, b := us.Zones[i], si.Zones[i]
		for _, p := range [][2]float64{{a.AreaM2, b.AreaM2}, {a.TAWMM, b.TAWMM}, {a.PRMMH, b.PRMMH}} {
			if math.Abs(p[0]-p[1]) > 0.05*p[0] {
				t.Errorf("zone %s: %v in US units, %v in SI", a.Name, p[0], p[1])
			}
		}
	}
}

// Law: a table of zones gives the same zones as a list in the scenario.
func TestTableOfZonesIsTheSame(t *testing.T) {
	zones := `  - {name: front lawn, area: 2400 ft2, plant: cool-season turf, soil: clay loam, slope: 4 %, root_depth: 6 in,
     sprinkler: {kind: spray, rate: 1.5 in/h, uniformity: 55 %}}
  - {name: "bed, north", area: 600 ft2, plant: {k: 0.5, p: 0.45}, soil: {name: loam, awc: 160 mm/m}, slope: 2 %, root_depth: 38 cm,
     sprinkler: {kind: drip, flow: 4 gpm}, strips: 4}`
	table := "\ufeffname,Area (ft2),plant,k,p,soil,awc,slope [%],Root Depth,sprinkler,rate,flow,uniformity,strips\r\n" +
		"front lawn,2400,cool-season turf,,,clay loam,,4,6 in,spray,1.5 in/h,,55 %,\r\n" +
		"\r\n" +
		"\"bed, north\",600,,0.5,0.45,loam,160 mm/m,2,38 cm,drip,,4 gpm,,4\r\n"
	byYAML := mustRead(t, around(zones, asFound), nil)
	text := strings.Replace(around("", asFound), "zones:\n", "zones: zones.csv\n", 1)
	byCSV := mustRead(t, text, files{"zones.csv": table})
	if len(byCSV.Zones) != 2 {
		t.Fatalf("%d zones", len(byCSV.Zones))
	}
	for i := range byYAML.Zones {
		a, b := byYAML.Zones[i], byCSV.Zones[i]
		if b.Pos.File != "zones.csv" {
			t.Errorf("zone %d stands at %v", i, b.Pos)
		}
		a.Pos = b.Pos
		if a, b := fmt.Sprintf("%+v", a), fmt.Sprintf("%+v", b); a != b {
			t.Errorf("zone %d:\n%s\n%s", i, a, b)
		}
	}
	if got := byCSV.Zones[1].Pos.String(); got != "zones.csv:4:1" {
		t.Errorf("the second zone stands at %s", got)
	}
}
