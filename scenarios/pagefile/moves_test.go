package pagefile

import (
	"context"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sixZones is a site of six zones and six strategies. With rates, its water has prices.
func sixZones(rates bool) string {
	var zones, minutes, more strings.Builder
	for i, soil := range []string{"loam", "clay loam", "sandy loam", "loam", "clay", "loamy sand"} {
		fmt.Fprintf(&zones, "  - {name: zone %d, area: %d ft2, plant: cool-season turf, soil: %s,\n"+
			"     sprinkler: {kind: spray, rate: 1.5 in/h, uniformity: 60%%}, slope: %d%%}\n", i, 800+100*i, soil, i)
		fmt.Fprintf(&minutes, ", zone %d: %d", i, 10+i)
	}
	if rates {
		more.WriteString("meters: [{name: house, serves: mixed}]\nmoney: {rates: rates.yaml}\n")
	}
	return "site: {name: six zones, latitude: 38.9, elevation: 1600 ft}\nunits: us\n" +
		"weather: {file: weather.csv, wind_height: 2 m}\n" + more.String() + "zones:\n" + zones.String() +
		"programs:\n  - {name: p, days: [mon, wed, fri], starts: [\"05:00\"], minutes: {" + minutes.String()[2:] + "}}\nstrategies:\n" +
		`  - {name: as found, programs: [p]}
  - {name: monthly, programs: [p], monthly: [0, 0, 30, 50, 75, 95, 100, 95, 70, 40, 0, 0]}
  - {name: rain skip, programs: [p], hold: {rain: {at_least: 0.25 in, dry_out: 2 days}}}
  - {name: ET-adjusted, programs: [p], et_percent: {design_eto: 0.27 in, days: 7 days, max: 130%}}
  - {name: both, programs: [p], et_percent: {design_eto: 0.27 in, days: 7 days, max: 130%}, hold: {rain: {at_least: 0.25 in}}}
  - {name: refill, refill: {mad: 50%}}
`
}

// sixEngine has opened that site, with so many years of weather.
func sixEngine(tb testing.TB, years int, rates bool) *Engine {
	tb.Helper()
	e := &Engine{}
	e.Put("yard.yaml", []byte(sixZones(rates)))
	e.Put("weather.csv", demoWeather(tb, years))
	text, err := os.ReadFile(filepath.Join("..", "examples", "rates", "quail-terrace-rates.yaml"))
	if err != nil {
		tb.Fatal(err)
	}
	e.Put("rates.yaml", text)
	if r := reply(tb, e, `{"do": "open", "scenario": "yard.yaml"}`); len(r.Faults) > 0 {
		tb.Fatalf("%+v", r.Faults)
	}
	return e
}

// BenchmarkMoves is each kind of move of a slider on six zones with six strategies over 30
// years.
func BenchmarkMoves(b *testing.B) {
	for _, rates := range []bool{false, true} {
		for _, kind := range []struct {
			id          string
			value, step float64
		}{
			{"try.percent", 100, -5}, {"try.days", 0, 1}, {"zones.0.sprinkler.rate", 1.5, 0.05}, {"zones.1.sprinkler.uniformity", 60, 1},
			{"zones.2.root_depth", 6, 0.5}, {"prices", 100, 5},
		} {
			if kind.id == "prices" && !rates {
				continue
			}
			b.Run(fmt.Sprintf("%s/rates=%v", kind.id, rates), func(b *testing.B) {
				e := sixEngine(b, 30, rates)
				for i := 0; b.Loop(); i++ {
					r := reply(b, e, fmt.Sprintf(`{"do": "move", "set": {%q: %v}}`, kind.id, kind.value+float64(1+i%6)*kind.step))
					if len(r.Faults) > 0 {
						b.Fatalf("%+v", r.Faults)
					}
				}
			})
		}
	}
}

// fresh returns an engine with the same files open, which has moved nothing yet.
func (e *Engine) fresh() *Engine {
	return &Engine{Version: e.Version, files: e.files, name: e.name, doc: e.doc, opened: e.opened, weather: e.weather,
		forecasts: e.forecasts, controls: e.controls}
}

// sameMove makes a move, and fails unless it has the same cards, word for word and digit for
// digit, as if it were the first move of all.
func (e *Engine) sameMove(t rapid.TB, set map[string]float64) {
	t.Helper()
	var got, want Reply
	err, errFresh := e.move(context.Background(), set, &got), e.fresh().move(context.Background(), set, &want)
	if fmt.Sprint(err) != fmt.Sprint(errFresh) {
		t.Fatalf("%v: %v; as the first move: %v", set, err, errFresh)
	}
	if !reflect.DeepEqual(got.Cards, want.Cards) {
		for i := range want.Cards.Cards {
			if a, b := got.Cards.Cards[i], want.Cards.Cards[i]; !reflect.DeepEqual(a, b) {
				t.Fatalf("%v:\n%+v\nas the first move:\n%+v", set, a, b)
			}
		}
		t.Fatalf("%v: %+v; as the first move: %+v", set, got.Cards, want.Cards)
	}
}

// moveSome moves one slider, mostly, of those of the page. choose returns a number from 0 to
// below n.
func (e *Engine) moveSome(set map[string]float64, choose func(n int) int) {
	for range []int{1, 1, 1, 1, 2, 5}[choose(6)] {
		n := len(e.controls)
		if choose(2) == 0 { // of the site, which come first
			n = min(n, 3)
		}
		c := &e.controls[choose(n)]
		if choose(4) == 0 {
			delete(set, c.ID)
			continue
		}
		set[c.ID] = clean(min(c.Max, c.Min+c.Step*float64(choose(1+int((c.Max-c.Min)/c.Step)))))
	}
}

// exampleEngine has opened a sample site.
func exampleEngine(tb testing.TB, name string) *Engine {
	tb.Helper()
	e := &Engine{}
	err := fs.WalkDir(os.DirFS(filepath.Join("..", "examples")), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasSuffix(path, ".go") {
			return err
		}
		text, err := os.ReadFile(filepath.Join("..", "examples", path))
		e.Put(path, text)
		return err
	})
	if err != nil {
		tb.Fatal(err)
	}
	if r := reply(tb, e, `{"do": "open", "scenario": "`+name+`"}`); len(r.Faults)+len(r.Wants) > 0 {
		tb.Fatalf("%s: %+v, wants %v", name, r.Faults, r.Wants)
	}
	return e
}

