package tune_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/sim/tune"
	"loamledger/weather/cal"
)

// The tests here try every setting of a tiny space, one replay each, and compare
// the search with the least water among those within the goal.

var goal = tune.Goal{StressDays: 6, BrowningDays: 366, RunoffEvents: 2}

func within(o plainOutcome) bool {
	return o.stress <= goal.StressDays && o.runoff <= goal.RunoffEvents+1e-9
}

func tinySpace() tune.Space {
	return tune.Space{Days: []strategy.DayRule{{}, weekdays(1, 3, 5), weekdays(1, 4)}, Cycles: []tune.Cycle{{}, {CycleMin: 6, SoakMin: 30}},
		MaxMinutes: 40}
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

// bruteFixed returns the least water [m³ a year] of up to most programs over all
// zones, from each zone's least water under each pattern.
func bruteFixed(t *testing.T, job replay.Job, sp tune.Space, most int, parts ...strategy.Part) float64 {
	t.Helper()
	options, zones := len(sp.Days)*len(sp.Cycles), len(job.Zones)
	least := make([][]float64, options)
	for o := range options {
		var list []strategy.Strategy
		for m := range sp.MaxMinutes + 1 {
			minutes := make([]float64, zones)
			for z := range minutes {
				minutes[z] = float64(m)
			}
			list = append(list, strategy.Strategy{Parts: append([]strategy.Part{strategy.Programs{List: []strategy.Program{program(o, sp,
				minutes)}}}, parts...)})
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
		t.Errorf("%s: found %.6f m³ a year (within the goal: %v), the least of all settings is %.6f", what, r.Outcome.M3PerYear, r.Outcome.Met,
			brute)
	}
}

func TestFixedIsTheLeastOfAll(t *testing.T) {
	for seed := range uint64(4) {
		job := replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8), zone("b", 60, 0.6), zone("c", 45, 0.9)}, Weather: invented(2001, 2004, seed)}
		job.Zones[2].IntakeMMH, job.Zones[1].AreaM2 = 14, 350
		for most := 1; most <= 3; most++ {
			sp := tinySpace()
			brute := bruteFixed(t, job, sp, most)
			sp.Timer = timer.Profile{Programs: most, Starts: 1, PercentStep: 0.05, MinMinutes: 1, Cycle: true}
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
			design = et.DesignEToMM
		}
	}
	brute := math.Inf(1)
	for _, rain := range []bool{false, true} {
		brute = min(brute, bruteFixed(t, job, sp, 2, strategy.ETPercent{DesignEToMM: design, Days: 5, SubtractRain: rain, Max: 1.5}))
	}
	same(t, "ET", r, brute)
}

// bases independently calculates the two seasons that percentages may follow: the
// mean reference ET of each calendar month over the highest of them, and the
// site's highest monthly need by the least-water reference in any year up to the
// dry one, where a month is at least half of itself plus a quarter of each
// neighbor.
func bases(t *testing.T, job replay.Job) (list [2][12]float64) {
	t.Helper()
	var sum, days [12]float64
	for i, et := range job.Weather.EToMM {
		_, m, _ := (job.Weather.Start + cal.Date(i)).YMD()
		sum[m-1] += et
		days[m-1]++
	}
	for m := range sum {
		list[0][m] = sum[m] / days[m]
	}
	job.Strategies = nil
	table, err := replay.Run(context.Background(), &job, nil)
	if err != nil {
		t.Fatal(err)
	}
	ranked := table.RankYears()
	judged := ranked.Years[:slices.Index(ranked.Years, ranked.Dry)+1]
	var need [12]float64
	for i, span := range table.Spans {
		if !slices.Contains(judged, span.Year) {
			continue
		}
		m3 := 0.0
		for z := range table.Zones {
			m3 += table.Outcomes[table.LeastWaterIndex()][z].Months[i].GrossMM * table.Zones[z].AreaM2
		}
		need[span.Month-1] = max(need[span.Month-1], m3)
	}
	for m := range need {
		list[1][m] = max(need[m], need[m]/2+need[(m+1)%12]/4+need[(m+11)%12]/4)
	}
	for b := range list {
		greatest := slices.Max(list[b][:])
		for m := range list[b] {
			list[b][m] /= greatest
		}
	}
	return list
}

// TestMonthlyIsTheLeastOfAll: every bend of either season, with its shortest run
// times; and a space too large to try all of it.
func TestMonthlyIsTheLeastOfAll(t *testing.T) {
	for seed := range uint64(4) {
		job := replay.Job{Zones: []sim.Zone{zone("a", 40, 0.8), zone("b", 25, 0.6)}, Weather: invented(2001, 2003, seed)}
		sp := tune.Space{Days: []strategy.DayRule{weekdays(1, 3, 5)}, Cycles: []tune.Cycle{{CycleMin: 6, SoakMin: 30}}, MaxMinutes: 40,
			Timer:     timer.Profile{PercentStep: 0.1},
			Exponents: []float64{0.5, 1, 2}, Floors: []float64{0, 0.2}, Scales: []float64{1, 1.3}}
		if seed == 3 {
			sp.Exponents, sp.Timer.PercentStep = nil, 0.2
			for i := range 140 {
				sp.Exponents = append(sp.Exponents, 0.5+float64(i)/70)
			}
		}
		best := math.Inf(1)
		tried := map[[12]float64]bool{}
		for _, base := range bases(t, job) {
			for _, exponent := range sp.Exponents {
				for _, floor := range sp.Floors {
					for _, scale := range sp.Scales {
						var row [12]float64
						for m, b := range base {
							row[m] = math.Ceil(min(1, scale*(floor+(1-floor)*math.Pow(b, exponent)))/sp.Timer.PercentStep-1e-9) * sp.Timer.PercentStep
							row[m] = math.Round(row[m]*1000) / 1000
						}
						if !tried[row] {
							tried[row] = true
							best = min(best, bruteFixed(t, job, sp, 1, strategy.Monthly{Share: row}))
						}
					}
				}
			}
		}
		if len(tried) < 6 {
			t.Fatalf("only %d rows of percentages", len(tried))
		}
		same(t, fmt.Sprint("monthly, seed ", seed), search(t, &job, tune.Monthly, sp), best)
	}
}

func TestRefillIsTheLeastOfAll(t *testing.T) {
	job := replay.Job{Zones: []sim.Zone{zone("a", 30, 0.8), zone("b", 60, 0.6)}, Weather: invented(2001, 2003, 3)}
	for _, mads := range [][]float64{{0.2, 0.35, 0.5},
		{0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9}} {
		sp := tinySpace()
		sp.MAD, sp.Shares = mads, []float64{0.8, 1, 1.2, 1.4}
		least := []float64{math.Inf(1), math.Inf(1)}
		for _, mad := range mads {
			for _, d := range sp.Days {
				var list []strategy.Strategy
				for _, c := range sp.Cycles {
					for _, share := range sp.Shares {
						list = append(list, strategy.Strategy{Parts: []strategy.Part{&strategy.Refill{Zones: []bool{true, true}, MAD: mad, Days: d,
							CycleMin: c.CycleMin, SoakMin: c.SoakMin}, strategy.ZonePercent{Share: []float64{share, share}}}})
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
