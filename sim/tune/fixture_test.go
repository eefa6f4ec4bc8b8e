package tune_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// invented returns synthetic weather for the whole years from first up to, but not
// including, end, with warm summers. Each year ends in rain that fills any soil.
func invented(first, end int, seed uint64) sim.Weather {
	start := cal.Of(first, 1, 1)
	n := int(cal.Of(end, 1, 1) - start)
	r := rand.New(rand.NewPCG(seed, 7))
	w := sim.Weather{Start: start, RainMM: make([]float64, n), EToMM: make([]float64, n), TminC: make([]float64, n)}
	for i := range n {
		season := math.Cos(2 * math.Pi * (float64(i%365) - 200) / 365)
		w.EToMM[i] = max(0.2, 3.5+2.8*season+0.6*r.NormFloat64())
		if r.Float64() < 0.15-0.1*season {
			w.RainMM[i] = 8 * r.ExpFloat64()
		}
		if _, m, d := (start + cal.Date(i)).YMD(); m == 12 && d == 31 {
			w.RainMM[i] = 500
		}
	}
	return w
}

// zone is four strips on a soil with an intake of 10 mm/h, watered at 30 mm/h.
func zone(name string, tawMM, k float64) sim.Zone {
	z := sim.Zone{Name: name, AreaM2: 100, TAWMM: tawMM, P: 0.5, PRMMH: 30, DULQ: 0.7, Strips: 4, IntakeMMH: 10, SurfaceStorageMM: 3,
		Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 1}, ToleranceR7: 0.8, BrowningR7: 0.5}
	for m := range z.K {
		z.K[m] = k
	}
	return z
}

func weekdays(days ...int) strategy.DayRule {
	r := strategy.DayRule{Kind: strategy.Weekdays}
	for _, d := range days {
		r.Weekdays[d] = true
	}
	return r
}

// A plainOutcome is one setting on one zone, measured with only the engine and the
// table of package tally.
type plainOutcome struct {
	stress int // most of any whole year that needs no more water than the 1-in-10 dry year
	runoff float64
	m3     float64 // a year
}

// measureAll replays strategies and measures each zone of each.
func measureAll(t *testing.T, job replay.Job, list []strategy.Strategy) [][]plainOutcome {
	t.Helper()
	job.Strategies = list
	table, err := replay.Run(context.Background(), &job, nil)
	if err != nil {
		t.Fatal(err)
	}
	return measureTable(table)
}

func measureTable(table *tally.Table) [][]plainOutcome {
	ranked := table.RankYears()
	out := make([][]plainOutcome, len(table.Strategies)-2)
	for s := range out {
		for z := range table.Zones {
			var o plainOutcome
			for _, y := range ranked.Years {
				sum := table.Year(s, z, y)
				o.m3 += sum.GrossMM / 1000 * table.Zones[z].AreaM2 / float64(len(ranked.Years))
				o.runoff += float64(sum.RunoffEvents) / float64(len(ranked.Years))
			}
			for _, y := range ranked.Years {
				o.stress = max(o.stress, table.Year(s, z, y).StressZoneDays)
				if y == ranked.Dry {
					break
				}
			}
			out[s] = append(out[s], o)
		}
	}
	return out
}
