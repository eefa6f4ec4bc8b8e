package replay_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// sameTable fails unless two tables have the same numbers throughout, to the last bit.
func sameTable(t failer, why string, a, b *tally.Table) {
	t.Helper()
	if !slices.Equal(a.Strategies, b.Strategies) || len(a.Outcomes) != len(b.Outcomes) || !reflect.DeepEqual(a.LeastRows, b.LeastRows) ||
		!slices.Equal(a.DrynessMM, b.DrynessMM) || a.Baseline != b.Baseline || a.Cut != b.Cut || !reflect.DeepEqual(a.Zones, b.Zones) ||
		!slices.Equal(a.Spans, b.Spans) {
		t.Fatalf("%s: the tables are laid out differently", why)
	}
	every := make([]int, len(a.Zones))
	for z := range every {
		every[z] = z
	}
	for s := range a.Outcomes {
		sameSums(t, why, a, s, b, s, every)
		for z := range every {
			x, y := &a.Outcomes[s][z], &b.Outcomes[s][z]
			if !reflect.DeepEqual(x.Brief, y.Brief) || len(x.Months) != len(y.Months) {
				t.Fatalf("%s: strategy %d, zone %d: the briefs differ", why, s, z)
			}
			for i := range x.Months {
				if !slices.Equal(bits(x.Months[i]), bits(y.Months[i])) {
					t.Fatalf("%s: strategy %d, zone %d, span %d: %+v and %+v", why, s, z, i, x.Months[i], y.Months[i])
				}
			}
			if x.Brief != nil {
				for i := range a.Spans {
					if v, w := a.Month(s, z, i), b.Month(s, z, i); v != w {
						t.Fatalf("%s: strategy %d, zone %d, span %d: %+v and %+v", why, s, z, i, v, w)
					}
				}
			}
		}
	}
	for s := range a.Breaches {
		if !slices.Equal(a.Breaches[s], b.Breaches[s]) {
			t.Fatalf("%s: strategy %d: breaches %v and %v", why, s, a.Breaches[s], b.Breaches[s])
		}
	}
}

// metered is what a meter reads of each strategy and zone by day, from the rows of a ledger.
func metered(job *replay.Job, rows [][][]replay.Row) [][][]float64 {
	out := make([][][]float64, len(job.Strategies))
	for s := range out {
		for z := range rows[s] {
			var days []float64
			for i := range rows[s][z] {
				days = append(days, rows[s][z][i].GrossMM/1000*rows[s][z][i].AreaM2)
			}
			out[s] = append(out[s], days)
		}
	}
	return out
}

// drawMove makes another job of one: mostly as a move of a slider does.
func drawMove(t *rapid.T, s *site) {
	job := &s.job
	job.Zones, job.Strategies = slices.Clone(job.Zones), slices.Clone(job.Strategies)
	z := &job.Zones[rapid.IntRange(0, len(job.Zones)-1).Draw(t, "moved zone")]
	k := rapid.IntRange(0, len(job.Strategies)-1).Draw(t, "moved strategy")
	switch rapid.IntRange(0, 11).Draw(t, "move") {
	case 0:
		z.PRMMH *= 1.1
	case 1:
		if !z.WorkingStorage {
			z.DULQ = rapid.Float64Range(0.25, 1).Draw(t, "moved DU")
		}
	case 2:
		z.TAWMM *= rapid.SampledFrom([]float64{0.7, 1.3}).Draw(t, "moved TAW")
	case 3:
		*z = drawZone(t, z.Name)
	case 4:
		z.Name += "'" // the seed of a sensor's error
	case 5, 6:
		set := drawSetting(t, "my try", len(job.Zones), job.Weather.Start)
		job.Strategies = append(job.Strategies, set.strategy())
	case 7:
		st := &job.Strategies[k]
		st.Parts = append(slices.Clone(st.Parts), strategy.Monthly{Share: [12]float64{6: 0.7, 7: 0.8}})
	case 8:
		job.Strategies = slices.Delete(job.Strategies, k, k+1)
		if len(job.Strategies) == 0 {
			job.Strategies = append(job.Strategies, strategy.Strategy{Name: "nothing"})
		}
	case 9:
		if job.Limits = nil; rapid.Bool().Draw(t, "moved limits") {
			job.Limits = drawLimits(t, s)
		}
	case 10:
		job.ExcludeYears, job.South = []int{job.Weather.Start.Year() + 1}, rapid.Bool().Draw(t, "moved south")
	case 11:
		job.Weather = changedFrom(job.Weather, job.Weather.Days()/2, 3)
	}
}

