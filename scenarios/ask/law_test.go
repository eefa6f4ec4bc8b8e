package ask_test

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/ask"
	"loamledger/scenarios/ratesfile"
	"loamledger/scenarios/study"
	"loamledger/scenarios/weatherfile"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/tally"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/generate"
)

// read makes a scenario of answers and reads its YAML back, and each file made with it.
func read(t *testing.T, a ask.Answers) (*scenarios.Scenario, ask.Result) {
	t.Helper()
	r, faults := ask.Scenario(a)
	if len(faults) > 0 {
		t.Fatalf("%+v\n%+v", a, faults)
	}
	sc, err := yamlfile.Read(bytes.NewReader(r.YAML), "yard.yaml", nil)
	if err != nil {
		t.Fatalf("%+v\n%s\n%v", a, r.YAML, err)
	}
	for _, f := range r.Files {
		if f.Kind == ask.Rates && f.Text != nil {
			if _, err := ratesfile.Read(bytes.NewReader(f.Text), f.Name); err != nil {
				t.Fatalf("%s\n%v", f.Text, err)
			}
		}
	}
	return sc, r
}

// replayed replays a scenario made of answers on years of weather generated as the
// commands do. No strategy may need settings that the timer does not have.
func replayed(t *testing.T, a ask.Answers, years int) *tally.Table {
	t.Helper()
	sc, r := read(t, a)
	n, st, err := generate.DemoNormals(), generate.DemoStation(), error(nil)
	for _, f := range r.Files {
		if f.Kind == ask.Figures {
			if n, st, err = weatherfile.ReadNormals(bytes.NewReader(f.Text), f.Name); err != nil {
				t.Fatalf("%s\n%v", f.Text, err)
			}
		}
	}
	p, err := n.Params()
	if err != nil {
		t.Fatalf("%+v\n%v", a, err)
	}
	first := cal.Of(ask.FirstYear, 1, 1)
	rec, err := generate.Generate(p, st, first, int(cal.Of(ask.FirstYear+years, 1, 1)-first), ask.Seed)
	if err != nil {
		t.Fatal(err)
	}
	rec.File = sc.Weather.Files[0].Name
	w, err := study.Prepare(sc, study.Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatalf("%+v\n%v", a, err)
	}
	s, err := study.New(sc, w, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range s.Scenario.Warnings {
		if w.Code == scenarios.TimerMisfit {
			t.Errorf("%+v: %s", a, w.Text)
		}
	}
	table, err := s.Foresee(context.Background())
	if err != nil {
		t.Fatalf("%+v\n%v", a, err)
	}
	return table
}

// Who knows nothing still gets four options that are compared, on 30 years.
func TestNothingKnown(t *testing.T) {
	table := replayed(t, ask.Answers{}, ask.Years)
	rows := table.Compare()
	var names []string
	for _, row := range rows {
		names = append(names, row.Strategy)
		if row.Strategy == "as found" && !(row.M3PerYear > 0) {
			t.Errorf("as found uses %g m3", row.M3PerYear)
		}
	}
	for _, want := range []string{"as found", "seasonal percent", "rain skip", "ET-adjusted"} {
		if !strings.Contains(strings.Join(names, ";"), want) {
			t.Errorf("%s is not compared: %v", want, names)
		}
	}
	sc, r := read(t, ask.Answers{})
	listed := map[string]string{}
	for _, in := range sc.Defaults() {
		listed[in.Key] = in.Source
	}
	for _, key := range []string{"site.latitude", "site.elevation", "zones.zone 1.area", "zones.zone 1.plant.name",
		"zones.zone 1.sprinkler.kind", "programs.program A.days", "programs.program A.starts", "programs.program A.minutes.zone 1",
		"strategies.as found.season.start", "timer.cycle"} {
		if listed[key] == "" {
			t.Errorf("%s is not listed as a default: %v", key, listed)
		}
	}
	for _, a := range r.Assumed {
		if a.Text == "" || a.Source == "" {
			t.Errorf("%+v", a)
		}
	}
}

// places are all places of one zone.
func places() (out []ask.At) {
	for _, q := range ask.Questions() {
		for _, p := range q.Parts {
			at := ask.At{Question: q.ID, Part: p.ID, Zone: -1}
			if q.Many || p.Each {
				at.Zone = 0
			}
			out = append(out, at)
		}
	}
	return out
}

// part returns the part at a place.
func part(at ask.At) ask.Part {
	for _, q := range ask.Questions() {
		for _, p := range q.Parts {
			if q.ID == at.Question && p.ID == at.Part {
				return p
			}
		}
	}
	panic("ask: no such part")
}

// asked sets what has to be answered for the part at a place to be asked.
func asked(a *ask.Answers, at ask.At) {
	if p := part(at); p.Several || p.When != nil && p.When.Part == "same" {
		a.Zones = make([]ask.Zone, 2)
	}
	if w := part(at).When; w != nil {
		on := ask.At{Question: w.Question, Part: w.Part, Zone: -1}
		asked(a, on)
		a.Set(on, w.Is[len(w.Is)-1])
	}
}

// Every choice of every question makes a scenario that replays.
func TestEveryChoiceReplays(t *testing.T) {
	for _, at := range places() {
		for i, o := range part(at).Choices {
			for _, units := range []string{"us", "si"} {
				a := ask.Answers{Units: units}
				asked(&a, at)
				a.Set(at, o.ID)
				if !a.Asked(at) {
					t.Fatalf("%+v is not asked", at)
				}
				if (i%2 == 0) == (units == "us") { // each choice in one of the systems
					replayed(t, a, 2)
				}
				for _, same := range []string{fmt.Sprint(i + 1), strings.ToUpper(o.Text)} { // a number and the text mean the same
					b := a
					b.Zones = append([]ask.Zone(nil), a.Zones...)
					b.Set(at, same)
					_, r1 := read(t, a)
					_, r2 := read(t, b)
					if !bytes.Equal(r1.YAML, r2.YAML) || !slices.Equal(a.Places(), b.Places()) {
						t.Errorf("%+v: %q is not %q:\n%s\n%s", at, same, o.ID, r1.YAML, r2.YAML)
					}
				}
			}
		}
	}
}

// The example of every part is read, and its default, if typed, makes the same
// scenario as "don't know", except for the marks.
func TestExamplesAndDefaults(t *testing.T) {
	plain := func(yaml []byte) string {
		var out []string
		for _, line := range strings.Split(string(yaml), "\n") {
			line = strings.TrimSpace(line)
			if !strings.HasPrefix(line, "#") && !strings.HasPrefix(line, "- {key:") && line != "assumed:" && line != "" {
				out = append(out, line)
			}
		}
		return strings.Join(out, "\n")
	}
	for _, at := range places() {
		var a ask.Answers
		asked(&a, at)
		a.Set(at, "")
		_, unknown := read(t, a)
		if d := a.Default(at); d.Text == "" || d.Source == "" && !d.None {
			t.Errorf("%+v: %+v", at, d)
		} else if d.Answer != "" && at.Part != "flow" {
			b := a
			b.Zones = append([]ask.Zone(nil), a.Zones...)
			b.Set(at, d.Answer)
			_, known := read(t, b)
			if plain(known.YAML) != plain(unknown.YAML) {
				t.Errorf("%+v: typing the default %q changes\n%s\nto\n%s", at, d.Answer, unknown.YAML, known.YAML)
			}
			if !d.None && len(known.Assumed) >= len(unknown.Assumed) {
				t.Errorf("%+v: typed, and still assumed", at)
			}
		}
		if example := part(at).Example; example.US != "" && example.SI != "" {
			a.Set(at, example.US)
			read(t, a)
			a.Units = "si"
			a.Set(at, example.SI)
			read(t, a)
		} else if len(part(at).Choices) == 0 {
			t.Errorf("%+v has neither example nor choices", at)
		}
	}
}

// Who knows only that it is lawn is told which kind is used: that stays a guess.
func TestLawnOfUnknownKind(t *testing.T) {
	for text, assumed := range map[string]bool{"lawn": true, "3": true, "cool lawn": false, "tall fescue": false} {
		var a ask.Answers
		a.SetZones("front")
		a.Set(ask.At{Question: "zones", Part: "plant", Zone: 0}, text)
		_, r := read(t, a)
		listed := slices.ContainsFunc(r.Assumed, func(d ask.Assumption) bool { return d.Part == "plant" && d.Text == "cool-season turf" })
		if marked := strings.Contains(string(r.YAML), "# ASSUMED\n    plant: "); listed != assumed || marked != assumed {
			t.Errorf("%q: listed %v, marked %v", text, listed, marked)
		}
	}
}

// There are ten questions, and each can be found.
func TestTenQuestions(t *testing.T) {
	q := ask.Questions()
	if len(q) > 10 {
		t.Errorf("%d questions", len(q))
	}
	seen := map[ask.At]bool{}
	for _, at := range places() {
		a := ask.Answers{}
		if seen[at] || !a.Set(at, "x") || a.Answer(at) != "x" {
			t.Errorf("%+v is there twice, or cannot be answered", at)
		}
		seen[at] = true
	}
	a := ask.Answers{}
	for _, at := range []ask.At{{}, {Question: "zones", Part: "area", Zone: -1}, {Question: "place", Part: "position", Zone: 0},
		{Question: "zones", Part: "area", Zone: ask.MaxZones}} {
		if a.Set(at, "x") || a.Answer(at) != "" || a.Asked(at) || !a.Default(at).None {
			t.Errorf("%+v exists", at)
		}
	}
}
