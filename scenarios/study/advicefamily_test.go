package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather"
)

// options are strategies beside what ran, for a drawn site: most are poor.
const options = `  - {name: months, programs: [p], monthly: [10, 20, 40, 60, 80, 95, 100, 95, 70, 40, 20, 10]}
  - {name: weather, programs: [p], et_percent: {design_eto: auto, days: 7 days, max: 130%}}
  - {name: rain, programs: [p], hold: {rain: {at_least: 0.25 in, dry_out: 2 days}}}
  - {name: less, programs: [p], monthly: [60, 60, 60, 60, 60, 60, 60, 60, 60, 60, 60, 60]}
  - {name: refill, refill: {zones: all, mad: 40%, days: any}}
  - {name: refill twice, refill: {zones: all, mad: 30%, days: [tue, sat], extra: 0%}}
`

// sampleOf returns how many of the 200 drawn sites to use.
func sampleOf(normal int) int {
	switch {
	case os.Getenv("TUNE_SITES") == "all":
		return 200
	case testing.Short():
		return 8
	}
	return normal
}

// TestNoBadVerdict draws sites with a fixed seed, each with what ran and six options.
// What the verdict names, with its settings sheet, and what it says to try next
// break no limit, leave no zone without water, and are not beaten by what ran in both
// water and stress. The rules of the verdict are counted again from the totals, and
// what to try next is replayed from its text in the record.
func TestNoBadVerdict(t *testing.T) {
	records := []*weather.Record{climate(t, 0, 1), climate(t, 8, 0.4), climate(t, 4, 2)}
	codes, tries, sheets, beaten := map[string]int{}, 0, 0, 0
	n := sampleOf(30)
	for i := range n {
		r := rand.New(rand.NewPCG(uint64(i), 12))
		site := drawSite(r)
		rec := records[r.IntN(len(records))]
		l := studyOf(t, site.head+site.ran+options, rec)
		table, err := l.Replay(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		name, found := fmt.Sprintf("site %d", i), l.verdictRecord(table)
		codes[found.Code]++
		at := -1
		for s, of := range table.Strategies {
			if of == found.Strategy && s != l.Scenario.Baseline {
				at = s
			}
		}
		switch {
		case found.Code == "saves" || found.Code == "trade-off":
			worthy(t, name+", verdict", table, at)
		case found.Next != nil:
			tries++
			at, table = replayNext(t, l, table, found.Next)
			worthy(t, name+", to try next", table, at)
			at = -1
		}
		if at < 0 {
			continue
		}
		sheet, err := l.Sheet(context.Background(), &l.Job.Strategies[at], &SheetOptions{PercentStep: 0.05})
		if errors.Is(err, ErrNoWater) {
			t.Errorf("%s: the verdict names a strategy that never waters", name)
			continue
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		sheets++
		// The sheet stands in for the strategy in the comparison.
		both := *table
		both.Outcomes, both.Breaches = append([][]tally.Outcome{}, table.Outcomes...), append([][]sim.Breach{}, table.Breaches...)
		both.Outcomes[at], both.Breaches[at] = sheet.table.Outcomes[1], sheet.table.Breaches[1]
		if sheet.beaten == nil {
			notWorse(t, name+", sheet of "+found.Strategy, &both, at)
			continue
		}
		beaten++
		if found.Code != "saves-nothing" { // else what ran is to be kept anyway
			t.Errorf("%s: the settings of %s are advised against: %+v", name, found.Strategy, *sheet.beaten)
		}
	}
	t.Logf("%d sites: verdicts %v, %d with something to try next, %d sheets, %d of them advised against", n, codes, tries, sheets, beaten)
	if n >= 30 && (codes["saves"] == 0 || tries == 0 || codes["not-ready"] == 0) {
		t.Errorf("the sites are too much alike: %v, %d", codes, tries)
	}
}

// replayNext replays what the record says to try next.
func replayNext(t *testing.T, l *Study, table *tally.Table, next *NextRecord) (at int, out *tally.Table) {
	t.Helper()
	job := l.Job
	job.Strategies = append([]strategy.Strategy{}, job.Strategies...)
	for s := range job.Strategies {
		if job.Strategies[s].Name == next.Strategy {
			at = s
		}
	}
	st := job.Strategies[at]
	st.Parts = append([]strategy.Part{}, st.Parts...)
	for _, e := range next.Enter {
		zone := strings.Index("abc", e.Zone) // the names of drawn zones
		for k, p := range st.Parts {
			p, ok := p.(strategy.Programs)
			if !ok || e.Program == "" {
				continue
			}
			list := append([]strategy.Program{}, p.List...)
			list[0].Minutes = append([]float64{}, list[0].Minutes...)
			if list[0].Minutes[zone] != e.Now {
				t.Fatalf("%v: %g min now", e, list[0].Minutes[zone])
			}
			list[0].Minutes[zone] = e.Enter
			st.Parts[k] = strategy.Programs{List: list}
		}
		if e.Program == "" {
			share := []float64{1, 1, 1}[:len(table.Zones)]
			share[zone] = e.PercentTime / 100
			st.Parts = append(st.Parts, strategy.ZonePercent{Share: append([]float64{}, share...)})
		}
	}
	job.Strategies[at] = st
	out, err := replay.Run(context.Background(), &job, nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := out.Compare()[at].Change; math.Abs(got-next.Change) > 1e-9 {
		t.Errorf("%s: %+.6f of water replayed, %+.6f said", next.Strategy, got, next.Change)
	}
	return at, out
}

// worthy checks the rules of the verdict for strategy s, and [notWorse].
func worthy(t *testing.T, name string, table *tally.Table, s int) {
	t.Helper()
	ranked, base := table.RankYears(), 0
	for z := range table.Zones {
		for _, y := range []int{ranked.Median, ranked.Dry} {
			now, then := table.Year(base, z, y), table.Year(s, z, y)
			if then.BrownDays > now.BrownDays {
				t.Errorf("%s, zone %d: %d browning days in %d, with %d before", name, z, then.BrownDays, y, now.BrownDays)
			}
			if y == ranked.Median && then.StressZoneDays > max(14, now.StressZoneDays) {
				t.Errorf("%s, zone %d: %d stress days, with %d before", name, z, then.StressZoneDays, now.StressZoneDays)
			}
		}
	}
	notWorse(t, name, table, s)
}

// notWorse checks that strategy s breaks no limit, waters every zone that what ran
// waters, and is not beaten by it in both water and stress.
func notWorse(t *testing.T, name string, table *tally.Table, s int) {
	t.Helper()
	if n := len(table.Breaches[s]); n > 0 {
		t.Errorf("%s: %d runs are forbidden, the first %+v", name, n, table.Breaches[s][0])
	}
	for z := range table.Zones {
		if table.Total(s, z).GrossMM == 0 && table.Total(0, z).GrossMM > 0 {
			t.Errorf("%s: zone %s gets no water", name, table.Zones[z].Name)
		}
	}
	rows := table.Compare()
	if now, then := &rows[0], &rows[s]; now.M3PerYear < then.M3PerYear && now.StressPerYear < then.StressPerYear {
		t.Errorf("%s: what ran uses less water (%g, not %g m³) with less stress (%g, not %g days)", name, now.M3PerYear, then.M3PerYear,
			now.StressPerYear, then.StressPerYear)
	}
}
