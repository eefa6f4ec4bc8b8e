package tune

import (
	"testing"

	"loamledger/sim/strategy"
)

// TestGaps by hand: Monday and Thursday are 3 and 4 days apart, one day a week 7,
// Friday and Saturday 1 and 6.
func TestGaps(t *testing.T) {
	for _, c := range []struct {
		rule strategy.DayRule
		want gaps
	}{
		{week(1, 4), gaps{3, 4}}, {week(3), gaps{7, 7}}, {week(5, 6), gaps{1, 6}}, {strategy.DayRule{}, gaps{1, 1}},
		{strategy.DayRule{Kind: strategy.OddDays}, gaps{2, 2}}, {strategy.DayRule{Kind: strategy.Interval, Every: 10}, gaps{10, 10}},
	} {
		if got := gapsOf(c.rule); got != c.want {
			t.Errorf("%+v: %+v, by hand %+v", c.rule, got, c.want)
		}
	}
	v := Interval{Shortest: 3, Longest: 4}
	if !v.allows(gaps{3, 4}) || v.allows(gaps{2, 4}) || v.allows(gaps{3, 5}) || !(Interval{}).allows(gaps{1, 30}) {
		t.Error("an interval of 3 to 4 days")
	}
}

// TestCountedMonths by hand: on from April 10, May has the half month before it and
// April is not whole; until October 20, October is not whole; across the new year
// from October 1 to March 31, October lacks the half month before it.
func TestCountedMonths(t *testing.T) {
	for _, c := range []struct {
		season strategy.Season
		want   [12]bool
	}{
		{strategy.Season{Start: 410, End: 1020}, [12]bool{4: true, 5: true, 6: true, 7: true, 8: true}},
		{strategy.Season{Start: 1001, End: 331}, [12]bool{0: true, 1: true, 2: true, 10: true, 11: true}},
		{strategy.Season{Start: 416}, [12]bool{4: true, 5: true, 6: true, 7: true, 8: true, 9: true, 10: true, 11: true}},
	} {
		if got := countedMonths([]strategy.Part{c.season}); got != c.want {
			t.Errorf("%+v: %v, by hand %v", c.season, got, c.want)
		}
	}
	if got := countedMonths(nil); got != [12]bool{true, true, true, true, true, true, true, true, true, true, true, true} {
		t.Errorf("without a season, %v", got)
	}
}
