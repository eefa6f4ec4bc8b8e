package yamlfile_test

import (
	"io"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// For any bytes, reading ends with a scenario that can be replayed or with
// input errors.
func FuzzRead(f *testing.F) {
	f.Add(base)
	f.Add(scenarios.Template(quantity.US))
	f.Add(scenarios.Template(quantity.SI))
	for _, k := range strategy.Kinds() {
		f.Add(base + "    " + strings.ReplaceAll(k.Example, "\n", "\n    ") + "\n")
	}
	f.Add(base + "limits: {days: odd, window: [\"20:00-06:00\"], max_minutes: 30 min, exempt: [bed], flow: 20 gpm, " +
		"stages: [{name: two, from: 2014-06-01, to: 2014-09-30, ban: true}]}\n")
	f.Add(base + "forecast: {synthetic: {seed: 1, threshold: 5 mm, leads: [{pod: 65 %, far: 38 %}, {pod: 58 %, far: 42 %}]}}\n")
	f.Add(base + "forecast: {file: forecast.csv}\n")
	f.Add(strings.Replace(base, "wind_height: 2 m",
		"wind_height: 2 m, layout_file: map.yaml, max_fill_days: 20 days, max_fill_run: 0 days, exclude_years: [2011, 2014], "+
			"dew_point_offset: 2 C, coastal: true, default_wind: 2 m/s, calibrate: true, compute_eto: false", 1))
	for _, c := range slices.Concat(zoneFaults(), timerFaults(), strategyFaults()) {
		f.Add(strings.Replace(base, c.old, c.new, 1))
	}
	for _, c := range typed {
		f.Add(strings.Replace(base, c.old, c.new, 1))
	}
	for _, c := range moreSuggestions {
		f.Add(strings.Replace(base, c[0], c[1], 1))
	}
	f.Add(strings.Replace(base, "kind: drip, flow: 4 gpm", "kind: drip, emitters: 40, emitter_flow: 1 gph", 1))
	f.Add(strings.Replace(base, `starts: ["05:30"]`, "starts: [{4:30: 5}, 4:30]", 1))
	for _, s := range []string{"", "a", "- - -", "a: [", "a: {b: ", "? x", "a: |\n  b\n", "a: >\n  b", "%YAML 1.2\n---\na: 1", "a: .inf",
		"a: .nan", "zones: z.csv", "a: 0x1F", "\ufeffa: 1", "a: \"\\u0000\"", "a: 'x", "a: !!binary x", "*a", "---\n...\n---\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		sc, err := yamlfile.Read(strings.NewReader(text), "fuzz.yaml", func(string) (io.ReadCloser, error) { return nil, fs.ErrNotExist })
		if err != nil {
			if !diag.IsInput(err) {
				t.Fatalf("not a fault of the input: %v", err)
			}
			return
		}
		sound(t, sc)
	})
}

// sound checks what package sim trusts about a zone.
func sound(t *testing.T, sc *scenarios.Scenario) {
	t.Helper()
	if len(sc.Zones) == 0 || len(sc.Strategies) == 0 {
		t.Fatalf("%d zones, %d strategies", len(sc.Zones), len(sc.Strategies))
	}
	for _, z := range sc.SimZones() {
		for _, k := range z.K {
			if !(k >= 0 && k < 10) {
				t.Errorf("zone %q: K %v", z.Name, k)
			}
		}
		ok := z.AreaM2 > 0 && z.TAWMM > 0 && z.P >= 0.1 && z.P <= 0.8 && z.PRMMH > 0 && z.LossShare >= 0 && z.LossShare < 1 &&
			z.DULQ >= 0.25 && z.DULQ <= 1 && z.IntakeMMH > 0 && z.SurfaceStorageMM >= 0 && z.Strips >= 1 && z.Strips <= 20 &&
			z.Rain.CN >= 0 && z.Rain.CN <= 100 && z.Rain.EffectiveShare >= 0 && z.Rain.EffectiveShare <= 1
		if !ok || math.IsInf(z.TAWMM+z.PRMMH+z.AreaM2, 0) {
			t.Errorf("a zone that sim cannot trust: %+v", z)
		}
	}
	for _, p := range sc.Programs {
		for _, m := range p.Minutes {
			if !(m >= 0 && m <= 1440) {
				t.Errorf("program %q: minutes %v", p.Name, m)
			}
		}
	}
	for _, in := range sc.Inputs {
		if in.Text == "" || in.Defaulted && in.Source == "" {
			t.Errorf("an input without text or source: %+v", in)
		}
		if math.IsNaN(in.Value) {
			t.Errorf("an input that is not a number: %+v", in)
		}
	}
}
