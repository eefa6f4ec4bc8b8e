package study

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"

	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather"
)

// Two sites with the weather of one station: each has its own distance, and
// neither changes the data of the other.
func TestSitesShareWeather(t *testing.T) {
	near := readYard(t, yardText)
	near.Site.LonDeg = -120
	rec := inventRecord(t, 2)
	rec.Station.LatDeg, rec.Station.LonDeg, rec.Station.ElevM = 38.9, -120, 490
	w, err := Prepare(near, Records{Parts: []*weather.Record{rec}})
	if err != nil {
		t.Fatal(err)
	}
	far := readYard(t, yardText)
	far.Site.LatDeg, far.Site.LonDeg = 41.9, -120
	seen := func(st *Study) (lines []string) {
		for _, a := range st.Weather.Assumptions {
			if strings.HasPrefix(a, "from the site, the station") {
				lines = append(lines, a)
			}
		}
		return lines
	}
	before := len(w.Assumptions)
	for range 2 { // a second study of a scenario is as the first
		a, err := New(near, w, nil)
		if err != nil {
			t.Fatal(err)
		}
		b, err := New(far, w, nil)
		if err != nil {
			t.Fatal(err)
		}
		// Three degrees of 111.195 km each.
		if got := seen(a); !slices.Equal(got, []string{"from the site, the station is 0.0 km away, 0 m higher"}) {
			t.Errorf("the near site is told %q", got)
		}
		if got := seen(b); !slices.Equal(got, []string{"from the site, the station is 333.6 km away, 0 m higher"}) {
			t.Errorf("the far site is told %q", got)
		}
		if len(a.Scenario.Warnings) != 0 || len(b.Scenario.Warnings) != 1 {
			t.Errorf("warnings %v near, %v far", a.Scenario.Warnings, b.Scenario.Warnings)
		}
	}
	if len(near.Warnings)+len(far.Warnings) > 0 || len(w.Assumptions) != before {
		t.Errorf("a study has changed its scenario or its weather: %v, %v, %q", near.Warnings, far.Warnings, w.Assumptions)
	}
}

// Many sites at the same time, with one weather, give the same results as one
// after another.
func TestManySitesAtOnce(t *testing.T) {
	sc := readYard(t, strings.Replace(yardText, "strategies:", "forecast: {synthetic: {seed: 7}}\nstrategies:", 1))
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(t, 2)}})
	if err != nil {
		t.Fatal(err)
	}
	f, err := Announce(sc, w, nil)
	if err != nil {
		t.Fatal(err)
	}
	const sites = 16
	one := func(i int, r *replay.Runner) (tally.Row, []string) {
		site := *sc
		site.Zones = slices.Clone(sc.Zones)
		site.Zones[0].AreaM2 = 50 + 10*float64(i)
		st, err := New(&site, w, f)
		if err != nil {
			t.Error(err)
			return tally.Row{}, nil
		}
		table, err := r.Run(context.Background(), &st.Job, nil)
		if err != nil {
			t.Error(err)
			return tally.Row{}, nil
		}
		lines, err := st.Notes(table)
		if err != nil {
			t.Error(err)
		}
		return table.Compare()[0], lines
	}
	var rows [sites]tally.Row
	var notes [sites][]string
	var wg sync.WaitGroup
	for g := range 4 {
		wg.Go(func() {
			var r replay.Runner
			for i := g; i < sites; i += 4 {
				rows[i], notes[i] = one(i, &r)
			}
		})
	}
	wg.Wait()
	var r replay.Runner
	for i := range sites {
		row, lines := one(i, &r)
		if rows[i].M3PerYear != row.M3PerYear || rows[i].StressMedian != row.StressMedian || !slices.Equal(notes[i], lines) {
			t.Errorf("site %d: %v at once, %v alone", i, rows[i], row)
		}
		if i > 0 && rows[i].M3PerYear <= rows[i-1].M3PerYear {
			t.Errorf("site %d has a larger zone and %g m3 a year, the one before %g", i, rows[i].M3PerYear, rows[i-1].M3PerYear)
		}
	}
}

// BenchmarkSlider is a page where one number of a yard changes: ten years
// replayed and compared.
func BenchmarkSlider(b *testing.B) {
	st := yard(b, 10)
	var r replay.Runner
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		st.Job.Zones[0].PRMMH = 30 + float64(i%10)
		table, err := r.Run(context.Background(), &st.Job, nil)
		if err != nil {
			b.Fatal(err)
		}
		st.Summary(table)
	}
}

// BenchmarkAccount is one of many sites on prepared weather: set up, replayed
// over ten years and compared.
func BenchmarkAccount(b *testing.B) {
	sc := readYard(b, yardText)
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(b, 10)}})
	if err != nil {
		b.Fatal(err)
	}
	var r replay.Runner
	b.ReportAllocs()
	for b.Loop() {
		st, err := New(sc, w, nil)
		if err != nil {
			b.Fatal(err)
		}
		table, err := r.Run(context.Background(), &st.Job, nil)
		if err != nil {
			b.Fatal(err)
		}
		st.Summary(table)
	}
}

// BenchmarkPrepare is done once by a page, and once per station by a portfolio.
func BenchmarkPrepare(b *testing.B) {
	sc := readYard(b, yardText)
	for b.Loop() {
		if _, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(b, 10)}}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkNew is the setup alone.
func BenchmarkNew(b *testing.B) {
	sc := readYard(b, yardText)
	w, err := Prepare(sc, Records{Parts: []*weather.Record{inventRecord(b, 10)}})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := New(sc, w, nil); err != nil {
			b.Fatal(err)
		}
	}
}
