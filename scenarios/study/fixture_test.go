package study

import (
	"io"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/generate"
)

// yardText is a yard with two zones and two strategies.
const yardText = `
site: {name: bench, latitude: 38.9, elevation: 490 m}
units: si
weather: {file: weather.csv, wind_height: 2 m}
zones:
  - {name: front, area: 100 m2, plant: cool-season turf, soil: clay loam, slope: 3 %,
     sprinkler: {kind: spray, rate: 35 mm/h, uniformity: 55 %}}
  - {name: back, area: 160 m2, plant: cool-season turf, soil: loam, slope: 1 %, sprinkler: {kind: rotor, rate: 14 mm/h, uniformity: 65 %}}
programs:
  - {name: p, days: [mon, wed, fri], starts: ["05:00"], minutes: {front: 12, back: 30}, cycle: 8 min, soak: 30 min}
strategies:
  - {name: as found, programs: [p]}
  - {name: refill when due, refill: {mad: 50 %}}
`

// readYard reads a scenario written in a test.
func readYard(tb testing.TB, text string) *scenarios.Scenario {
	tb.Helper()
	sc, err := yamlfile.Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { panic("study: no table is named") })
	if err != nil {
		tb.Fatal(err)
	}
	return sc
}

// inventRecord makes synthetic weather for the given number of years, from
// January 1, 2013.
func inventRecord(tb testing.TB, years int) *weather.Record {
	tb.Helper()
	p, err := generate.DemoNormals().Params()
	if err != nil {
		tb.Fatal(err)
	}
	first := cal.Of(2013, 1, 1)
	rec, err := generate.Generate(p, generate.DemoStation(), first, int(cal.Of(2013+years, 1, 1)-first), 1)
	if err != nil {
		tb.Fatal(err)
	}
	rec.File = "weather.csv"
	return rec
}

// yard is the yard with the given number of years of synthetic weather.
func yard(tb testing.TB, years int) *Study {
	tb.Helper()
	sc := readYard(tb, yardText)
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(tb, years)}})
	if err != nil {
		tb.Fatal(err)
	}
	l, err := New(sc, w, nil)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}
