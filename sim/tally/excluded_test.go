package tally_test

import (
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// Hand-worked: three whole years that need 10, 20 and 30 mm on 1000 m². Without
// the second, the sums are those of the other two, and it is no longer the
// median.
func TestExcludedYearsDoNotCount(t *testing.T) {
	tb := &tally.Table{Strategies: []string{"a", tally.NoWater, tally.LeastWater}, Zones: []sim.Zone{{Name: "lawn", AreaM2: 1000}}}
	tb.Outcomes = [][]tally.Outcome{{{}}, {{}}, {{}}}
	days := 0
	for y := range 3 {
		year := 2001 + y
		tb.Spans = append(tb.Spans, sim.Span{Year: year, Month: 1, From: days, To: days + 365})
		days += 365
		for s := range tb.Outcomes {
			o := &tb.Outcomes[s][0]
			o.Months = append(o.Months, sim.Sums{GrossMM: 10 * float64(y+1), ETcMM: 100, ETaMM: 50, LongestStreak: y})
		}
	}
	if r := tb.RankYears(); r.Median != 2002 || len(r.Years) != 3 {
		t.Fatalf("before: %+v", r)
	}
	tb.Excluded = []int{2002}
	r := tb.RankYears()
	if slices.Contains(r.Years, 2002) || len(r.Years) != 2 || tb.Counts(2002) || !tb.Counts(2001) {
		t.Errorf("ranked %+v", r)
	}
	if got := tb.Days(); got != 730 {
		t.Errorf("%d days count, want 730", got)
	}
	if sum := tb.Total(0, 0); sum.GrossMM != 40 || sum.LongestStreak != 2 {
		t.Errorf("total %+v, want 40 mm and a streak of 2", sum)
	}
	if got := tb.Year(0, 0, 2002).GrossMM; got != 20 {
		t.Errorf("the year itself is %g mm, want 20: it was replayed", got)
	}
	// 40 mm on 1000 m² in two whole years.
	if got, want := tb.Compare()[0].M3PerYear, 20.0; got != want {
		t.Errorf("%g m³ a year, want %g", got, want)
	}
}
