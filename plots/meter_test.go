package plots_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
	"loamledger/weather/cal"
)

// Hand: 3 m³ a day in January, 31 days, 2 simulated; the bar of the difference, 1, is
// at the middle of the month. February does not count, so that it has no bar and is not
// among the metered values.
func TestMeterChart(t *testing.T) {
	v := &plots.MeterView{Meter: "Main 2", Strategy: "as found", Units: plots.SI, Scored: true, N: 1, NMBE: 33, CV: 33.4,
		Periods: []plots.MeterPeriod{
			{From: cal.Of(2023, 1, 1), To: cal.Of(2023, 2, 1), Metered: 3, Sim: 2, Base: 0.5},
			{From: cal.Of(2023, 2, 1), To: cal.Of(2023, 3, 1), Metered: 4, Sim: 2, Base: 0.5, Left: true},
		}}
	c := plots.Meter(v)
	if c.Name != "meter-main-2" || c.To != cal.Of(2023, 2, 28) || len(c.Panels) != 2 {
		t.Errorf("%s to %v", c.Name, c.To)
	}
	metered, left := series(t, c.Panels[0], plots.Observed), series(t, c.Panels[0], plots.EmptyLine)
	if metered.Y[0] != 3 || metered.X[1] != 31 || !math.IsNaN(metered.Y[2]) || left.Y[3] != 4 || !math.IsNaN(left.Y[0]) {
		t.Errorf("%+v, %+v", metered, left)
	}
	diff := series(t, c.Panels[1], plots.Applied)
	if len(diff.X) != 1 || diff.X[0] != 15.5 || diff.Y[0] != 1 || c.Panels[1].Y.Min != -c.Panels[1].Y.Max {
		t.Errorf("%+v", diff)
	}
	if !strings.Contains(c.See, "33% too low (NMBE), with a typical error of 33% (CV(RMSE)), over 1 period") {
		t.Error(c.See)
	}
	if dots := series(t, plots.MeterScatter(v).Panels[0], plots.Observed); len(dots.X) != 1 || dots.X[0] != 2 || dots.Y[0] != 3 {
		t.Errorf("%+v", dots)
	}
	for nmbe, want := range map[float64]string{-12: "12% too high", 0.3: "right on average"} {
		v.NMBE = nmbe
		if c := plots.Meter(v); !strings.Contains(c.See, want) {
			t.Error(c.See)
		}
	}
	v.Scored = false
	if c := plots.Meter(v); !strings.Contains(c.See, "Too few periods count") {
		t.Error(c.See)
	}
}

// TestMeterCharts holds both charts to what every chart must have.
func TestMeterCharts(t *testing.T) {
	for _, years := range []int{2, 8} {
		for _, c := range []plots.Chart{plots.Meter(sample.Meter(years, plots.US)), plots.MeterScatter(sample.Meter(years, plots.SI))} {
			if c.Title == "" || c.Alt == "" || !strings.HasSuffix(c.See, ".") || len(c.Keys) == 0 ||
				!fileName.MatchString(c.Name) || c.To <= c.From {
				t.Errorf("%+v", c)
			}
			for i := range c.Panels {
				of := c
				if own := c.Panels[i].Y; own != nil {
					of.Y = *own
				}
				within(t, &of, &c.Panels[i])
			}
		}
	}
}