// Moves in any order, on every sample site and on others, show what they would show as the
// first move of all.
func TestMovesAreReplays(t *testing.T) {
	engines := map[string]*Engine{"six zones": sixEngine(t, 3, false), "six zones with prices": sixEngine(t, 3, true)}
	demo := demoEngine(t, 3)
	reply(t, demo, `{"do": "open", "scenario": "juniper-flat.yaml"}`)
	engines["demo"] = demo
	names, err := filepath.Glob(filepath.Join("..", "examples", "*.yaml"))
	if err != nil || len(names) < 5 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		engines[filepath.Base(name)] = exampleEngine(t, filepath.Base(name))
	}
	limited := sixEngine(t, 3, false)
	limited.Put("yard.yaml", []byte(strings.Replace(sixZones(false), "zones:\n",
		"limits: {days: [mon, wed, sat], window: \"04:00-06:15\", max_minutes: 14 min}\nzones:\n", 1)))
	if r := reply(t, limited, `{"do": "open", "scenario": "yard.yaml"}`); len(r.Faults) > 0 {
		t.Fatalf("%+v", r.Faults)
	}
	engines["six zones under limits"] = limited
	for name, e := range engines {
		t.Run(name, func(t *testing.T) {
			if len(e.controls) == 0 {
				t.Skip("no sliders")
			}
			set, r := map[string]float64{}, rand.New(rand.NewPCG(uint64(len(name)), 3))
			for range 16 {
				e.moveSome(set, r.IntN)
				e.sameMove(t, set)
			}
		})
	}
}

// FuzzMoves makes whatever moves the bytes spell on six zones with prices.
func FuzzMoves(f *testing.F) {
	e := sixEngine(f, 2, true)
	r := rand.New(rand.NewPCG(1, 5))
	for range 4 {
		bytes := make([]byte, 512)
		for i := range bytes {
			bytes[i] = byte(r.Uint32())
		}
		f.Add(bytes)
	}
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		set := map[string]float64{}
		for range 3 {
			e.moveSome(set, func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "choice") })
			e.sameMove(t, set)
		}
	}))
}
