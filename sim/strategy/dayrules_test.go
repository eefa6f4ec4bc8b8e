package strategy_test

import (
	"testing"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// rules returns day rules of every kind.
func rules() []strategy.DayRule {
	out := []strategy.DayRule{{}, {Kind: strategy.OddDays}, {Kind: strategy.EvenDays}}
	for _, days := range [][]int{{0}, {1, 3, 5}, {2, 4, 6}, {6, 0}, {3}} {
		r := strategy.DayRule{Kind: strategy.Weekdays}
		for _, d := range days {
			r.Weekdays[d] = true
		}
		out = append(out, r)
	}
	for every := 1; every <= 14; every++ {
		for shift := range 3 {
			out = append(out, strategy.DayRule{Kind: strategy.Interval, Every: every, From: cal.Of(2012, 1, 1+shift)})
		}
	}
	return out
}

// Meets and Gap agree with the days of forty years, counted one by one.
func TestDayRulesAgreeWithTheCalendar(t *testing.T) {
	c := sim.NewCalendar(cal.Of(2000, 1, 1), 40*365)
	list := rules()
	runs := make([][]bool, len(list))
	for k := range list {
		gap, last := 0, -1
		for i := range c.Weekday {
			on := list[k].Runs(c, i)
			runs[k] = append(runs[k], on)
			if !on {
				continue
			}
			if d := i - last; last >= 0 && (gap == 0 || d < gap) {
				gap = d
			}
			last = i
		}
		if got := list[k].Gap(); got != gap {
			t.Errorf("the smallest gap of %q is %d days, counted %d", strategy.DaysText(list[k]), got, gap)
		}
	}
	for a := range list {
		for b := range list {
			meet := false
			for i := range runs[a] {
				meet = meet || runs[a][i] && runs[b][i]
			}
			if got := list[a].Meets(&list[b]); got != meet {
				t.Errorf("%q and %q share a day: %t, counted %t", strategy.DaysText(list[a]), strategy.DaysText(list[b]), got, meet)
			}
		}
	}
}

// Programs whose dates do not overlap never meet.
func TestProgramsMeet(t *testing.T) {
	spring := strategy.Program{From: cal.Of(2014, 4, 1), To: cal.Of(2014, 5, 31)}
	summer := strategy.Program{From: cal.Of(2014, 6, 1)}
	always := strategy.Program{}
	if spring.Meets(&summer) || summer.Meets(&spring) {
		t.Error("spring and summer meet")
	}
	if !spring.Meets(&always) || !always.Meets(&summer) {
		t.Error("a program without dates meets neither")
	}
}
