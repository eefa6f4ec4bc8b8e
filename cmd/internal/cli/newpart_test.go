package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/settings"
	"loamledger/sim/settingsfile"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A heatBoost is a part made up for the test: after a warm night it waters some
// zones longer.
type heatBoost struct {
	AboveC, By float64
	Zones      []bool
	quiet      bool // omits every optional description
}

func (heatBoost) Stage() strategy.Stage { return strategy.Scale }

func (h heatBoost) Apply(d *strategy.Draft) {
	d.Scale = make([]float64, d.Site.Days())
	for i := range d.Scale {
		d.Scale[i] = 1
		if i > 0 && d.Site.Weather.TminC[d.Site.Source(i-1)] > h.AboveC {
			d.Scale[i] = 1 + h.By
		}
	}
}

func (h heatBoost) Kind() strategy.Kind { return heatKind(h.quiet) }

func heatKind(quiet bool) strategy.Kind {
	s := strategy.Spec[heatBoost]{
		Key: "heat_boost", Doc: "waters longer after a warm night", Example: "heat_boost: {above: 95 F, by: 20%}", Many: true,
		Params: func(h *heatBoost) []strategy.Param {
			h.quiet = quiet
			return []strategy.Param{
				{
					Key: "above", Field: strategy.AsQuantity(&h.AboveC, quantity.Temperature), Required: true, Min: 20, Max: 60,
					Doc: "minimum temperature of yesterday",
				},
				{
					Key: "by", Field: strategy.AsQuantity(&h.By, quantity.Fraction), Default: 0.1, Min: 0, Max: 1,
					Doc: "increase in run times", Source: "made up for the test",
				},
				{Key: "zones", Field: strategy.AsZones(&h.Zones), Word: "all", Doc: "zones", Source: "made up for the test"},
			}
		},
	}
	if quiet {
		return s.Kind()
	}
	s.Sheet = func(h *heatBoost, _ *strategy.Site) strategy.SheetEntry {
		return strategy.SheetEntry{Use: strategy.ByItself, Most: 1 + h.By}
	}
	s.Copy = strategy.Kept[heatBoost]
	s.Lines = func(h *heatBoost, zones []string, sys quantity.System) []string {
		above := quantity.Format(h.AboveC, quantity.Temperature, sys)
		return []string{fmt.Sprintf("Heat boost: %.0f%% more after a night above %s", 100*h.By, above)}
	}
	s.Plain = func(*heatBoost) strategy.Plain { return strategy.Plain{Text: "longer after warm nights"} }
	s.YAML = strategy.FromParams
	s.Conflicts = func(h *heatBoost, given strategy.Given) strategy.Conflicts {
		twice := &strategy.Collision{Text: "two heat boosts act on", Fix: "keep one"}
		c := strategy.Conflicts{Checked: true, Claim: &strategy.Claim{Zones: h.Zones, Twice: twice}}
		if given(&h.By) && h.By == 0 {
			c.Faults = append(c.Faults, strategy.Contradiction{Text: "heat_boost: by 0% does nothing", Fix: "remove it"})
		}
		return c
	}
	s.Warnings = func(h *heatBoost, zones []string) strategy.Warnings {
		w := strategy.Warnings{Checked: true}
		if h.AboveC > 50 {
			w.Texts = []string{"no night was ever above the temperature of heat_boost"}
		}
		return w
	}
	s.Record = func(h *heatBoost, site *strategy.Site) string {
		return fmt.Sprintf("the warmest night of the record had %.0f degrees", slices.Max(site.Weather.TminC))
	}
	return s.Kind()
}

const hotYard = `site: {name: Juniper Court, latitude: 38.9, elevation: 500 m}
weather: {file: weather.csv}
zones:
  - {name: front lawn, area: 100 m2, plant: cool-season turf, soil: loam, root_depth: 150 mm, sprinkler: {kind: spray, rate: 38 mm/h}}
programs:
  - {name: lawns, days: [mon, wed], starts: ["05:30"], minutes: {front lawn: 20}}
strategies:
  - name: by programs
    programs: [lawns]
    heat_boost: {above: 95 F, by: 20%}
  - name: by balance
    refill: {mad: 40%}
    heat_boost: {above: 95 F, by: 20%}
`

// readHot reads a scenario with heat_boost as an additional kind of part.
func readHot(text string, quiet bool) (*scenarios.Scenario, error) {
	kinds := append(strategy.Kinds(), heatKind(quiet))
	build := func(root *scenarios.Node, name string) (*scenarios.Scenario, error) {
		return scenarios.BuildOf(root, name, kinds)
	}
	return yamlfile.ReadWith(build, strings.NewReader(text), "yard.yaml", nil)
}

// hot loads such a scenario with two years of synthetic weather.
func hot(t *testing.T) *loaded {
	t.Helper()
	sc, err := readHot(hotYard, false)
	if err != nil {
		t.Fatal(err)
	}
	w := sim.Weather{Start: cal.Of(2013, 1, 1)}
	for i := range 730 {
		season := (1 - math.Cos(2*math.Pi*float64(i)/365)) / 2
		w.EToMM, w.RainMM = append(w.EToMM, 1+5*season), append(w.RainMM, 0)
		w.TminC = append(w.TminC, 5+35*season)
	}
	return &loaded{Study: &study.Study{Scenario: sc, Job: replay.Job{Zones: sc.SimZones(), Weather: w, Strategies: sc.Strategies, Workers: 1}}}
}