// TestRepeatIsARun: jobs that differ in little from those before, some moves long, have the
// numbers of a run of their own, to the last bit, and so has the water of each day.
func TestRepeatIsARun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3, 800)
		drawMore(t, s)
		s.job.Brief, s.job.Daily = rapid.Bool().Draw(t, "brief"), rapid.Bool().Draw(t, "daily")
		if rapid.IntRange(0, 2).Draw(t, "limits") == 0 {
			s.job.Limits = drawLimits(t, s)
		}
		if rapid.IntRange(0, 2).Draw(t, "changes") == 0 {
			s.job.Strategies[0].Stretches = drawStretches(t, &s.job)
		}
		var r replay.Runner
		for i := range rapid.IntRange(2, 8).Draw(t, "moves") {
			if i > 0 {
				drawMove(t, s)
			}
			job := s.job
			if rapid.IntRange(0, 9).Draw(t, "interrupted") == 0 {
				ctx, cancel := context.WithCancel(context.Background())
				cancel()
				if _, err := r.Repeat(ctx, &job); err == nil {
					t.Fatal("an interrupted run has a table")
				}
			}
			if rapid.IntRange(0, 9).Draw(t, "another run") == 0 {
				if _, err := r.Run(context.Background(), &job, nil); err != nil {
					t.Fatal(err)
				}
			}
			got, err := r.Repeat(context.Background(), &job)
			if err != nil {
				t.Fatal(err)
			}
			want, rows := rowsOf(t, &s.job)
			sameTable(t, fmt.Sprintf("move %d", i), want, got)
			for k := range s.job.Strategies {
				for z := range s.job.Zones {
					days := r.Daily(k, z)
					if !s.job.Daily {
						if days != nil {
							t.Fatal("days that nobody asked for")
						}
						continue
					}
					for d, v := range metered(&s.job, rows)[k][z] {
						if math.Abs(days[d]-v) > 1e-12*(1+v) {
							t.Fatalf("move %d, strategy %d, zone %d, day %d: %v m³, in the ledger %v", i, k, z, d, days[d], v)
						}
					}
				}
			}
		}
	})
}

// What cannot have changed is not replayed: the days of its water are in the same memory.
func TestRepeatTakesOver(t *testing.T) {
	job := benchmarkJob(400)
	job.Daily = true
	var r replay.Runner
	days := func() (out []*float64) {
		if _, err := r.Repeat(context.Background(), &job); err != nil {
			t.Fatal(err)
		}
		for s := range job.Strategies {
			for z := range job.Zones {
				out = append(out, &r.Daily(s, z)[0])
			}
		}
		return out
	}
	taken := func(a, b []*float64) (n int) {
		for i := range a {
			if a[i] == b[i] {
				n++
			}
		}
		return n
	}
	n, strategies := len(job.Zones), len(job.Strategies)
	first := days()
	if again := days(); taken(first, again) != n*strategies {
		t.Errorf("the same job: %d of %d taken over", taken(first, again), n*strategies)
	}
	job.Zones = slices.Clone(job.Zones)
	job.Zones[1].PRMMH *= 1.1
	moved := days()
	if taken(first, moved) != (n-1)*strategies {
		t.Errorf("a zone has moved: %d of %d taken over", taken(first, moved), n*strategies)
	}
	job.Strategies = append(slices.Clone(job.Strategies), strategy.Strategy{Name: "more"})
	if more := days(); taken(moved, more) != n*strategies {
		t.Errorf("one strategy more: %d of %d taken over", taken(moved, more), n*strategies)
	}
	job.Limits = &strategy.Limits{}
	limited := days()
	if taken(moved, limited) != 0 {
		t.Errorf("other limits: %d taken over", taken(moved, limited))
	}
	job.Zones = slices.Clone(job.Zones)
	job.Zones[1].DULQ *= 0.9
	strategies = 4 // refill and sensor look at their zones
	if again := days(); taken(limited, again) != (n-1)*strategies {
		t.Errorf("a zone has moved under limits: %d of %d taken over", taken(limited, again), n*strategies)
	}
}

