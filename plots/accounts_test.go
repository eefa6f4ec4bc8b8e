package plots_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

func chartOf(t *testing.T, v *plots.AccountsView, kind plots.Kind) plots.Chart {
	t.Helper()
	for _, c := range plots.AccountsCharts(v) {
		if c.Kind == kind {
			return c
		}
	}
	t.Fatalf("no chart of kind %d", kind)
	return plots.Chart{}
}

// By hand: of 2,000 accounts with savings of −75 m³ up in steps of 0.1, 750 use more and 1,250 save or
// are at zero; each bar has many, so all are drawn, on their side of zero.
func TestHistogramCountsEveryAccount(t *testing.T) {
	v := sample.Accounts(2000, plots.SI)
	v.Measures = v.Measures[1:]
	c := chartOf(t, v, plots.AccountsKind)
	sides := [2]float64{}
	for k, s := range c.Panels[0].Series[:2] {
		for i, n := range s.Y {
			sides[k] += n
			if n < 10 {
				t.Errorf("a bar of %g accounts is drawn", n)
			}
			if (s.X[i] > 0) != (k == 0) {
				t.Errorf("series %d has a bar at %g", k, s.X[i])
			}
		}
	}
	if math.Abs(sides[1]-750) > 1 || math.Abs(sides[0]-1250) > 1 || sides[0]+sides[1] != 2000 {
		t.Errorf("%g savers and %g others", sides[0], sides[1])
	}
	if !strings.Contains(c.See, "35%") || !strings.Contains(strings.Join(c.Notes, " "), "drawn, not observed") {
		t.Errorf("%q, %q", c.See, c.Notes)
	}
}

// A curve ends at 100%, and no order of the accounts is above hindsight.
func TestHindsightIsABound(t *testing.T) {
	c := chartOf(t, sample.Accounts(200, plots.US), plots.SharesKind)
	for _, p := range c.Panels {
		hind, bills := p.Series[0], p.Series[1]
		if hind.Role != plots.Hindsight || math.Abs(hind.Y[len(hind.Y)-1]-100) > 1e-9 || math.Abs(bills.Y[len(bills.Y)-1]-100) > 1e-9 {
			t.Fatalf("%s: %+v", p.Title, hind)
		}
		for i := range bills.Y {
			if bills.Y[i] > hind.Y[i]+1e-9 {
				t.Errorf("%s: %g%% by bills above %g%% in hindsight", p.Title, bills.Y[i], hind.Y[i])
			}
		}
	}
}

// A class of few accounts has no mark.
func TestRatioClassesAreLarge(t *testing.T) {
	v := sample.Accounts(200, plots.US)
	v.Smallest = 15
	c := chartOf(t, v, plots.RatiosKind)
	// 0.2 of the ratio are 20 accounts; the first and the last class have half of that.
	if n := len(c.Panels[1].Series[0].X); n != 9 {
		t.Errorf("%d classes are drawn, by hand 9", n)
	}
	if !strings.Contains(strings.Join(c.Notes, " "), "20 accounts in all") { // the same under each measure
		t.Errorf("%q", c.Notes)
	}
}

// Lines run to the right though the curve bends back, and costs far above the avoided cost are
// counted, not drawn.
func TestCostCurve(t *testing.T) {
	v := sample.Accounts(200, plots.US)
	c := chartOf(t, v, plots.CostsKind)
	for _, p := range c.Panels {
		for _, s := range p.Series {
			if s.Form == plots.Line && s.X[0] > s.X[1] {
				t.Errorf("%s: a line runs to the left", p.Title)
			}
		}
	}
	v.Measures[0].Costs[9].PerM3 = math.Inf(1)
	c = chartOf(t, v, plots.CostsKind)
	if !strings.Contains(strings.Join(c.Notes, " "), "Not drawn because") {
		t.Errorf("%q", c.Notes)
	}
}

// Where savings and increases nearly cancel, no share of the rest is drawn: by hand 100
// accounts that save 21 each and 100 that use 20 more leave 100 of 4,100, 2%.
func TestSharesOfNearlyNothing(t *testing.T) {
	v := sample.Accounts(200, plots.US)
	for a := range v.Measures[0].Late {
		v.Measures[0].Late[a] = 21
		if a%2 == 0 {
			v.Measures[0].Late[a] = -20
		}
		v.Measures[0].SavedM3[a] = v.Measures[0].Late[a]
	}
	c := chartOf(t, v, plots.SharesKind)
	if p := &c.Panels[0]; len(p.Series) != 1 || !strings.Contains(p.Note, "too little") {
		t.Errorf("%d series, %q", len(p.Series), p.Note)
	}
	if c.Y.Max > 300 {
		t.Errorf("the axis ends at %g%%", c.Y.Max)
	}
}
