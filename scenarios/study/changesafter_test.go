package study

import (
	"testing"

	"loamledger/scenarios"
	"loamledger/weather/cal"
)

// A change that begins on the day after the record has no effect, and a warning; one on
// its last day has an effect.
func TestChangeAfterTheRecord(t *testing.T) {
	last := cal.Of(2015, 12, 31)
	for _, tt := range []struct {
		from cal.Date
		want int
	}{{0, 0}, {last, 0}, {last + 1, 1}, {cal.Of(9999, 12, 31), 1}} {
		sc := scenarios.Scenario{Stacks: []scenarios.Stack{{Name: "s", Changes: []scenarios.Change{{Name: "area", From: tt.from, Taken: true}}}}}
		warnOfIdleChanges(&sc, last)
		if len(sc.Warnings) != tt.want {
			t.Errorf("from %v: %v", tt.from, sc.Warnings)
		}
		for _, w := range sc.Warnings {
			if w.Code != scenarios.AfterRecord || w.Value != float64(tt.from-last) {
				t.Errorf("from %v: %+v", tt.from, w)
			}
		}
	}
}
