package tally_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/sim/tally"
)

// Every measure can be shown wherever it is to be shown, under a key of its own.
func TestMeasuresAreWhole(t *testing.T) {
	measures := tally.Measures()
	seen := map[string]bool{}
	for i := range measures {
		m := &measures[i]
		if seen[m.Key] || m.Key == "" || m.About == "" || m.Get == nil && m.Whole == nil {
			t.Errorf("measure %q: twice, or without key, meaning or value", m.Key)
		}
		seen[m.Key] = true
		if m.Title == "" && (m.IsIn(tally.InComparison) || m.IsIn(tally.InZones)) {
			t.Errorf("measure %q is shown in a table and has no title", m.Key)
		}
		for suffix, kind := range map[string]tally.Kind{"_mm": tally.Depth, "_m2": tally.Area, "_m3": tally.Volume} {
			if strings.HasSuffix(m.Key, suffix) != (m.Kind == kind) {
				t.Errorf("measure %q: its unit is %q", m.Key, m.Kind.Unit())
			}
		}
	}
	for _, o := range []tally.Output{tally.InComparison, tally.InJSON} {
		keys := map[string]bool{}
		for _, f := range tally.Figures(measures, o) {
			if keys[f.Key()] {
				t.Errorf("figure %q is there twice", f.Key())
			}
			keys[f.Key()] = true
		}
	}
}

// TestSiteFromZones by hand: zones of 100 and 300 m² with 1 and 2 in a year.
func TestSiteFromZones(t *testing.T) {
	cells := handTable().Cells()
	get := func(c *tally.Cell) float64 { return float64(c.Zone + 1) }
	for _, tt := range []struct {
		m    tally.Measure
		want float64
	}{
		{tally.Measure{Get: get}, (1*100 + 2*300) / 400.0},
		{tally.Measure{Get: get, Site: tally.Sum}, 3},
		{tally.Measure{Get: get, Site: tally.Worst}, 2},
		{tally.Measure{Get: get, Per: func(c *tally.Cell) float64 { return 4 }}, 1.75 / 4},
		{tally.Measure{Get: get, Site: tally.Sum, Per: func(c *tally.Cell) float64 { return 4 }}, 3.0 / 8},
		{tally.Measure{Get: get, Per: func(c *tally.Cell) float64 { return 0 }, Empty: 9}, 9},
		{tally.Measure{Get: get, Whole: func(*tally.Cells, int, tally.Over) float64 { return 5 }}, 5},
	} {
		wantNear(t, "the record", cells.Site(&tt.m, 0, tally.Record), tt.want)
		if tt.m.Whole == nil {
			wantNear(t, "a year", cells.Site(&tt.m, 0, tally.PerYear), tt.want/years)
		}
	}
	none := tally.Measure{Get: get, Per: func(c *tally.Cell) float64 { return 0 }, Empty: math.NaN()}
	cell := handTable().Cell(0, 0, 2001)
	if v, given := none.Of(&cell); given || !math.IsNaN(v) {
		t.Errorf("no value is %g", v)
	}
	short := rankTable(1, func(int) float64 { return 5 })
	short.Spans[0].To--
	if v := short.Cells().Site(&tally.Measure{Get: get}, 0, tally.DryYear); !math.IsNaN(v) {
		t.Errorf("a year that is not there has %g", v)
	}
}

// TestCompanions: what stands beside a figure is another measure of the list, which
// says what part of a zone it counts and is of the same kind.
func TestCompanions(t *testing.T) {
	all, n := tally.Measures(), 0
	for _, f := range tally.FrontFigures(all) {
		if f.Beside == "" {
			continue
		}
		n++
		c, ok := f.Companion(all)
		if !ok || c.Measure == f.Measure || c.Measure.Part == "" || c.Measure.Kind != f.Measure.Kind || c.Over != f.Over {
			t.Errorf("%s: beside it %+v, %v", f.Key(), c, ok)
		}
	}
	if n == 0 {
		t.Error("no figure has a companion")
	}
}
