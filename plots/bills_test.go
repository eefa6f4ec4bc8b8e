package plots_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// Hand: the bills of the sample are 220.80 + 349.86 + 180.56 + 443.31 + 12.50 = 1207.03
// and, with 20 less outdoors and 1 more surcharge, 1188.03: 19.00 less.
func TestBillBridgeAddsUpToTheCent(t *testing.T) {
	s := sample.Billed(sample.Options{Strategies: 2, Zones: 1, Years: 3})
	c := plots.BillCharts(s)[1]
	p := &c.Panels[0]
	if len(c.Panels) != 1 || len(p.Series) != 4 {
		t.Fatalf("%d panels, %d bars", len(c.Panels), len(p.Series))
	}
	var labels []string
	for _, tick := range p.Y.Ticks {
		labels = append(labels, tick.Label)
	}
	if got := strings.Join(labels, "; "); got != "now 1,207.03; water outdoors −20.00; surcharge +1.00; with this 1,188.03" {
		t.Errorf("bars %s", got)
	}
	at := p.Series[0].X[0]
	for _, step := range p.Series[1:3] {
		low, top := step.Base[0], step.X[0]
		if step.Role == plots.BillFalls {
			low, top = top, low
		}
		if math.Abs(low-at) > 1e-9 {
			t.Errorf("a step begins at %g, the one before ends at %g", low, at)
		}
		at = top
	}
	if last := p.Series[3].X[0]; math.Abs(last-at) > 1e-9 || math.Abs(last-1188.03) > 1e-9 {
		t.Errorf("steps end at %g, the bill is %g", at, last)
	}
	if !strings.Contains(c.See, "USD 19.00 a year") {
		t.Errorf("%q", c.See)
	}
}

// Parts of a month are stacked without gaps and end at the bill of the month; the
// text has the yearly bill.
func TestBillMonthsStack(t *testing.T) {
	s := sample.Billed(sample.Options{Strategies: 2, Zones: 1, Years: 3})
	c := plots.BillCharts(s)[0]
	for _, p := range c.Panels {
		top := 0.0
		for _, bars := range p.Series {
			if math.Abs(bars.Base[6]-top) > 1e-9 {
				t.Errorf("%s: a part begins at %g, the one below ends at %g", p.Title, bars.Base[6], top)
			}
			top = bars.Y[6]
		}
	}
	if p := &c.Panels[0]; math.Abs(p.Series[4].Y[6]-1207.03/12) > 1e-9 || p.Note != "USD 1,207 a year" {
		t.Errorf("July ends at %g, %q", p.Series[4].Y[6], p.Note)
	}
	// Hand: 443.31 of 1207.03 is 37%.
	if !strings.Contains(c.See, "37% of the bill") || !strings.Contains(c.Alt, "water outdoors 443") {
		t.Errorf("%q, %q", c.See, c.Alt)
	}
	c = plots.BillCharts(s)[2]
	if !strings.Contains(c.See, "by USD 20 from year to year") || c.Panels[0].Note != "1,207 to 1,227, mean 1,207" {
		t.Errorf("%q, %q", c.See, c.Panels[0].Note)
	}
}

// Without rates there are no charts of bills; one strategy has no bridge.
func TestNoBills(t *testing.T) {
	if got := plots.BillCharts(sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 2})); got != nil {
		t.Errorf("%d charts", len(got))
	}
	for _, c := range plots.BillCharts(sample.Billed(sample.Options{Strategies: 1, Zones: 1, Years: 3})) {
		if c.Kind == plots.BillBridgeKind {
			t.Error("a bridge from one bill to none")
		}
	}
}

// The allowance is a line in the chart of months, and in the small print of page one.
func TestAllowanceLine(t *testing.T) {
	s := sample.Billed(sample.Options{Strategies: 3, Zones: 1, Years: 2})
	c := plots.Months(s)
	last := c.Panels[0].Series[len(c.Panels[0].Series)-1]
	if last.Role != plots.AllowedWater || len(last.Y) != 12 || !strings.HasSuffix(c.Panels[1].Note, "; 90% of the allowance") {
		t.Errorf("%v, %q", last, c.Panels[1].Note)
	}
	if !strings.Contains(c.See, "1 of 3 options stays within the allowance in every year") || !strings.Contains(c.See, "uses 120% of it") {
		t.Errorf("%q", c.See)
	}
	table := plots.NewReport(s, &plots.Facts{}).Front.Options
	for st, want := range []string{"Above the allowance.", "Within the allowance in 1 of 2 years.", "Within the allowance."} {
		if got := table.Rows[st].Fails; !strings.Contains(got, want) {
			t.Errorf("option %d: %q, want %q", st, got, want)
		}
	}
}
