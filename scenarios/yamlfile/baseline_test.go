package yamlfile_test

import (
	"errors"
	"io"
	"io/fs"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// likes is a scenario whose strategies copy each other.
const likes = `site: {name: A, latitude: 1, elevation: 1 m}
weather: {file: a.csv}
zones: [{name: lawn, area: 100 m2, plant: cool-season turf, soil: loam, sprinkler: spray}]
programs: [{name: p, days: odd, starts: ["05:30"], minutes: {lawn: 20}}, {name: q, days: any, starts: ["05:30"], minutes: {lawn: 5}}]
limits: {from: 2014-06-01, max_minutes: 10 min}
strategies:
  - {name: today, programs: p, round: 1 min, hold: {rain: {at_least: 6 mm}, frost: {below: 3 C}}}
  - {name: copy, like: today, hold: {frost: {below: 1 C}}, monthly: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]}
  - {name: copy of the copy, like: copy, programs: q, limits: none}
  - {name: other, programs: q}
`

// keysOf lists the keys of the parts of strategy i.
func keysOf(sc *scenarios.Scenario, i int) string {
	var keys []string
	for _, p := range sc.Stacks[i].Parts {
		keys = append(keys, p.Key)
	}
	return strings.Join(keys, " ")
}

// A copy has the parts of its model, except the kinds that it gives itself, and
// nothing else of it: neither its name nor its exemption.
func TestLikeCopiesParts(t *testing.T) {
	sc := mustRead(t, likes)
	a, b := keysOf(sc, 0)+" monthly", keysOf(sc, 1)
	if len(strings.Fields(a)) != len(strings.Fields(b)) || !strings.Contains(b, "hold.rain") || !strings.Contains(b, "programs") ||
		!strings.Contains(b, "round") {
		t.Errorf("today has %q and its copy %q", a, b)
	}
	frost := func(i int) (c float64) {
		for _, part := range sc.Strategies[i].Parts {
			if f, ok := part.(strategy.FrostHold); ok {
				c = f.BelowC
			}
		}
		return c
	}
	for i, want := range []float64{3, 1, 1} {
		if got := frost(i); got != want {
			t.Errorf("strategy %d holds below %g C, want %g", i, got, want)
		}
	}
	for _, part := range sc.Strategies[2].Parts {
		if p, ok := part.(strategy.Programs); ok && (len(p.List) != 1 || p.List[0].Name != "q") {
			t.Errorf("the copy of the copy runs %+v", p.List)
		}
	}
}

// The baseline alone is exempt by default; limits: overrides on either side, and a
// copy of the baseline is bound.
func TestBaselineIsExempt(t *testing.T) {
	free := func(sc *scenarios.Scenario) (out []bool) {
		for i := range sc.Strategies {
			out = append(out, sc.Strategies[i].Unbound)
		}
		return out
	}
	tests := []struct {
		why, text string
		baseline  int
		given     bool
		free      [4]bool
	}{
		{"none is named", likes, 0, false, [4]bool{true, false, true, false}},
		{"another is named", likes + "baseline: other\n", 3, true, [4]bool{false, false, true, true}},
		{"it is bound", strings.Replace(likes, "name: today,", "name: today, limits: binding,", 1), 0, false, [4]bool{false, false, true, false}},
		{"no limits", strings.Replace(likes, "limits: {from: 2014-06-01, max_minutes: 10 min}\n", "", 1), 0, false, [4]bool{2: true}},
	}
	for _, tt := range tests {
		sc := mustRead(t, tt.text)
		if got := [4]bool(free(sc)); got != tt.free || sc.Baseline != tt.baseline || sc.BaselineGiven != tt.given ||
			sc.Strategies[tt.baseline].Role != strategy.Baseline {
			t.Errorf("%s: exempt %v, baseline %d, given %v", tt.why, got, sc.Baseline, sc.BaselineGiven)
		}
		defaulted := false
		for _, in := range sc.Defaults() {
			defaulted = defaulted || in.Key == "baseline" && in.Text == "today"
		}
		if defaulted == tt.given {
			t.Errorf("%s: the choice of the baseline is among the defaults: %v", tt.why, defaulted)
		}
	}
	if l := mustRead(t, likes).Limits; l.From != cal.Of(2014, 6, 1) {
		t.Errorf("limits from %v", l.From)
	}
}

func TestBaselineFaults(t *testing.T) {
	tests := []struct{ old, new, want string }{
		{"like: today", "like: tomorrow",
			"yard.yaml:8:24: strategy \"copy\": like: no strategy above is called \"tomorrow\""},
		{"like: today", "like: other", "yard.yaml:8:24: strategy \"copy\": like: no strategy above is called \"other\""},
		{"like: today", "like: todya", `did you mean "today"?`},
		{"name: today,", "name: today, like: today,", "fix: copy a strategy that is above this one"},
		{"limits: none", "limits: some", `strategy "copy of the copy": unknown limits "some"`},
		{"programs: q}", "programs: q}\nbaseline: othre",
			"yard.yaml:11:11: baseline: no strategy is called \"othre\"\n\tfix: did you mean \"other\"?"},
		{"from: 2014-06-01", "from: June", "limits: from is the value \"June\", not a date"},
		// The error of a model is reported once, not again for its copies.
		{"at_least: 6 mm", "at_least: 6", "yard.yaml:7:70: strategy \"today\": hold: rain: at_least 6 has no unit"},
	}
	for _, tt := range tests {
		text := strings.Replace(likes, tt.old, tt.new, 1)
		_, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { return nil, fs.ErrNotExist })
		var all *diag.Errors
		if !errors.As(err, &all) || len(all.List) != 1 || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got\n%v\nwant\n%s", tt.new, err, tt.want)
		}
	}
}
