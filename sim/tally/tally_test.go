package tally_test

import (
	"math"
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// handTable is small enough for paper: two zones of 100 and 300 m², the years
// 2002, 2003 and 2004, one span a year.
//
//	strategy   zone   2002 2003 2004 mm    volume
//	as found   small   100  200  300       60 m³
//	           large   100  100  100       90
//	less       small   100  100  100       30
//	           large    50   50   50       45
//	more       small   200  200  200       60
//	           large   200  100  100      120
//	none         -                          0
//	least      small    50   90   70       21
//	           large    40   20   90       45
//	dryness [mm]       600  500  900
func handTable() *tally.Table {
	year := func(gross ...float64) (months []sim.Sums) {
		for _, g := range gross {
			months = append(months, sim.Sums{Days: 365, GrossMM: g})
		}
		return months
	}
	outcome := func(small, large []sim.Sums) []tally.Outcome {
		return []tally.Outcome{{Months: small}, {Months: large}}
	}
	return &tally.Table{
		Strategies: []string{"as found", "less", "more", tally.NoWater, tally.LeastWater},
		Zones:      []sim.Zone{{Name: "small", AreaM2: 100}, {Name: "large", AreaM2: 300}},
		Spans: []sim.Span{
			{Year: 2002, Month: 1, From: 0, To: 365}, {Year: 2003, Month: 1, From: 365, To: 730}, {Year: 2004, Month: 1, From: 730, To: 1096},
		},
		Outcomes: [][]tally.Outcome{
			outcome(year(100, 200, 300), year(100, 100, 100)),
			outcome(year(100, 100, 100), year(50, 50, 50)),
			outcome(year(200, 200, 200), year(200, 100, 100)),
			outcome(year(0, 0, 0), year(0, 0, 0)),
			outcome(year(50, 90, 70), year(40, 20, 90)),
		},
		DrynessMM: []float64{600, 500, 900},
	}
}

// wantNear compares to twelve places.
func wantNear(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.IsNaN(got) != math.IsNaN(want) || math.Abs(got-want) > 1e-12*max(1, math.Abs(want)) {
		t.Errorf("%s is %.15g, by hand %.15g", what, got, want)
	}
}

// TestRankYearsByHand: 0.8 ETo less effective rain is 600 mm in 2002, 500 in 2003
// and 900 in 2004, whatever the zones need. Of three years rank 2 is the median and 0.9·4 = 3.6, held to 3, the dry one.
func TestRankYearsByHand(t *testing.T) {
	table := handTable()
	for y, want := range map[int]float64{2002: 17, 2003: 15, 2004: 34} {
		wantNear(t, "need", table.VolumeInYear(table.LeastWaterIndex(), y), want)
	}
	table.Zones[0].AreaM2 = 1e6 // the need of a large zone must not change the ranking
	r := table.RankYears()
	if !slices.Equal(r.Years, []int{2003, 2002, 2004}) || r.Wet != 2003 || r.Median != 2002 || r.Dry != 2004 {
		t.Errorf("%+v, by hand 2003, 2002, 2004", r)
	}
}

// rankTable has one zone of 1000 m² and n years from 2001 whose need and dryness
// go by the order given.
func rankTable(n int, need func(i int) float64) *tally.Table {
	table := &tally.Table{
		Strategies: []string{tally.NoWater, tally.LeastWater}, Zones: []sim.Zone{{Name: "zone", AreaM2: 1000}},
		Outcomes: [][]tally.Outcome{{{}}, {{}}},
	}
	for i := range n {
		from := int(cal.Of(2001+i, 1, 1) - cal.Of(2001, 1, 1))
		to := int(cal.Of(2002+i, 1, 1) - cal.Of(2001, 1, 1))
		table.Spans = append(table.Spans, sim.Span{Year: 2001 + i, Month: 1, From: from, To: to})
		table.Outcomes[0][0].Months = append(table.Outcomes[0][0].Months, sim.Sums{})
		table.Outcomes[1][0].Months = append(table.Outcomes[1][0].Months, sim.Sums{GrossMM: need(i)})
		table.DrynessMM = append(table.DrynessMM, need(i))
	}
	return table
}

// TestRankYearsByLength: ranks 0.1(n+1), (n+1)/2 and 0.9(n+1), rounded and held
// to 1..n (Weibull plotting positions).
func TestRankYearsByLength(t *testing.T) {
	for _, tt := range []struct{ n, wet, median, dry int }{
		{1, 1, 1, 1}, {2, 1, 2, 2}, {9, 1, 5, 9}, {10, 1, 6, 10}, {19, 2, 10, 18}, {30, 3, 16, 28},
	} {
		r := rankTable(tt.n, func(i int) float64 { return float64(i) }).RankYears()
		if r.Wet != 2000+tt.wet || r.Median != 2000+tt.median || r.Dry != 2000+tt.dry || len(r.Years) != tt.n {
			t.Errorf("%d years: wet %d, median %d, dry %d, want ranks %d, %d, %d", tt.n, r.Wet, r.Median, r.Dry, tt.wet, tt.median, tt.dry)
		}
	}
	// Needier first in time, and ties in the order of time.
	if r := rankTable(4, func(i int) float64 { return float64(-i / 2) }).RankYears(); !slices.Equal(r.Years, []int{2003, 2004, 2001, 2002}) {
		t.Errorf("ranked %v", r.Years)
	}
}

// TestPartYearsAreNotRanked: a year counts only when all its days are there, 366
// in a leap year.
func TestPartYearsAreNotRanked(t *testing.T) {
	c := sim.NewCalendar(cal.Of(1999, 3, 1), int(cal.Of(2002, 6, 1)-cal.Of(1999, 3, 1)))
	table := &tally.Table{Strategies: []string{tally.NoWater, tally.LeastWater}, Zones: []sim.Zone{{AreaM2: 1}}, Spans: c.Spans}
	months := make([]sim.Sums, len(c.Spans))
	table.Outcomes = [][]tally.Outcome{{{Months: months}}, {{Months: months}}}
	years, whole := table.Years()
	if !slices.Equal(years, []int{1999, 2000, 2001, 2002}) || !slices.Equal(whole, []bool{false, true, true, false}) {
		t.Errorf("years %v, whole %v", years, whole)
	}
	if r := table.RankYears(); len(r.Years) != 2 {
		t.Errorf("ranked %v, want 2000 and 2001", r.Years)
	}
	// A leap year that lacks its last day is not whole.
	c = sim.NewCalendar(cal.Of(2000, 1, 1), 365)
	if _, whole := (&tally.Table{Spans: c.Spans}).Years(); whole[0] {
		t.Error("365 days of the leap year 2000 pass for the whole of it")
	}
	// A table without a whole year says so rather than ranking parts.
	short := rankTable(1, func(int) float64 { return 5 })
	short.Spans[0].To--
	if r := short.RankYears(); r.Median != 0 || r.Dry != 0 || r.Wet != 0 || len(r.Years) != 0 {
		t.Errorf("%+v", r)
	}
	if row := short.Compare()[0]; !math.IsNaN(row.StressMedian) || !math.IsNaN(row.StressDry) {
		t.Errorf("stress in a year that is not there: %g, %g", row.StressMedian, row.StressDry)
	}
}

// TestTotalsByHand: sums over the record and over a year, streaks by the
// longest.
func TestTotalsByHand(t *testing.T) {
	table := handTable()
	for y, streak := range []int{3, 9, 5} {
		table.Outcomes[1][0].Months[y].LongestStreak = streak
	}
	total := table.Total(1, 0)
	if total.GrossMM != 300 || total.Days != 3*365 || total.LongestStreak != 9 {
		t.Errorf("total %+v", total)
	}
	if y := table.Year(0, 0, 2003); y.GrossMM != 200 || y.Days != 365 {
		t.Errorf("2003 %+v", y)
	}
	if y := table.Year(0, 0, 1990); y != (sim.Sums{}) {
		t.Errorf("a year outside the record has %+v", y)
	}
	if table.Days() != 1096 || (&tally.Table{}).Days() != 0 {
		t.Errorf("%d days", table.Days())
	}
}
