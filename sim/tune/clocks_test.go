package tune_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/sim/tune"
)

// What is found fits each of two controllers: programs of its own in its own hours, no
// cycles on one that cannot split runs, and percentages in steps that both have. Steps of
// 10% and of 25% are both kept by 50% (hand).
func TestSettingsFitEachController(t *testing.T) {
	w := invented(2001, 2005, 3)
	zones := []sim.Zone{zone("a", 30, 0.8), zone("b", 30, 0.8), zone("c", 30, 0.8)}
	night := strategy.Rule{Name: "one", Windows: []clock.Window{{FromMin: 20 * 60, ToMin: 7 * 60}}, Exempt: []bool{false, true, true}}
	noon := strategy.Rule{Name: "two", Windows: []clock.Window{{FromMin: 11 * 60, ToMin: 16 * 60}}, Exempt: []bool{true, false, false}}
	job := &replay.Job{Zones: zones, Weather: w, Limits: &strategy.Limits{Stages: []strategy.Rule{night, noon}},
		Wiring: &clock.Wiring{AtOnce: []int{1, 1}, MeterLMin: []float64{0}, Controller: []int{0, 1, 1}}}
	clocks := []tune.Clock{
		{Name: "one", Timer: timer.Profile{Programs: 2, Starts: 4, PercentStep: 0.1, MinMinutes: 1}},
		{Name: "two", Timer: timer.Profile{Programs: 3, Starts: 1, PercentStep: 0.25, MinMinutes: 1, Cycle: true}},
	}
	goal := tune.Goal{StressDays: 5, BrowningDays: 20, RunoffEvents: 5}
	for _, kind := range []tune.Kind{tune.Fixed, tune.Monthly, tune.Refill} {
		r, err := tune.Tune(context.Background(), job, kind, goal, tune.Options{Clocks: clocks})
		if err != nil {
			t.Fatal(err)
		}
		if r.Outcome.Breaches != 0 {
			t.Errorf("%v: %d runs are outside the hours of a controller", kind, r.Outcome.Breaches)
		}
		for _, p := range r.Strategy.Parts {
			switch p := p.(type) {
			case strategy.Programs:
				for i := range p.List {
					fits(t, &p.List[i])
				}
			case strategy.Monthly:
				for _, share := range p.Share {
					if 2*share != float64(int(2*share)) {
						t.Errorf("%v: %g is not a step of both timers", kind, share)
					}
				}
			case *strategy.Refill:
				if p.Zones[0] && (p.CycleMin != 0 || p.StartMin != 20*60) || !p.Zones[0] && p.StartMin != 11*60 {
					t.Errorf("refill of %v at %g in cycles of %g", p.Zones, p.StartMin, p.CycleMin)
				}
			}
		}
	}
}

// fits checks that a program waters on one of the controllers of TestSettingsFitEachController
// only, within its hours and in cycles that it has.
func fits(t *testing.T, p *strategy.Program) {
	t.Helper()
	on := []bool{p.Minutes[0] > 0, p.Minutes[1] > 0 || p.Minutes[2] > 0}
	begins := []int{20 * 60, 11 * 60}
	for c, name := range []string{"one", "two"} {
		switch {
		case !on[c]:
		case on[1-c]:
			t.Errorf("program %q is on both controllers", p.Name)
		case !strings.Contains(p.Name, " on "+name):
			t.Errorf("program %q does not name controller %q", p.Name, name)
		case c == 0 && p.Cycle != 0:
			t.Errorf("program %q has cycles on a controller without", p.Name)
		case !slices.ContainsFunc(p.Starts, func(at int) bool { return (at-begins[c]+clock.Day)%clock.Day < 11*60 }):
			t.Errorf("program %q starts at %v", p.Name, p.Starts)
		}
	}
}
