package pagefile

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"loamledger/scenarios/demo"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
)

// demoWeather returns a file with so many years of the demo's weather.
func demoWeather(tb testing.TB, years int) []byte {
	tb.Helper()
	p, err := generate.DemoNormals().Params()
	if err != nil {
		tb.Fatal(err)
	}
	first := cal.Of(2001, 1, 1)
	rec, err := generate.Generate(p, generate.DemoStation(), first, int(cal.Of(2001+years, 1, 1)-first), 1)
	if err != nil {
		tb.Fatal(err)
	}
	var weather bytes.Buffer
	if err := csvfile.WriteOwn(&weather, &rec.Series); err != nil {
		tb.Fatal(err)
	}
	return weather.Bytes()
}

// demoEngine has the demo's files, with so many years of weather.
func demoEngine(tb testing.TB, years int) *Engine {
	tb.Helper()
	e := &Engine{}
	e.Put("some/folder/"+demo.ScenarioFile, []byte(demo.Scenario))
	e.Put(demo.WeatherFile, demoWeather(tb, years))
	return e
}

func reply(tb testing.TB, e *Engine, request string) *Reply {
	tb.Helper()
	var r Reply
	if err := json.Unmarshal(e.Answer(context.Background(), []byte(request)), &r); err != nil {
		tb.Fatal(err)
	}
	return &r
}

// What the page shows at a move is what it shows when the saved files are opened.
func TestSavedFilesGiveWhatWasShown(t *testing.T) {
	e := demoEngine(t, 3)
	opened := reply(t, e, `{"do": "open", "scenario": "juniper-flat.yaml"}`)
	if len(opened.Faults) > 0 || opened.Cards == nil || len(opened.Cards.Cards) != 12 {
		t.Fatalf("opened: %+v", opened)
	}
	if len(opened.Controls) != 2+5*3 {
		t.Errorf("%d controls", len(opened.Controls))
	}
	const set = `{"zones.0.sprinkler.rate": 1.25, "zones.4.sprinkler.uniformity": 71, "zones.4.root_depth": 14, ` +
		`"try.percent": 70, "try.days": 2}`
	moved := reply(t, e, `{"do": "move", "set": `+set+`}`)
	if len(moved.Faults) > 0 || len(moved.Cards.Cards) != 13 {
		t.Fatalf("moved: %+v", moved.Faults)
	}
	saved := reply(t, e, `{"do": "save", "set": `+set+`}`)
	if len(saved.Saved) != 1 || !strings.Contains(saved.Saved[0].Text, "# a second program") {
		t.Fatalf("saved: %+v", saved)
	}
	again := demoEngine(t, 3)
	again.Put("juniper-flat.yaml", []byte(saved.Saved[0].Text))
	same(t, reply(t, again, `{"do": "open", "scenario": "juniper-flat.yaml"}`), moved)
	same(t, reply(t, e, `{"do": "check", "set": `+set+`}`), moved)
	drawn := reply(t, e, `{"do": "draw", "draws": 8}`)
	if len(drawn.Faults) > 0 || drawn.Ranges == nil || drawn.Ranges.Of[0]["volume_m3_per_year"].Text == "" || drawn.Next.Measure == "" {
		t.Errorf("drawn: %+v", drawn)
	}
	sheet := reply(t, e, `{"do": "sheet", "strategy": 2}`)
	if len(sheet.Faults) > 0 || sheet.Sheet == nil || len(sheet.Sheet.Entries) == 0 {
		t.Errorf("sheet: %+v", sheet)
	}
	if at := sheet.Sheet.Entries[0].Starts[0]; !strings.HasSuffix(at, " AM") && !strings.HasSuffix(at, " PM") { // the site has US units
		t.Errorf("starts at %q", at)
	}
}

// What does not fit the timer is told with the sheet, and a rate that is written but marked
// as assumed counts as a default on its slider.
func TestUnfitAndAssumed(t *testing.T) {
	e := demoEngine(t, 2)
	e.Put("plain.yaml", []byte(demo.Scenario+"\ntimer: plain\n"+
		"assumed: [{key: zones.desert bed.sprinkler.rate, value: 0.4 in/h, source: a guess}]\n"))
	opened := reply(t, e, `{"do": "open", "scenario": "plain.yaml"}`)
	if len(opened.Faults) > 0 {
		t.Fatalf("%+v", opened.Faults)
	}
	for _, c := range opened.Controls {
		if strings.HasSuffix(c.ID, "sprinkler.rate") && c.Given != (c.Zone != "desert bed") {
			t.Errorf("%s of %s: given %v", c.ID, c.Zone, c.Given)
		}
	}
	reply(t, e, `{"do": "check", "set": {}}`)
	unfit, sensors := 0, 0
	for i := range opened.Cards.Cards {
		r := reply(t, e, fmt.Sprintf(`{"do": "sheet", "strategy": %d}`, i))
		if r.Sheet == nil {
			continue
		}
		if len(r.Unfit) == 0 && len(r.Sheet.Refused)+len(r.Sheet.Misfits)+len(r.Sheet.Unwatered) > 0 {
			t.Errorf("%s: %+v are not told", r.Sheet.Strategy, r.Sheet.Refused)
		}
		unfit += len(r.Unfit)
		sensors += len(r.Sheet.Controller)
	}
	if unfit == 0 || sensors == 0 {
		t.Errorf("%d do not fit, %d other settings", unfit, sensors)
	}
}

