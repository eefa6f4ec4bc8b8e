package study

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/sim/replay"
	"loamledger/sim/tune"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/generate"
)

// tuneGoal is the default goal of the command.
var tuneGoal = tune.Goal{StressDays: 7, MarkReserve: 0.1}

// climate makes four years of synthetic weather like that of the demo, warmer by
// some degrees and with more or less rain.
func climate(tb testing.TB, warmerC, rain float64) *weather.Record {
	tb.Helper()
	n := generate.DemoNormals()
	for m := range 12 {
		n.TmaxC[m] += warmerC
		n.TminC[m] += warmerC
		n.RainMM[m] *= rain
		if n.DewC != nil {
			n.DewC[m] = min(n.DewC[m], n.TminC[m])
		}
	}
	p, err := n.Params()
	if err != nil {
		tb.Fatal(err)
	}
	first := cal.Of(2013, 1, 1)
	rec, err := generate.Generate(p, generate.DemoStation(), first, int(cal.Of(2017, 1, 1)-first), 3)
	if err != nil {
		tb.Fatal(err)
	}
	rec.File = "weather.csv"
	return rec
}

// A smallSite is one of the family: the part of its scenario before programs, and
// the programs and strategies that ran.
type smallSite struct {
	head, ran string
	season    bool
}

// smallSites draws a site of one to three zones.
func drawSite(r *rand.Rand) (s smallSite) {
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	var b strings.Builder
	b.WriteString("site: {name: drawn, latitude: 38.9, elevation: 490 m}\nunits: us\nweather: {file: weather.csv, wind_height: 2 m}\nzones:\n")
	var minutes []string
	n := 1 + r.IntN(3)
	for z := range n {
		name := string(rune('a' + z))
		sprinkler := pick("{kind: spray, rate: 1.5 in/h, uniformity: 60%}", "{kind: rotor, rate: 0.6 in/h, uniformity: 65%}",
			"{kind: multi-stream, rate: 0.45 in/h, uniformity: 70%}")
		plant := pick("cool-season turf", "tall fescue", "warm-season turf")
		if r.IntN(2) == 0 {
			plant = pick(`"shrubs, dry climate"`, `"trees, dry climate"`, "desert trees", `"ground cover, dry climate"`)
			sprinkler = pick("{kind: drip, rate: 0.5 in/h, uniformity: 85%}", "{kind: spray, rate: 1.4 in/h, uniformity: 70%}")
		}
		fmt.Fprintf(&b, "  - {name: %s, area: %d ft2, plant: %s, soil: %s, slope: %d%%, sprinkler: %s}\n", name, 300+r.IntN(3000), plant,
			pick("sandy loam", "loam", "clay loam", "clay"), r.IntN(12), sprinkler)
		minutes = append(minutes, fmt.Sprintf("%s: %d", name, 10+r.IntN(40)))
	}
	switch r.IntN(3) {
	case 0:
		b.WriteString("limits: {days: [tue, thu, sat], window: \"21:00-08:00\"}\n")
	case 1:
		b.WriteString("limits: {max_minutes: 45 min}\n")
	}
	s.head = b.String()
	season := ""
	if s.season = r.IntN(2) == 0; s.season {
		season = ", season: {start: 04-10, end: 10-20}"
	}
	s.ran = fmt.Sprintf("programs:\n  - {name: p, days: %s, starts: [\"05:00\"], minutes: {%s}}\nstrategies:\n  - {name: ran, "+
		"programs: [p]%s}\n",
		pick("[mon, wed, fri]", "any", "[tue, sat]"), strings.Join(minutes, ", "), season)
	return s
}

