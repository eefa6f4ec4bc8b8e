package settings_test

import (
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

// TestQueue: programs that overlap on a day that both have are named; by hand, 9 min
// from 5:00 end at 5:09.
func TestQueue(t *testing.T) {
	for _, tt := range []struct {
		name   string
		second int // start of the second program
		days   strategy.DayRule
		want   bool
	}{
		{"a minute before the first ends", 308, weekdays(3), true},
		{"as the first ends", 309, weekdays(3), false},
		{"on other days", 308, weekdays(2), false},
	} {
		s := make1(t, []sim.Zone{plain("a"), plain("b")}, nil, settings.Options{}, list(
			strategy.Program{Name: "one", Starts: []int{300}, Minutes: []float64{9, 0}, Days: weekdays(1, 3)},
			strategy.Program{Name: "two", Starts: []int{tt.second}, Minutes: []float64{0, 5}, Days: tt.days}))
		got := slices.Equal(s.Queued, [][2]string{{"one", "two"}})
		if got != tt.want {
			t.Errorf("%s: %q", tt.name, s.Queued)
		}
	}
}
