package ask_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"loamledger/scenarios/ask"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/scenarios/ratesfile"
	"loamledger/weather/quantity"
)

// hostile are texts that YAML, a terminal or a spreadsheet could take for something
// else.
var hostile = []string{"yes", "no", "null", "~", "true", "on", "0x1F", "1e3", "12", "-5", "2012-01-01", "05:30", "a: b", "a #b",
	"# a", "a, b",
	"[a]", "{a: b}", "- a", "? a", "&a", "*a", "!a", "|", ">", "%a", "`a`", "\"a\"", "'a'",
	"a\\nb", `a\"b`, "…", "é", "e\u0301", "日本", "🌱",
	"a\tb", "a\nb: c", "a\u2028b", "a\x00b", "\xff", "\u202ea", "<b>a</b>", "zone: x\nstrategies: []", "---", "...", "a:", ":a", "y", "n",
	" padded ", "=1", "+1", "@x", "all", "strategies", strings.Repeat("x", 81), "a.b", "programs.p"}

// A name of any text is a fault located at it, or comes back as typed.
func TestHostileNames(t *testing.T) {
	for _, text := range hostile {
		for _, of := range []func(*ask.Answers){
			func(a *ask.Answers) { a.Zones = []ask.Zone{{Name: text}, {Name: "other"}} },
			func(a *ask.Answers) { a.Name = text },
			func(a *ask.Answers) { a.WeatherFile = text },
			func(a *ask.Answers) { a.RatesFile = text },
			func(a *ask.Answers) { a.Base = text },
		} {
			var a ask.Answers
			of(&a)
			r, faults := ask.Scenario(a)
			if len(faults) > 0 {
				for _, f := range faults {
					if f.Question == "" && a.Name == "" && a.Base == "" {
						t.Errorf("%q: %+v", text, f)
					}
				}
				continue
			}
			sc, r := read(t, a)
			want := strings.TrimSpace(text)
			switch {
			case len(a.Zones) > 0 && sc.Zones[0].Name != want, a.Name != "" && sc.Site.Name != want,
				a.WeatherFile != "" && sc.Weather.Files[0].Name != want, a.RatesFile != "" && sc.Money.Rates.Name != want:
				t.Errorf("%q came back changed:\n%s", text, r.YAML)
			case len(sc.Strategies) != 4:
				t.Errorf("%q: %d strategies", text, len(sc.Strategies))
			}
		}
	}
}

// A text that is not valid never gets into the YAML, wherever it is typed.
func TestHostileAnswers(t *testing.T) {
	for _, at := range places() {
		for _, text := range hostile {
			if at.Part == "name" || at.Part == "file" || at.Part == "rates" {
				continue
			}
			a := answers(at, text)
			r, faults := ask.Scenario(a)
			if len(faults) == 0 {
				read(t, a)
			}
			for _, f := range faults {
				if f.At != at || r.YAML != nil {
					t.Errorf("%+v %q: %+v", at, text, f)
				}
			}
		}
	}
}