// Hand: 10 mm/h on 600 m² are 100 L/min. Two zones of that flow run together below 200 L/min
// and finish within the window of 20 minutes; at 150 L/min for the second they queue, and the
// second has no room.
func TestFlowsDecideUnderLimits(t *testing.T) {
	a, b := plainZone("a"), plainZone("b")
	a.AreaM2, b.AreaM2, a.PRMMH, b.PRMMH = 600, 600, 10, 10
	job := replay.Job{Zones: []sim.Zone{a, b}, Weather: invented(40), Daily: true, Wiring: clock.OneController(200),
		Limits: &strategy.Limits{Always: strategy.Rule{Name: "town", Windows: []clock.Window{{FromMin: 300, ToMin: 320}}}},
		Strategies: []strategy.Strategy{{Name: "p", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{
			{Name: "p", Starts: []int{300}, Minutes: []float64{20, 20}}}}}}}}
	var r replay.Runner
	for _, tt := range []struct{ rate, want float64 }{{10, 2}, {15, 0}, {9, 1.8}} { // m³ a day in the second zone
		job.Zones = slices.Clone(job.Zones)
		job.Zones[1].PRMMH = tt.rate
		if _, err := r.Repeat(context.Background(), &job); err != nil {
			t.Fatal(err)
		}
		if got := r.Daily(0, 1)[5]; math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("at %v mm/h the second zone gets %v m³, by hand %v", tt.rate, got, tt.want)
		}
	}
}

// benchmarkJob is a site of many different zones with different strategies.
func benchmarkJob(n int) replay.Job {
	r := rand.New(rand.NewPCG(3, 3))
	w := invented(n)
	job := replay.Job{Weather: w}
	for range 6 {
		z := plainZone(fmt.Sprint("zone ", len(job.Zones)))
		z.Strips, z.DULQ, z.TAWMM, z.PRMMH = 8, 0.6, 20+60*r.Float64(), 10+30*r.Float64()
		job.Zones = append(job.Zones, z)
	}
	p := strategy.Program{Name: "p", Days: strategy.DayRule{Kind: strategy.OddDays}, Starts: []int{300},
		Minutes: []float64{9, 10, 11, 12, 13, 14}}
	programs := strategy.Programs{List: []strategy.Program{p}}
	all := []bool{true, true, true, true, true, true}
	for name, part := range map[string]strategy.Part{
		"monthly": strategy.Monthly{Share: [12]float64{4: 0.5, 5: 0.9, 6: 1, 7: 1, 8: 0.6}},
		"ET":      strategy.ETPercent{DesignEToMM: 6, Days: 7, Max: 1.5},
		"sensor":  strategy.Sensor{PermitAt: 0.3, Zones: all, Placement: "average"},
		"habit": strategy.Habit{Edits: 3, MinDelay: 14, MaxDelay: 42, Seed: 1, RaiseBy: 0.2, Steps: 2, VisibleBelowKs: 0.7,
			RaiseAfter: 7, LowerAfter: 60},
	} {
		job.Strategies = append(job.Strategies, strategy.Strategy{Name: name, Parts: []strategy.Part{programs, part}})
	}
	job.Strategies = append(job.Strategies, strategy.Strategy{Name: "refill",
		Parts: []strategy.Part{&strategy.Refill{Zones: all, MAD: 0.5, Extra: -1}}})
	return job
}
