package study

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"loamledger/sim/tally"
	"loamledger/weather"
)

// The memory that a study of many zones, no two alike, may take for one zone under
// one strategy and one year [bytes]: what the answer keeps, and all that is asked
// for on the way, the day records of the zone included. A second table of results
// would take as much as is kept, and a second set of day records about 2,700.
// 200 zones, 20 strategies and 2 references over 30 years are 132,000 of these, which
// keep 80 MB.
const (
	mostKept  = 640
	mostAsked = 6500
)

// TestMemoryOfALargeSite: of two sites that differ by 20 zones alone, the larger
// takes no more memory for them than that. Every check has something to do.
func TestMemoryOfALargeSite(t *testing.T) {
	const years, few, many = 10, 4, 24
	rec := inventRecord(t, years)
	var kept, asked [2]float64
	strategies := 0
	for i, zones := range []int{few, many} {
		l := manyZones(t, rec, zones)
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		table, err := l.Replay(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		kept[i], asked[i] = float64(after.HeapAlloc)-float64(before.HeapAlloc), float64(after.TotalAlloc-before.TotalAlloc)
		if c := l.checks; len(c.marks.Cases) != 3 || len(c.design.Cases) != 3 || len(c.cycles) == 0 || len(c.cold) == 0 {
			t.Fatalf("%+v: a check is missing", c)
		}
		strategies = len(table.Strategies)
		runtime.KeepAlive(table)
		runtime.KeepAlive(l)
	}
	n := float64((many - few) * strategies * years)
	perKept, perAsked := (kept[1]-kept[0])/n, (asked[1]-asked[0])/n
	t.Logf("kept %.0f bytes, asked for %.0f in all, for each zone, strategy and year", perKept, perAsked)
	if perKept > mostKept || perAsked > mostAsked {
		t.Errorf("kept %.0f bytes (at most %d), asked for %.0f (at most %d) for each zone, strategy and year", perKept, mostKept, perAsked,
			mostAsked)
	}
}

// manyZones is a site of the given number of zones, no two of which share their day
// records, under ten strategies.
func manyZones(t *testing.T, rec *weather.Record, zones int) *Study {
	t.Helper()
	var text, minutes strings.Builder
	head, _, _ := strings.Cut(yardText, "zones:")
	text.WriteString(head + "zones:\n")
	for z := range zones {
		fmt.Fprintf(&text, "  - {name: z%d, area: 100 m2, plant: cool-season turf, soil: clay loam, slope: 3 %%, root_depth: %d mm,\n"+
			"     sprinkler: {kind: spray, rate: 35 mm/h, uniformity: 55 %%}}\n", z, 150+z)
		fmt.Fprintf(&minutes, ", z%d: 24", z)
	}
	fmt.Fprintf(&text, "programs:\n  - {name: p, days: [mon, wed, fri], starts: [\"05:00\"], minutes: {%s}}\nstrategies:\n",
		minutes.String()[2:])
	for i := range 8 {
		fmt.Fprintf(&text, "  - {name: fixed %d, programs: [p], season: {start: 03-%02d, end: 10-31}}\n", i, 1+i)
	}
	text.WriteString("  - {name: et, programs: [p], et_percent: {design_eto: auto}}\n  - {name: refill, refill: {mad: 50 %}}\n")
	l, err := New(readYard(t, text.String()), prepared(t, text.String(), rec), nil)
	if err != nil {
		t.Fatal(err)
	}
	l.Job.Brief, l.Measures = true, tally.Measures()
	return l
}

func prepared(t *testing.T, text string, rec *weather.Record) *Weather {
	t.Helper()
	w, err := Prepare(readYard(t, text), Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	return w
}