// studyOf sets up a scenario on a record.
func studyOf(tb testing.TB, text string, rec *weather.Record) *Study {
	tb.Helper()
	sc := readYard(tb, text)
	own := *rec
	w, err := Prepare(sc, Records{Parts: []*weather.Record{&own}})
	if err != nil {
		tb.Fatal(err)
	}
	l, err := New(sc, w, nil)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// TestNoBadAdvice draws sites with a fixed seed. No setting that is proposed breaks a
// limit, leaves a zone without water or short of it, waters outside the season, raises
// an alarm of a replay, or is beaten by what ran in both water and stress. Each is
// read back from its YAML and replayed, and gives the figures that were printed.
func TestNoBadAdvice(t *testing.T) {
	n := 40
	switch {
	case os.Getenv("TUNE_SITES") == "all":
		n = 200
	case testing.Short():
		n = 8
	}
	records := []*weather.Record{climate(t, 0, 1), climate(t, 8, 0.4), climate(t, 4, 2)}
	proposed, misses, barred := 0, 0, map[TuneReasonCode]int{}
	for i := range n {
		r := rand.New(rand.NewPCG(uint64(i), 11))
		site := drawSite(r)
		rec := records[r.IntN(len(records))]
		l := studyOf(t, site.head+site.ran, rec)
		found, err := l.Tune(context.Background(), &TuneOptions{Kinds: []tune.Kind{tune.Kind(i % int(tune.Kinds))}, Goal: tuneGoal,
			HoldOut: true})
		if err != nil {
			t.Fatalf("site %d: %v", i, err)
		}
		k := &found.Kinds[0]
		for _, reason := range k.against {
			barred[reason.Code]++
		}
		if !k.Proposed() {
			continue
		}
		proposed++
		if len(k.against) > 0 {
			misses++
		}
		adviceHolds(t, fmt.Sprintf("site %d, %v", i, k.Kind), l, found, site, rec)
	}
	t.Logf("%d of %d sites get a proposal, %d of which miss the goal somewhere; against: %v", proposed, n, misses, barred)
	if proposed < n/2 {
		t.Errorf("only %d of %d sites get a proposal: %v", proposed, n, barred)
	}
}

// adviceHolds checks one proposal.
func adviceHolds(t *testing.T, name string, l *Study, found *Tuning, site smallSite, rec *weather.Record) {
	t.Helper()
	k := &found.Kinds[0]
	yaml, err := l.TunedYAML(found, nil)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	pasted := studyOf(t, site.head+yaml, rec)
	table, err := pasted.Replay(context.Background(), func(s *replay.Sheet) error {
		if s.Strategy != k.Strategy.Name || !site.season {
			return nil
		}
		for d, dose := range s.Trace.Dose {
			if _, m, day := (s.Weather.Start + cal.Date(d)).YMD(); dose != 0 && (100*m+day < 410 || 100*m+day > 1020) {
				t.Fatalf("%s: %s is watered on %d-%d, outside the season", name, s.Zone.Name, m, day)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(table.Breaches[0]) > 0 {
		t.Errorf("%s: %d runs are forbidden, the first %+v", name, len(table.Breaches[0]), table.Breaches[0][0])
	}
	years := table.WholeYears()
	sum := 0.0
	for z := range table.Zones {
		said, gross, events := &k.All.Zones[z], 0.0, 0
		worst := [2]int{}
		ranked := table.RankYears()
		for _, y := range ranked.Years {
			year := table.Year(0, z, y)
			gross += year.GrossMM / float64(len(years))
			events += year.RunoffEvents
		}
		for _, y := range ranked.Years {
			year := table.Year(0, z, y)
			worst[0], worst[1] = max(worst[0], year.StressZoneDays), max(worst[1], year.BrownDays)
			if y == ranked.Dry {
				break
			}
		}
		sum += gross * table.Zones[z].AreaM2 / 1000
		zone := table.Zones[z].Name
		if gross == 0 {
			t.Errorf("%s: zone %s gets no water", name, zone)
		}
		if math.Abs(gross-said.GrossMM) > 1e-9*gross || math.Abs(float64(events)/float64(len(years))-said.RunoffEvents) > 1e-9 {
			t.Errorf("%s, zone %s: %.12g mm and %d events a year replayed, %+v said", name, zone, gross, events, said)
		}
		// Those of the season, and those of other months, each in its worst year.
		if worst[0] > said.StressDays+said.OffSeasonDays || worst[0] < max(said.StressDays, said.OffSeasonDays) ||
			worst[1] > said.BrowningDays+said.OffSeasonBrown || worst[1] < max(said.BrowningDays, said.OffSeasonBrown) {
			t.Errorf("%s, zone %s: %v days replayed, %+v said", name, zone, worst, said)
		}
		if !strings.Contains(yaml, "#   "+zone+": ") {
			t.Errorf("%s: the YAML does not name zone %s:\n%s", name, zone, yaml)
		}
		now := &found.now.Zones[z]
		if said.StressDays > max(14, now.StressDays, tuneGoal.StressDays) {
			t.Errorf("%s, zone %s: %d stress days, with %d before", name, zone, said.StressDays, now.StressDays)
		}
	}
	if math.Abs(sum-k.All.M3PerYear) > 1e-9*sum {
		t.Errorf("%s: %.12g m³ replayed, %.12g said", name, sum, k.All.M3PerYear)
	}
	if found.now.Breaches == 0 && found.now.M3PerYear < sum-1e-9 && l.stress(found.now) < l.stress(k.All)-1e-9 {
		t.Errorf("%s: what ran uses less water with less stress", name)
	}
	for _, a := range pasted.alarms(table) {
		if a.Strategy == k.Strategy.Name && a.Code != plots.SavingDepth && a.Code != plots.SavingShare {
			t.Errorf("%s: %s", name, a.Text)
		}
	}
}
