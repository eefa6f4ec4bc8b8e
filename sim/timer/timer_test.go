package timer_test

import (
	"slices"
	"testing"

	"loamledger/sim/strategy"
	"loamledger/sim/timer"
)

// TestCheck by hand: against a plain timer (3 programs, 4 starts, 10%, 1 min, no
// cycles), each thing that does not fit is listed once, with what the timer has.
func TestCheck(t *testing.T) {
	plain, ok := timer.Named(" Plain ")
	if !ok || plain.Programs != 3 || plain.Starts != 4 || plain.Cycle {
		t.Fatalf("plain is %+v", plain)
	}
	plain.MinMinutes = 2
	fits := strategy.Program{Name: "fits", Starts: []int{300}, Minutes: []float64{20, 0}}
	starts := strategy.Program{Name: "starts", Starts: []int{1, 2, 3, 4, 5}, Minutes: []float64{5, 5}}
	// 20 min at 100% in cycles of 8 are 8 + 8 + 4.
	cycles := strategy.Program{Name: "cycles", Starts: []int{300}, Minutes: []float64{20, 1}, Cycle: 8, Soak: 30}
	percent := [12]float64{0, 0.35, 0.1, 0.3, 1, 1, 1, 1, 1, 1, 0.95, 0}
	got := plain.Check([]strategy.Program{fits, starts, cycles, fits}, percent, 1)
	want := []timer.Refusal{
		{Reason: timer.TooManyPrograms, Zone: -1, Asked: 4, Has: 3},
		{Reason: timer.TooManyStarts, Program: "starts", Zone: -1, Asked: 5, Has: 4},
		{Reason: timer.NoCycle, Program: "cycles", Zone: -1, Asked: 3, Has: 1},
		{Reason: timer.RunTooShort, Program: "cycles", Zone: 1, Asked: 1, Has: 2},
		{Reason: timer.PercentOffStep, Zone: -1, Month: 2, Asked: 0.35, Has: 0.1},
		{Reason: timer.PercentOffStep, Zone: -1, Month: 11, Asked: 0.95, Has: 0.1},
	}
	if !slices.Equal(got, want) {
		t.Errorf("refused %+v\nby hand %+v", got, want)
	}
	for _, r := range got {
		if r.Text([]string{"a", "b"}) == string(r.Reason) {
			t.Errorf("%s has no words", r.Reason)
		}
		if !slices.ContainsFunc(timer.Reasons(), func(d timer.ReasonDoc) bool { return d.Reason == r.Reason && d.Doc != "" }) {
			t.Errorf("%s is not in the list of reasons", r.Reason)
		}
	}
	// A cycle longer than the run is no cycle.
	long := cycles
	long.Cycle = 20
	if got := plain.Check([]strategy.Program{long}, [12]float64{}, 1); len(got) != 1 || got[0].Reason != timer.RunTooShort {
		t.Errorf("a run within its cycle is refused: %+v", got)
	}
	withCycle, _ := timer.Named(timer.WithCycle)
	if got := withCycle.Check([]strategy.Program{cycles}, [12]float64{0.35}, 1); len(got) > 0 {
		t.Errorf("a timer with cycle and soak refuses %+v", got)
	}
}
