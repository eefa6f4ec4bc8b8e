package plots_test

import (
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// cutting is two zones, worked by hand: 100 m² under 0.5 m of water a year and
// 300 m² under 0.4 m, at half and at all of their minutes and at 150%.
func cutting() *plots.DeficitView {
	return &plots.DeficitView{
		Site: "Juniper Court", Station: "Dry Fork", Units: plots.SI, Strategy: "fixed", DryYear: 2001,
		Shares: []float64{0.5, 1, 1.5},
		Whole:  plots.DeficitCurve{AreaM2: 400, M3PerYear: []float64{85, 170, 255}, StressDays: []float64{33, 3, 0}, LeastM3: 140},
		Zones: []plots.DeficitCurve{
			{Name: "lawn", AreaM2: 100, M3PerYear: []float64{25, 50, 75}, StressDays: []float64{120, 0, 0}, LeastM3: 50},
			{Name: "bed", AreaM2: 300, M3PerYear: []float64{60, 120, 180}, StressDays: []float64{4, 4, 0}, LeastM3: 90},
		}}
}

// Panels end at 1.1 times the greatest depth, 0.75 m over the lawn: 330 m³ of
// the site, 82.5 m³ of the lawn, 247.5 m³ of the bed.
func TestDeficitPanelsAreEquallyWideInDepth(t *testing.T) {
	c := plots.DeficitCurves(cutting())
	if len(c.Panels) != 3 {
		t.Fatalf("%d panels for the site and two zones", len(c.Panels))
	}
	for i, want := range []float64{330, 82.5, 247.5} {
		p := &c.Panels[i]
		near(t, p.Title+": end of the axis", p.X.Max, want)
		if p.X.Min != 0 || p.Y != nil || len(p.X.Ticks) < 3 {
			t.Errorf("%s: axis %+v, own vertical axis %v", p.Title, p.X, p.Y)
		}
		for _, tick := range p.X.Ticks {
			if tick.At > p.X.Max {
				t.Errorf("%s: tick %s beyond the end", p.Title, tick.Label)
			}
		}
	}
	if c.Y.Max < 120 || c.Y.Unit != "days" || c.X.Unit != "m³" || c.Label != plots.Estimated {
		t.Errorf("vertical %+v, horizontal %+v, label %q", c.Y, c.X, c.Label)
	}
}

func TestDeficitMarksTodayAndTheBound(t *testing.T) {
	c := plots.DeficitCurves(cutting())
	lawn := c.Panels[1]
	today, bound := series(t, lawn, plots.Today), series(t, lawn, plots.Need)
	if today.X[0] != 50 || today.Y[0] != 0 || today.Text[0] != "today" {
		t.Errorf("today %+v, want 50 m³ and no stress day", today)
	}
	if bound.Form != plots.Post || bound.X[0] != 50 {
		t.Errorf("bound %+v, want a vertical line at 50 m³", bound)
	}
	if want := "today 50.0 m³, 0 days; least 50.0"; lawn.Note != want {
		t.Errorf("note %q, want %q", lawn.Note, want)
	}
	line := lawn.Series[1]
	if line.Form != plots.Line || len(line.X) != 3 || line.X[0] != 25 || line.Y[0] != 120 {
		t.Errorf("line %+v", line)
	}
	if dots := lawn.Series[2]; len(dots.X) != 2 || dots.Text[0] != "50%" || dots.Text[1] != "150%" {
		t.Errorf("dots %+v, want those of 50%% and 150%%", dots)
	}
	v := cutting()
	v.Units = plots.US // 50 m³ are 50,000 / 3.785411784 = 13,209 gal
	near(t, "gallons", series(t, plots.DeficitCurves(v).Panels[1], plots.Today).X[0], 50_000/3.785411784)
}

// The sentence judges by the zone that suffers most, not by the mean of the
// site.
func TestDeficitSaysHowFarMinutesCanBeCut(t *testing.T) {
	v := cutting()
	want := "At 50% of today’s run times, with 50% less water, “lawn” already has 120 stress days in the dry year 2001 " +
		"instead of 0; the site has 3 today."
	if got := plots.DeficitCurves(v).See; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	v.Zones[0].StressDays[0] = 5
	want = "Down to 50% of today’s run times, with 50% less water, no zone gains more than 5 stress days; " +
		"the site has 3 stress days in the dry year 2001 today."
	if got := plots.DeficitCurves(v).See; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	v.DryYear = 0
	if c := plots.DeficitCurves(v); !strings.Contains(strings.Join(c.Notes, " "), "no whole calendar year") ||
		strings.Contains(c.See+c.Y.Label, "dry year") {
		t.Errorf("without a whole year: %q, %q, %q", c.See, c.Y.Label, c.Notes)
	}
	v.Shares = []float64{0.5, 0.9, 1.5}
	if c := plots.DeficitCurves(v); strings.Contains(c.See, "today") || len(c.Keys) != 2 || strings.Contains(c.Panels[0].Note, "today") {
		t.Errorf("today is not among the shares, and yet: %q, %+v", c.See, c.Keys)
	}
}

// A site of one zone has one panel; one of many shows the largest and says so;
// nothing lies outside its axes, not even where no water is applied.
func TestDeficitOfFewAndManyZones(t *testing.T) {
	for zones, panels := range map[int]int{1: 1, 2: 3, 12: 13, 40: 24} {
		c := plots.DeficitCurves(sample.Deficit(sample.Options{Zones: zones}))
		if len(c.Panels) != panels {
			t.Errorf("%d zones: %d panels, want %d", zones, len(c.Panels), panels)
		}
		if told := strings.Contains(strings.Join(c.Notes, " "), "largest of 40 zones"); told != (zones == 40) {
			t.Errorf("%d zones: %q", zones, c.Notes)
		}
		for i := range c.Panels {
			p := &c.Panels[i]
			own := c
			own.X = *p.X
			within(t, &own, p)
		}
	}
	v := cutting()
	for _, d := range []*plots.DeficitCurve{&v.Whole, &v.Zones[0], &v.Zones[1]} {
		d.M3PerYear, d.LeastM3 = []float64{0, 0, 0}, 0
	}
	c := plots.DeficitCurves(v)
	if !(c.Panels[0].X.Max > 0) || !strings.Contains(c.See, "applies no water") {
		t.Errorf("without water: %q, axis %+v", c.See, c.Panels[0].X)
	}
}
