package tally_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// span is a table without zones from one date to another, both included.
func span(from, to cal.Date, south bool, excluded ...int) *tally.Table {
	return &tally.Table{Spans: sim.NewCalendar(from, int(to-from)+1).Spans, South: south, Excluded: excluded}
}

// TestBasisByHand: which years are whole, north and south, and how the days of
// the others are told.
func TestBasisByHand(t *testing.T) {
	for _, tt := range []struct {
		name     string
		table    *tally.Table
		years    []int
		days     int
		words    string
		sentence string
	}{
		// May to September have 31 + 30 + 31 + 31 + 30 = 153 days.
		{"a summer", span(cal.Of(2006, 5, 1), cal.Of(2006, 9, 30), false), nil, 153, "in these 153 days",
			"The record has no whole year (January 1 to December 31): figures are for these 153 days, not for a year."},
		{"a day", span(cal.Of(2006, 5, 1), cal.Of(2006, 5, 1), false), nil, 1, "on this day",
			"The record has no whole year (January 1 to December 31): figures are for this day, not for a year."},
		{"364 days", span(cal.Of(2006, 1, 1), cal.Of(2006, 12, 30), false), nil, 364, "in these 364 days",
			"The record has no whole year (January 1 to December 31): figures are for these 364 days, not for a year."},
		{"365 days", span(cal.Of(2006, 1, 1), cal.Of(2006, 12, 31), false), []int{2006}, 365, "a year",
			"Yearly figures are those of the only whole year, 2006."},
		{"two years less two days", span(cal.Of(2006, 1, 2), cal.Of(2007, 12, 30), false), nil, 728, "in these 728 days",
			"The record has no whole year (January 1 to December 31): figures are for these 728 days, not for a year."},
		// 2004 has 366 days; 61 in November and December 2003 and 31 in January 2006 are left.
		{"whole years and rests", span(cal.Of(2003, 11, 1), cal.Of(2006, 1, 31), false), []int{2004, 2005}, 731, "a year",
			"Yearly figures are means of 2 whole years: 2004, 2005. The other 92 days of the record are replayed but not counted."},
		{"an excluded year", span(cal.Of(2001, 1, 1), cal.Of(2005, 12, 31), false, 2002), []int{2001, 2003, 2004, 2005}, 1461, "a year",
			"Yearly figures are means of 4 whole years: 2001, 2003 to 2005."},
		// In the south 2003/04 runs from July 2003 to June 2004, with February 29.
		{"south", span(cal.Of(2003, 1, 1), cal.Of(2005, 12, 31), true), []int{2003, 2004}, 731, "a year",
			"Yearly figures are means of 2 whole years: 2003/04, 2004/05. A year runs from July to June. " +
				"The other 365 days of the record are replayed but not counted."},
		{"a calendar year in the south", span(cal.Of(2003, 1, 1), cal.Of(2003, 12, 31), true), nil, 365, "in these 365 days",
			"The record has no whole year (July 1 to June 30): figures are for these 365 days, not for a year."},
		// Both years that touch the calendar year 2004 are out: 2002/03 and 2005/06 remain.
		{"an excluded year in the south", span(cal.Of(2002, 7, 1), cal.Of(2006, 6, 30), true, 2004), []int{2002, 2005}, 730, "a year",
			"Yearly figures are means of 2 whole years: 2002/03, 2005/06. A year runs from July to June. " +
				"The other 365 days of the record are replayed but not counted."},
	} {
		b := tt.table.Basis()
		if !slices.Equal(b.Years, tt.years) || b.Days != tt.days || b.Words() != tt.words || b.Sentence() != tt.sentence {
			t.Errorf("%s: %+v, %q, %q; by hand %v, %d days, %q, %q", tt.name, b, b.Words(), b.Sentence(), tt.years, tt.days, tt.words, tt.sentence)
		}
		if got := tt.table.RankYears(); len(got.Years) != len(tt.years) {
			t.Errorf("%s: ranked %v", tt.name, got.Years)
		}
	}
}

// TestTheTenthYear: nine whole years have no 1-in-10 year, ten do. Rank 0.9·10 is
// the ninth of nine, 0.9·11 = 9.9 the tenth of ten.
func TestTheTenthYear(t *testing.T) {
	for n, want := range map[int][2]string{
		1: {"only whole year", "dry year 2001 (only whole year)"}, 9: {"driest of 9 years", "dry year 2009 (driest of 9 years)"},
		10: {"1-in-10 dry year", "1-in-10 dry year 2010"}, 20: {"1-in-10 dry year", "1-in-10 dry year 2019"},
	} {
		r := rankTable(n, func(i int) float64 { return float64(i) }).RankYears()
		if got := [2]string{r.DryName(), r.DryText()}; got != want {
			t.Errorf("%d years: %q, want %q", n, got, want)
		}
	}
	// A tenth year that is excluded, or lacks a day, does not help.
	table := rankTable(10, func(i int) float64 { return float64(i) })
	table.Excluded = []int{2003}
	if r := table.RankYears(); r.DryName() != "driest of 9 years" {
		t.Errorf("with an excluded year: %q", r.DryName())
	}
	table.Excluded = nil
	table.Spans[9].To--
	if r := table.RankYears(); r.DryName() != "driest of 9 years" || r.Dry != 2009 {
		t.Errorf("with a year that lacks a day: %q, %d", r.DryName(), r.Dry)
	}
}

