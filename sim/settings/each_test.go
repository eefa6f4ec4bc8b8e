package settings_test

import (
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
)

// Hand: the program runs a and b on clock A, one after another from 05:00 for 20 and 30
// min, and c on clock B for 40 min: they finish at 05:50 and 05:40. On one controller c
// would finish at 06:30. Clock A has percentages in steps of 25%, so that its 60% is 50%,
// and clock B keeps 60%; the sum of both sheets replays so.
func TestSheetOfEachController(t *testing.T) {
	zones := []sim.Zone{plain("a"), plain("b"), plain("c")}
	wiring := &clock.Wiring{AtOnce: []int{1, 1}, MeterLMin: []float64{0}, Controller: []int{0, 0, 1}, Meter: []int{0, 0, 0}}
	site := settings.NewSite(zones, still(730), nil, wiring)
	months := everyMonthAt(0.6)
	months[6] = 1
	program := strategy.Program{Name: "p", Starts: []int{300}, Minutes: []float64{20, 30, 40}}
	st := strategy.Strategy{Name: "s", Parts: []strategy.Part{strategy.Programs{List: []strategy.Program{program}},
		strategy.Monthly{Share: months}}}
	steps := &timer.Profile{Programs: 3, Starts: 4, PercentStep: 0.25, MinMinutes: 1}
	a, err := settings.Make(site, &st, settings.Options{Controller: "clock A", Only: []bool{true, true, false}, Timer: steps})
	if err != nil {
		t.Fatal(err)
	}
	b, err := settings.Make(site, &st, settings.Options{Controller: "clock B", Only: []bool{false, false, true}})
	if err != nil {
		t.Fatal(err)
	}
	if end := [2]float64{a.Times[6].FinishMin, b.Times[6].FinishMin}; end != [2]float64{350, 340} {
		t.Errorf("finish at %v", end)
	}
	if a.Percent[0] != 0.5 || b.Percent[0] != 0.6 || len(a.Dry)+len(b.Dry) > 0 {
		t.Errorf("percentages %g and %g, dry %v %v", a.Percent[0], b.Percent[0], a.Dry, b.Dry)
	}
	sum := settings.Sum("s", zones, []*settings.Sheet{a, b}, nil)
	if sum.Times[6].FinishMin != 350 || len(sum.Entries()) != 36 {
		t.Errorf("the sum finishes at %g and has %d entries", sum.Times[6].FinishMin, len(sum.Entries()))
	}
	whole, first, second := sum.Strategy(), a.Strategy(), b.Strategy()
	table := run(t, zones, nil, whole, first, second)
	for z, own := range []int{1, 1, 2} {
		got, want := table.Total(0, z), table.Total(own, z)
		if got.GrossMM != want.GrossMM || got.GrossMM <= 0 || got.ETaMM != want.ETaMM {
			t.Errorf("zone %d: %g mm, on its own sheet %g mm", z, got.GrossMM, want.GrossMM)
		}
	}
	if !slices.Equal(sum.Programs[0].Minutes, []float64{20, 30, 0}) {
		t.Errorf("clock A has %v", sum.Programs[0].Minutes)
	}
}

// everyMonthAt returns twelve equal shares.
func everyMonthAt(share float64) (out [12]float64) {
	for m := range out {
		out[m] = share
	}
	return out
}