// pick returns one of the texts.
func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// Whatever is answered comes back from the YAML with the same values. The expected
// values are worked out here from the numbers drawn, not by the code under test.
func TestAnswersComeBack(t *testing.T) {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(b)) }
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 16))
		lat := math.Round(1e4*(180*r.Float64()-90)) / 1e4
		elevation := r.IntN(3000)
		a := ask.Answers{Position: fmt.Sprintf("%v, 12.5", lat), Elevation: fmt.Sprintf("%d m", elevation), Units: pick(r, "us", "si", ""),
			Months: "Apr-Oct", Starts: "05:00, 21:30", Days: pick(r, "mon, wed, fri", "odd", "every 3 days", "daily")}
		type zone struct{ area, minutes float64 }
		var want []zone
		for z := range 1 + r.IntN(6) {
			side, other, minutes := float64(1+r.IntN(60)), float64(1+r.IntN(60)), float64(1+r.IntN(30))
			text, area := "", side*other
			switch r.IntN(3) {
			case 0:
				text = fmt.Sprintf("%v m2", area)
			case 1:
				text = fmt.Sprintf("%v m x %v m", side, other)
			case 2: // hand: a foot is 0.3048 m
				text, area = fmt.Sprintf("%v x %v ft", side, other), area*0.3048*0.3048
			}
			want = append(want, zone{area, minutes})
			a.Zones = append(a.Zones, ask.Zone{Name: fmt.Sprintf("%s %d", pick(r, "lawn", "bed: é", "a \"b\""), z), Area: text,
				Minutes: fmt.Sprint(minutes), Plant: pick(r, catalog.PlantNames()...), Sprinkler: pick(r, catalog.SprinklerNames()...)})
		}
		sc, res := read(t, a)
		if !near(sc.Site.LatDeg, lat) || !near(sc.Site.LonDeg, 12.5) || !near(sc.Site.ElevM, float64(elevation)) {
			t.Fatalf("%+v: %+v", a, sc.Site)
		}
		if sc.Units != map[string]quantity.System{"us": quantity.US, "si": quantity.SI, "": quantity.US}[a.Units] {
			t.Fatalf("%+v: %v", a, sc.Units)
		}
		p := sc.Programs[0]
		for z := range want {
			if got := sc.Zones[z]; !near(got.AreaM2, want[z].area) || got.Name != a.Zones[z].Name || got.Plant != a.Zones[z].Plant ||
				got.Sprinkler != a.Zones[z].Sprinkler || !near(p.Minutes[z], want[z].minutes) {
				t.Fatalf("%+v\n%+v\n%+v", a.Zones[z], got, p)
			}
		}
		if len(p.Starts) != 2 || p.Starts[0] != 300 || p.Starts[1] != 1290 {
			t.Fatalf("%+v", p)
		}
		// The page keeps answers as JSON.
		text, err := json.Marshal(a)
		var b ask.Answers
		if err == nil {
			err = json.Unmarshal(text, &b)
		}
		if again, _ := ask.Scenario(b); err != nil || !reflect.DeepEqual(a, b) || !bytes.Equal(again.YAML, res.YAML) {
			t.Fatalf("%v: %+v is not %+v", err, b, a)
		}
	}
}

// The same yard in metric and in US units is the same yard. Hand: 9.29 m2 are 100
// ft2 within 0.1%.
func TestUnitsMeanTheSame(t *testing.T) {
	us, _ := read(t, ask.Answers{Elevation: "1000 ft", Zones: []ask.Zone{{Area: "100 ft2", Flow: "10 gpm", Minutes: "0.5 h"}}})
	si, _ := read(t, ask.Answers{Elevation: "304.8 m", Units: "si", Zones: []ask.Zone{{Area: "9.290304 m2", Flow: "37.85411784 L/min",
		Minutes: "30"}}})
	if a, b := us.Zones[0], si.Zones[0]; math.Abs(a.AreaM2-b.AreaM2) > 1e-9 || math.Abs(a.PRMMH-b.PRMMH) > 1e-9 ||
		us.Programs[0].Minutes[0] != si.Programs[0].Minutes[0] || us.Site.ElevM != si.Site.ElevM {
		t.Errorf("%+v\n%+v", a, b)
	}
}

// A question that states a unit takes a bare number in it. Hand: 40 x 25 ft are 1000
// ft2; 12 x 8 m are 96 m2.
func TestStatedUnits(t *testing.T) {
	us := ask.Answers{Elevation: "1000", Zones: []ask.Zone{{Area: "40 x 25", Flow: "10", Minutes: "12"}, {Area: "1000", Flow: "10 gpm"}}}
	sc, _ := read(t, us)
	if a, b := sc.Zones[0], sc.Zones[1]; math.Abs(a.AreaM2-b.AreaM2) > 1e-9 || math.Abs(a.AreaM2-92.90304) > 1e-9 ||
		math.Abs(a.PRMMH-b.PRMMH) > 1e-9 || math.Abs(sc.Site.ElevM-304.8) > 1e-9 {
		t.Errorf("%+v\n%+v\n%+v", a, b, sc.Site)
	}
	sc, _ = read(t, ask.Answers{Units: "si", Elevation: "1000", Zones: []ask.Zone{{Area: "12 x 8"}}})
	if sc.Site.ElevM != 1000 || math.Abs(sc.Zones[0].AreaM2-96) > 1e-9 {
		t.Errorf("%+v\n%+v", sc.Site, sc.Zones[0])
	}
}