// TestEffectiveRainByHand: with ETo of 5 mm rain below 1 mm evaporates; 40 mm are
// 25.4 + 2/3 · 14.6 = 35.133; 60 and 200 mm are 25.4 + 2/3 · 25.4 = 42.333.
func TestEffectiveRainByHand(t *testing.T) {
	for rain, want := range map[float64]float64{
		0: 0, 0.99: 0, 1: 1, 20: 20, 25.4: 25.4, 40: 25.4 + 2*14.6/3, 50.8: 25.4 * 5 / 3, 60: 25.4 * 5 / 3, 200: 25.4 * 5 / 3,
	} {
		wantNear(t, "effective rain", tally.EffectiveRain(rain, 5), want)
	}
	if tally.EffectiveRain(0.1, 0) != 0.1 {
		t.Error("without ETo nothing evaporates")
	}
}

// TestDrynessByHand: January has 31 days of 1 mm ETo and one rain of 10 mm,
// 0.8·31 − 10 = 14.8; February 28 of 2 mm, 44.8; the rest nothing. The driest
// three months are 0 + 14.8 + 44.8 only within a year: those before January are
// of the year before.
func TestDrynessByHand(t *testing.T) {
	n := int(cal.Of(2003, 1, 1) - cal.Of(2001, 1, 1))
	w := sim.Weather{Start: cal.Of(2001, 1, 1), RainMM: make([]float64, n), EToMM: make([]float64, n)}
	for i := range n {
		switch d := w.Start + cal.Date(i); {
		case d >= cal.Of(2002, 1, 1) && d < cal.Of(2002, 2, 1):
			w.EToMM[i] = 1
		case d >= cal.Of(2002, 2, 1) && d < cal.Of(2002, 3, 1):
			w.EToMM[i] = 2
		}
	}
	w.RainMM[int(cal.Of(2002, 1, 9)-w.Start)] = 10
	table := &tally.Table{Spans: sim.NewCalendar(w.Start, n).Spans}
	table.DrynessMM = tally.AppendDryness(nil, table.Spans, &w)
	wantNear(t, "dryness of 2002", table.Dryness(2002), 59.6)
	wantNear(t, "dryness of 2001", table.Dryness(2001), 0)
	wantNear(t, "driest three months of 2002", table.DriestMonths(2002), 59.6)
	table.South = true // January and February 2002 are in 2001/02
	wantNear(t, "dryness of 2001/02", table.Dryness(2001), 59.6)
	wantNear(t, "dryness of 2002/03", table.Dryness(2002), 0)
}

// TestPartYearsAreLeftOut by hand: 10 mm a month from July 2001 to March 2003 on
// 1000 m² are 21 months; of them only 2002 is a year, 12 months of 10 m³.
func TestPartYearsAreLeftOut(t *testing.T) {
	table := span(cal.Of(2001, 7, 1), cal.Of(2003, 3, 31), false)
	table.Strategies, table.Zones = []string{"a", tally.NoWater, tally.LeastWater}, []sim.Zone{{Name: "lawn", AreaM2: 1000}}
	for s := range table.Strategies {
		months := make([]sim.Sums, len(table.Spans))
		for i := range months {
			months[i] = sim.Sums{GrossMM: 10, RunoffEvents: 1, ETcMM: 1, ETaMM: float64((s + i + 1) % 2), LongestStreak: i}
		}
		table.Outcomes = append(table.Outcomes, []tally.Outcome{{Months: months}})
	}
	row := table.Compare()[0]
	wantNear(t, "volume", row.M3PerYear, 120)
	wantNear(t, "runoff events", row.RunoffEvents, 12)
	wantNear(t, "share of need met", row.NeedMet, 0.5)
	if row.LongestStreak != 17 { // the months are counted from July 2001
		t.Errorf("longest streak %d, want that of December 2002", row.LongestStreak)
	}
	if sum := table.Total(0, 0); sum.GrossMM != 210 {
		t.Errorf("the record has %g mm, want 210", sum.GrossMM)
	}
	table.Spans = table.Spans[:9] // to March 2002
	for s := range table.Outcomes {
		table.Outcomes[s][0].Months = table.Outcomes[s][0].Months[:9]
	}
	wantNear(t, "volume in these 274 days", table.Compare()[0].M3PerYear, 90)
	cells := table.Cells()
	if v := cells.Basis.Words(); v != "in these 274 days" {
		t.Errorf("%q", v)
	}
	var heads []string
	for _, f := range cells.Basis.Figures(tally.Figures(tally.Measures(), tally.InComparison)) {
		heads = append(heads, f.TerminalHead(&cells.Basis, "gal")+f.Title(&cells.Basis, false))
		if math.IsNaN(cells.Site(f.Measure, 0, f.Over)) && f.Measure.Key != "application_ratio" {
			t.Errorf("%s has no value", f.Key())
		}
	}
	for _, head := range heads {
		if strings.Contains(head, "year") || strings.Contains(head, "/yr") {
			t.Errorf("heading %q of a record without a year", head)
		}
	}
}
