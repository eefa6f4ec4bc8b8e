package tally

import (
	"testing"

	"loamledger/sim"
)

// TestLean: every figure of a comparison is the same to the last digit in a lean
// table, and a year that it does not have is not answered with 0.
func TestLean(t *testing.T) {
	full := &Table{Strategies: []string{"a", "b", NoWater, LeastWater}, Zones: []sim.Zone{{Name: "x", AreaM2: 30}, {Name: "y", AreaM2: 50}}}
	from := 0
	for y := 2001; y <= 2012; y++ {
		for m := 1; m <= 12; m++ {
			days := []int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[m-1]
			if m == 2 && y%4 == 0 {
				days++
			}
			full.Spans = append(full.Spans, sim.Span{Year: y, Month: m, From: from, To: from + days})
			full.DrynessMM = append(full.DrynessMM, float64((y*37+m)%11))
			from += days
		}
	}
	full.Excluded = []int{2004}
	for s := range full.Strategies {
		full.Breaches = append(full.Breaches, make([]sim.Breach, s))
		var zones []Outcome
		for z := range full.Zones {
			var months []sim.Sums
			for i := range full.Spans {
				v := float64((i*7+s*3+z)%13) / 3
				months = append(months, sim.Sums{Days: full.Spans[i].To - full.Spans[i].From, GrossMM: v, ETaMM: v / 3, ETcMM: v/3 + 1,
					StressZoneDays: (i + s) % 5, StressDays: (i + s) % 7, BrownDays: (i + z) % 3, RunoffEvents: s})
			}
			zones = append(zones, Outcome{Months: months})
		}
		full.Outcomes = append(full.Outcomes, zones)
	}
	lean := *full
	lean.Outcomes = make([][]Outcome, len(full.Strategies))
	for s := range lean.Outcomes {
		lean.Outcomes[s] = make([]Outcome, len(full.Zones))
	}
	lean.MakeLean()
	for s := range full.Strategies {
		for z := range full.Zones {
			lean.Outcomes[s][z].Brief.Fill(&lean, full.Outcomes[s][z].Months)
		}
	}
	a, b := full.Cells(), lean.Cells()
	count := 0
	for _, f := range Figures(Measures(), InJSON|InComparison|InReport) {
		for s := range full.Strategies {
			if x, y := a.Site(f.Measure, s, f.Over), b.Site(f.Measure, s, f.Over); x != y && (x == x || y == y) {
				t.Errorf("%s of %s: %g, lean %g", f.Key(), full.Strategies[s], x, y)
			}
			count++
		}
	}
	if count < 40 {
		t.Errorf("only %d figures compared", count)
	}
	x, y := full.Compare(), lean.Compare()
	for s := range x {
		if x[s] != y[s] {
			t.Errorf("%+v, lean %+v", x[s], y[s])
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("a year that a lean table does not have is answered")
		}
	}()
	ranked := full.RankYears()
	for y := 2001; y <= 2012; y++ {
		if y != ranked.Median && y != ranked.Dry {
			lean.Year(0, 0, y)
		}
	}
}