func TestPositions(t *testing.T) {
	for text, want := range map[string][2]float64{"38.9, -104.8": {38.9, -104.8}, "38.9 N, 104.8 W": {38.9, -104.8},
		"38.9°N 104.8°W": {38.9, -104.8}, "33.9 s; 151.2 e": {-33.9, 151.2}, "-33.9,151.2": {-33.9, 151.2}} {
		sc, _ := read(t, ask.Answers{Position: text})
		if sc.Site.LatDeg != want[0] || sc.Site.LonDeg != want[1] {
			t.Errorf("%q: %+v", text, sc.Site)
		}
	}
}

// Published: the chart of the NRCS guide to texture by feel, modified from Thien
// (1979), as in the USDA NRCS soil quality materials. Columns: ball and ribbon, grit.
func TestSoilByFeel(t *testing.T) {
	for _, tt := range [][3]string{
		{"no ball", "", "sand"}, {"none", "", "loamy sand"},
		{"short", "gritty", "sandy loam"}, {"short", "smooth", "silt loam"}, {"short", "neither", "loam"},
		{"medium", "gritty", "sandy clay loam"}, {"medium", "smooth", "silty clay loam"}, {"medium", "neither", "clay loam"},
		{"long", "gritty", "sandy clay"}, {"long", "smooth", "silty clay"}, {"long", "neither", "clay"},
		{"", "", "loam"}, {"long", "", "clay"}, {"known", "", "loam"},
	} {
		sc, _ := read(t, ask.Answers{Ribbon: tt[0], Grit: tt[1]})
		if sc.Zones[0].Soil != tt[2] {
			t.Errorf("%q is %s", tt, sc.Zones[0].Soil)
		}
	}
}

func TestPrices(t *testing.T) {
	for _, tt := range [][4]string{
		{"$6.50 per kgal", "USD", "6.50", "kgal"}, {"$6.50/1,000 gallons", "USD", "6.50", "kgal"}, {"4.1 USD per CCF", "USD", "4.1", "HCF"},
		{"$4.10 per 100 cubic feet", "USD", "4.10", "HCF"}, {"EUR 3.20 per m3", "EUR", "3.20", "m3"}, {"€3.20/m³", "EUR", "3.20", "m3"},
		{"aud 3 a cubic meter", "AUD", "3", "m3"},
		{"7 dollars per 1000 gallons", "USD", "7", "kgal"}, {"$0.006 per gal", "USD", "0.006", "gal"},
	} {
		_, r := read(t, ask.Answers{Price: tt[0]})
		var text string
		for _, f := range r.Files {
			if f.Kind == ask.Rates {
				text = string(f.Text)
				if _, err := ratesfile.Read(strings.NewReader(text), f.Name); err != nil {
					t.Errorf("%q: %v", tt[0], err)
				}
			}
		}
		for _, line := range []string{"currency: " + tt[1], "price: " + tt[2] + "}", "unit: " + tt[3]} {
			if !strings.Contains(text, line+"\n") && !strings.Contains(text, line) {
				t.Errorf("%q: no %q in\n%s", tt[0], line, text)
			}
		}
	}
}

func TestMonths(t *testing.T) {
	for text, want := range map[string]string{"Apr-Oct": "04-01 10-31", "april to october": "04-01 10-31", "4-10": "04-01 10-31",
		"Oct–Feb": "10-01 02-28", "june": "06-01 06-30", "mar, apr, may": "03-01 05-31", "Sept through May": "09-01 05-31"} {
		_, r := read(t, ask.Answers{Months: text})
		from, to, _ := strings.Cut(want, " ")
		if line := "season: {start: " + from + ", end: " + to + "}"; !strings.Contains(string(r.YAML), line) {
			t.Errorf("%q: no %s", text, line)
		}
	}
	for _, text := range []string{"all", "jan-dec", "All year"} {
		if _, r := read(t, ask.Answers{Months: text}); strings.Contains(string(r.YAML), "season:") {
			t.Errorf("%q has a season", text)
		}
	}
}

// Names of zones are compared as the reader of scenarios does.
func TestDuplicateZones(t *testing.T) {
	_, faults := ask.Scenario(ask.Answers{Zones: []ask.Zone{{Name: "zone 2"}, {}}})
	if len(faults) != 1 || names.Key(faults[0].Part) != "name" {
		t.Errorf("%+v", faults)
	}
}
