package study

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"loamledger/scenarios"
	"loamledger/weather"
)

// TestIntervalsCoverTrueSites: sites whose numbers are drawn at random from the ranges,
// each replayed by itself as a scenario, save water between P10 and P90 of the draws in
// about eight of ten cases, and use it so under the baseline. Only ETo and rain are as
// measured, since a scenario replays the station.
func TestIntervalsCoverTrueSites(t *testing.T) {
	const exact = "units: si\nranges: {eto: 99.9999% to 100.0001%, rain: 99.9999% to 100.0001%}"
	l, table := rangedYard(t, "rate: 35 mm/h", "rate: 25 to 45 mm/h", "area: 160 m2", "area: 120 to 160 to 200 m2", "uniformity: 55 %",
		"uniformity: 45% to 65%", "units: si", exact)
	r := drawn(t, l, table, DrawOptions{Draws: 500, Workers: 2})
	w, err := Prepare(l.Scenario, Records{Parts: []*weather.Record{inventRecord(t, 4)}})
	if err != nil {
		t.Fatal(err)
	}
	water, _ := waterOf(r, table.Baseline)
	const truths = 250
	random, saving, used := rand.New(rand.NewPCG(4, 4)), 0, 0
	for range truths {
		place := map[string]float64{}
		sc, err := l.Scenario.Drawn(func(d *scenarios.Doubt) float64 {
			if _, is := place[d.Cause]; !is {
				place[d.Cause] = random.Float64()
			}
			return d.Range.At(place[d.Cause])
		})
		if err != nil {
			t.Fatal(err)
		}
		truth, err := New(sc, w, nil)
		if err != nil {
			t.Fatal(err)
		}
		replayed, err := truth.Replay(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		rows := replayed.Compare()
		base, option := rows[replayed.Baseline].M3PerYear, rows[r.Option].M3PerYear
		if v := base - option; r.Saving.P10 <= v && v <= r.Saving.P90 {
			saving++
		}
		if water.P10 <= base && base <= water.P90 {
			used++
		}
	}
	// Binomial: 0.8 ± 3·sqrt(0.8·0.2/250) = 0.8 ± 0.076.
	for _, n := range []int{saving, used} {
		if share := float64(n) / truths; math.Abs(share-0.8) > 0.076 {
			t.Errorf("%v of the true sites are between P10 and P90", share)
		}
	}
}