// TestNewPartReachesEveryOutput: a kind of part that is only added to the list is
// read, rejected if it conflicts, included in warnings, help, both kinds of
// settings sheet and the results of tune, and written as YAML that reads back.
func TestNewPartReachesEveryOutput(t *testing.T) {
	l := hot(t)
	const words = "Heat boost: 20% more after a night above 35 °C"
	holds := func(where, text string, wants ...string) {
		t.Helper()
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %q:\n%s", where, want, text)
			}
		}
	}
	var help bytes.Buffer
	printParts(&help, append(strategy.Kinds(), heatKind(false)), quantity.US)
	holds("the help", help.String(), "heat_boost\n    waters longer", "example: heat_boost: {above: 95 F, by: 20%}",
		"increase in run times (default: 10%; 0% to 100%)")

	sheet, err := settings.Make(settings.NewSite(l.Job.Zones, l.Job.Weather, nil, nil), &l.Job.Strategies[0], settings.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := settingsfile.WriteText(&text, &settingsfile.Page{Sheet: sheet}); err != nil {
		t.Fatal(err)
	}
	holds("the sheet", text.String(), words)
	// The replayed sheet has the part too.
	if parts := sheet.Strategy().Parts; parts[len(parts)-1].Kind().Key != "heat_boost" {
		t.Errorf("the sheet is replayed as %+v", parts)
	}

	copied, err := tune.Copy(context.Background(), &l.Job, &l.Job.Strategies[1], tune.CopyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	controls, err := copied.Sheet.Controls(quantity.SI)
	if err != nil || !slices.Equal(controls, []string{words}) {
		t.Errorf("the copied sheet has %q, %v", controls, err)
	}

	found := &study.Tuning{Kinds: []study.Tuned{{Result: &tune.Result{Strategy: l.Job.Strategies[0]}, All: &tune.Outcome{}}}}
	lines, err := l.SettingLines(&found.Kinds[0])
	if err != nil {
		t.Fatal(err)
	}
	holds("tune", strings.Join(lines, "\n"), words)
	yaml, err := l.TunedYAML(found, nil)
	if err != nil {
		t.Fatal(err)
	}
	holds("YAML", yaml, "heat_boost:\n      - {above: 35 C, by: 20%}")
	head, _, _ := strings.Cut(hotYard, "programs:")
	again, err := readHot(head+yaml, false)
	if err != nil {
		t.Fatal(err)
	}
	if h, ok := again.Strategies[0].Parts[1].(heatBoost); !ok || math.Abs(h.AboveC-35) > 1e-9 || h.By != 0.2 {
		t.Errorf("read again: %+v", again.Strategies[0].Parts)
	}

	for change, want := range map[string]string{
		"[{above: 90 F}, {above: 95 F}]": `two heat boosts act on zone "front lawn"`,
		"{above: 95 F, by: 0%}":          "heat_boost: by 0% does nothing",
		"{above: 5 F}":                   "above",
		"{by: 5%}":                       "above",
	} {
		_, err := readHot(strings.Replace(hotYard, "{above: 95 F, by: 20%}", change, 1), false)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", change, err, want)
		}
	}
	sc, err := readHot(strings.Replace(hotYard, "95 F", "55 C", 1), false)
	const want = `yard.yaml:10:17: strategy "by programs": no night was ever above the temperature of heat_boost`
	if err != nil || len(sc.Warnings) != 1 || sc.Warnings[0].String() != want {
		t.Errorf("%+v, %v", sc.Warnings, err)
	}
	lines, err = l.DescriptionLines()
	if err != nil {
		t.Fatal(err)
	}
	holds("the notes on the record", strings.Join(lines, "\n"), "by programs: the warmest night of the record had 40 degrees.")
}

// TestSilentPartIsAnErrorEverywhere: a kind without descriptions is an error in
// every output; the part is never silently omitted.
func TestSilentPartIsAnErrorEverywhere(t *testing.T) {
	_, err := readHot(hotYard, true)
	for _, want := range []string{"does not define its conflicts", "does not define its warnings"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("reading: %v, want %q", err, want)
		}
	}
	l := hot(t)
	for i := range l.Job.Strategies {
		for k, p := range l.Job.Strategies[i].Parts {
			if h, ok := p.(heatBoost); ok {
				h.quiet = true
				l.Job.Strategies[i].Parts[k] = h
			}
		}
	}
	_, sheet := settings.Make(settings.NewSite(l.Job.Zones, l.Job.Weather, nil, nil), &l.Job.Strategies[0], settings.Options{})
	_, copied := tune.Copy(context.Background(), &l.Job, &l.Job.Strategies[1], tune.CopyOptions{})
	found := &study.Tuning{Kinds: []study.Tuned{{Result: &tune.Result{Strategy: l.Job.Strategies[0]}, All: &tune.Outcome{}}}}
	_, asJSON := l.TunedRecord(found)
	_, asLines := l.SettingLines(&found.Kinds[0])
	_, asYAML := l.TunedYAML(found, nil)
	_, described := l.DescriptionLines()
	var b bytes.Buffer
	page := settingsfile.Page{Sheet: &settings.Sheet{Zones: l.Job.Zones, Parts: l.Job.Strategies[0].Parts[1:]}}
	for place, err := range map[string]error{
		"sheet": sheet, "copy": copied, "tune": asLines, "JSON of tune": asJSON, "YAML": asYAML,
		"record": described, "text": settingsfile.WriteText(&b, &page), "page": settingsfile.WritePage(&b, &page),
	} {
		var unsaid *strategy.UnsaidError
		if !errors.As(err, &unsaid) || unsaid.Key != "heat_boost" {
			t.Errorf("%s: %v", place, err)
		}
	}
}
