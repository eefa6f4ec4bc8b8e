package tune_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
)

// The tests here try every setting of a tiny space, one replay each, and hold
// the search to the least water among those within the goal.

var goal = tune.Goal{StressDays: 6, RunoffEvents: 2}

func within(o plainOutcome) bool {
	return o.stress <= goal.StressDays && o.runoff <= goal.RunoffEvents+1e-9
}

func tinySpace() tune.Space {
	return tune.Space{Days: []strategy.DayRule{{}, weekdays(1, 3, 5), weekdays(1, 4)}, Cycles: []tune.Cycle{{}, {CycleMin: 6, SoakMin: 30}}, MostMinutes: 40}
}

func search(t *testing.T, job *replay.Job, kind tune.Kind, sp tune.Space) *tune.Result {
	t.Helper()
	r, err := tune.Tune(context.Background(), job, kind, goal, tune.Options{Space: sp})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func program(o int, sp tune.Space, minutes []float64) strategy.Program {
	d, c := sp.Days[o/len(sp.Cycles)], sp.Cycles[o%len(sp.Cycles)]
	return strategy.Program{Name: fmt.Sprint(o), Days: d, Starts: []int{240}, Minutes: minutes, Cycle: c.CycleMin, Soak: c.SoakMin}
}

// bruteFixed returns the least water [m³ a year] of any number of programs up
// to most over all zones, from each zone's least under each pattern.
func bruteFixed(t *testing.T, job replay.Job, sp tune.Space, most int, parts ...strategy.Part) float64 {
	t.Helper()
	options, zones := len(sp.Days)*len(sp.Cycles), len(job.Zones)
	least := make([][]float64, options)
	for o := range options {
		var list []strategy.Strategy
		for m := range sp.MostMinutes + 1 {
			minutes := make([]float64, zones)
			for z := range minutes {
				minutes[z] = float64(m)
			}
			list = append(list, strategy.Strategy{Parts: append([]strategy.Part{strategy.Programs{List: []strategy.Program{program(o, sp, minutes)}}}, parts...)})
		}
		got := measureAll(t, job, list)
		for z := range zones {
			best := math.Inf(1)
			for m := range list {
				if within(got[m][z]) {
					best = min(best, got[m][z].m3)
				}
			}
			least[o] = append(least[o], best)
		}
	}
	best := math.Inf(1)
	for set := 1; set < 1<<options; set++ { // every set of patterns
		n, sum := 0, 0.0
		for z := range zones {
			zone := math.Inf(1)
			for o := range options {
				if set>>o&1 == 1 {
					zone = min(zone, least[o][z])
				}
			}
			sum += zone
		}
		for o := range options {
			n += set >> o & 1
		}
		if n <= most {
			best = min(best, sum)
		}
	}
	return best
}

func same(t *testing.T, what string, r *tune.Result, brute float64) {
	t.Helper()
	if math.IsInf(brute, 1) || brute == 0 {
		t.Fatalf("%s: the case is empty, the least by brute force is %g", what, brute)
	}
	if !r.Outcome.Met || math.Abs(r.Outcome.M3PerYear-brute) > 1e-6 {
		t.Errorf("%s: found %.6f m³ a year (within the goal: %v), the least of all settings is %.6f", what, r.Outcome.M3PerYear, r.Outcome.Met, brute)
	}
}

func TestFixedIsTheLeastOfAll(t *testing.T) {
	for seed := range uint64(4) {
		job := replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8), zone("b", 60, 0.6), zone("c", 45, 0.9)}, Weather: invented(2001, 2004, seed)}
		job.Zones[2].IntakeMMH, job.Zones[1].AreaM2 = 14, 350
		for most := 1; most <= 3; most++ {
			sp := tinySpace()
			brute := bruteFixed(t, job, sp, most)
			sp.MostPrograms = most
			same(t, fmt.Sprintf("seed %d, %d programs", seed, most), search(t, &job, tune.Fixed, sp), brute)
		}
	}
}

func TestETScaledIsTheLeastOfAll(t *testing.T) {
	job := replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8), zone("b", 60, 0.6)}, Weather: invented(2001, 2004, 1)}
	sp := tinySpace()
	sp.AveragedDays = []int{5}
	r := search(t, &job, tune.ETScaled, sp)
	var design float64
	for _, p := range r.Strategy.Parts {
		if et, ok := p.(strategy.ETPercent); ok {
			design = et.DesignMM
		}
	}
	brute := math.Inf(1)
	for _, rain := range []bool{false, true} {
		brute = min(brute, bruteFixed(t, job, sp, 2, strategy.ETPercent{DesignMM: design, Over: 5, CountRain: rain, Most: 1.5}))
	}
	same(t, "ET", r, brute)
}

// TestMonthlyIsTheLeastOfAll: plants that draw from June to August only, and
// percentages in steps of 25 %, so that all 125 rows can be tried.
func TestMonthlyIsTheLeastOfAll(t *testing.T) {
	for seed := range uint64(4) {
		job := replay.Job{Zones: []sim.Zone{zone("a", 40, 0), zone("b", 25, 0)}, Weather: invented(2001, 2003, seed)}
		for z := range job.Zones {
			copy(job.Zones[z].K[5:], []float64{0.6, 0.9, 0.7})
		}
		sp := tune.Space{Days: []strategy.DayRule{weekdays(1, 3, 5)}, Cycles: []tune.Cycle{{CycleMin: 6, SoakMin: 30}}, MostMinutes: 40, PercentStep: 0.25}
		brute := math.Inf(1)
		for row := range 125 {
			var monthly strategy.Monthly
			monthly.Share[5], monthly.Share[6], monthly.Share[7] = float64(row%5)/4, float64(row/5%5)/4, float64(row/25)/4
			brute = min(brute, bruteFixed(t, job, sp, 1, monthly))
		}
		same(t, fmt.Sprint("monthly, seed ", seed), search(t, &job, tune.Monthly, sp), brute)
	}
}

func TestRefillIsTheLeastOfAll(t *testing.T) {
	job := replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8), zone("b", 60, 0.6)}, Weather: invented(2001, 2003, 3)}
	for _, mads := range [][]float64{{0.2, 0.35, 0.5}, {0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9}} {
		sp := tinySpace()
		sp.MAD, sp.Shares = mads, []float64{0.8, 1, 1.2, 1.4}
		least := []float64{math.Inf(1), math.Inf(1)}
		for _, mad := range mads {
			for _, d := range sp.Days {
				var list []strategy.Strategy
				for _, c := range sp.Cycles {
					for _, share := range sp.Shares {
						list = append(list, strategy.Strategy{Parts: []strategy.Part{&strategy.Refill{Zones: []bool{true, true}, MAD: mad, Days: d, CycleMin: c.CycleMin, SoakMin: c.SoakMin}, strategy.ZonePercent{Share: []float64{share, share}}}})
					}
				}
				for _, row := range measureAll(t, job, list) {
					for z, o := range row {
						if within(o) {
							least[z] = min(least[z], o.m3)
						}
					}
				}
			}
		}
		same(t, fmt.Sprint("refill, triggers ", len(mads)), search(t, &job, tune.Refill, sp), least[0]+least[1])
	}
}
