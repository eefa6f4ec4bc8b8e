package pagefile

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
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
	e := &Engine{}
	e.Put("yard.yaml", []byte(sixZones(rates)))
	e.Put("weather.csv", weather.Bytes())
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