// same compares the numbers of cards.
func same(t *testing.T, a, b *Reply) {
	t.Helper()
	if len(a.Faults) > 0 || len(a.Cards.Cards) != len(b.Cards.Cards) {
		t.Fatalf("%+v", a.Faults)
	}
	for i := range a.Cards.Cards {
		for k, f := range a.Cards.Cards[i].Figures {
			g := b.Cards.Cards[i].Figures[k]
			if f.Key != g.Key || f.Text != g.Text || (f.Value == nil) != (g.Value == nil) || f.Value != nil && *f.Value != *g.Value {
				t.Errorf("%s, %s: %v and %v", a.Cards.Cards[i].Strategy, f.Key, f, g)
			}
		}
	}
}

// A request that cannot be met says why, with place and remedy.
func TestFaults(t *testing.T) {
	e := demoEngine(t, 1)
	e.Put("wrong.yaml", []byte(strings.Replace(demo.Scenario, "plant: cool-season turf", "plant: coral", 1)))
	e.Put("lacks.yaml", []byte(strings.Replace(demo.Scenario, demo.WeatherFile, "other/else.csv", 1)))
	for request, want := range map[string]string{
		`{"do": "open", "scenario": "nothing.yaml"}`: "no-such-file",
		`{"do": "open", "scenario": "wrong.yaml"}`:   "unknown-name",
		`{"do": "dance"}`:           "system-error",
		`{"do": "move", "set": {}}`: "system-error",
		`{`:                         "system-error",
	} {
		if r := reply(t, e, request); len(r.Faults) != 1 || string(r.Faults[0].Code) != want || r.Cards != nil {
			t.Errorf("%s: %+v", request, r.Faults)
		}
	}
	if r := reply(t, e, `{"do": "open", "scenario": "lacks.yaml"}`); len(r.Wants) != 1 || r.Wants[0] != "else.csv" {
		t.Errorf("wants %v, %v", r.Wants, r.Faults)
	}
}

// BenchmarkMove is one move of a slider on the demo: 12 strategies in 5 zones over 30 years.
func BenchmarkMove(b *testing.B) {
	e := demoEngine(b, 30)
	reply(b, e, `{"do": "open", "scenario": "juniper-flat.yaml"}`)
	for b.Loop() {
		reply(b, e, `{"do": "move", "set": {"zones.0.sprinkler.rate": 1.25, "try.percent": 70}}`)
	}
}

// Strategies in brackets can be tried as others can; zones in a table have no sliders, and
// the page says which file to change.
func TestSlidersOfOtherForms(t *testing.T) {
	e := demoEngine(t, 1)
	const zones = "name,area (ft2),plant,soil,sprinkler,rate (in/h)\nlawn,1000,cool-season turf,loam,spray,1.5\n"
	const text = `site: {name: A, latitude: 38.9, elevation: 1600 ft}
weather: {file: ` + demo.WeatherFile + `}
zones: zones.csv
programs: [{name: p, days: daily, starts: ["05:00"], minutes: {lawn: 20}}]
strategies: [{name: as found, programs: [p]}, {name: less, programs: [p], monthly: [0, 0, 0, 50, 50, 50, 50, 50, 50, 50, 0, 0]}]
`
	e.Put("zones.csv", []byte(zones))
	e.Put("table.yaml", []byte(text))
	opened := reply(t, e, `{"do": "open", "scenario": "table.yaml"}`)
	if len(opened.Faults) > 0 || len(opened.Controls) != 2 || !strings.Contains(opened.Fixed, "zones.csv") {
		t.Fatalf("%+v, %+v, %q", opened.Faults, opened.Controls, opened.Fixed)
	}
	moved := reply(t, e, `{"do": "move", "set": {"try.percent": 50, "try.days": 3}}`)
	if len(moved.Faults) > 0 || len(moved.Cards.Cards) != 3 || moved.Cards.Cards[2].Strategy != "my try" {
		t.Fatalf("moved: %+v", moved.Faults)
	}
	saved := reply(t, e, `{"do": "save", "set": {"try.percent": 50, "try.days": 3}}`)
	e.Put("table.yaml", []byte(saved.Saved[0].Text))
	same(t, reply(t, e, `{"do": "open", "scenario": "table.yaml"}`), moved)
}

// Once draws are made, each option says what to measure next, and no text names a command.
func TestMeasureNext(t *testing.T) {
	e := demoEngine(t, 2)
	reply(t, e, `{"do": "open", "scenario": "juniper-flat.yaml"}`)
	checked := reply(t, e, `{"do": "check", "set": {}}`)
	drawn := reply(t, e, `{"do": "draw", "draws": 64}`)
	for _, r := range []*Reply{checked, drawn} {
		for _, c := range r.Cards.Cards {
			if c.Option && c.Measure == "" {
				t.Errorf("%s: nothing to measure", c.Strategy)
			}
		}
		all, err := json.Marshal(r)
		if err != nil || strings.Contains(string(all), "loamledger tune") || strings.Contains(string(all), "whoever prepared") {
			t.Errorf("%v: a text is not for the reader of the page", err)
		}
	}
	if !strings.HasPrefix(checked.Cards.Cards[1].Measure, "As for every option: ") {
		t.Errorf("before the draws: %q", checked.Cards.Cards[1].Measure)
	}
	for _, c := range drawn.Cards.Cards {
		t.Logf("%s: %s", c.Strategy, c.Measure)
	}
}

// What is odd about the inputs is told on the page, too, as it is in a report.
func TestWarningsAreTold(t *testing.T) {
	e := demoEngine(t, 2)
	early := strings.Replace(demo.Scenario, "  wind_height: 2 m\n", "  wind_height: 2 m\n  from: 1901-01-01\n", 1)
	e.Put("early.yaml", []byte(early))
	r := reply(t, e, `{"do": "open", "scenario": "early.yaml"}`)
	if r.Cards == nil || !strings.Contains(strings.Join(r.Cards.Alarms, " "), "before the record begins") {
		t.Errorf("%+v, %+v", r.Faults, r.Cards)
	}
}
