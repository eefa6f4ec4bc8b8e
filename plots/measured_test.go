package plots_test

import (
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
	"loamledger/weather/cal"
)

// TestDepletionChart: a panel for each year with a measured day, every mark within
// the axes, and the counts of days past RAW worked by hand: simulated 12 and 14 are
// past 10; measured 16 is past its own 15.
func TestDepletionChart(t *testing.T) {
	v := &plots.MeasuredView{Site: "Juniper Court", Station: "Dry Fork", Zone: "lawn", Strategy: "no watering", Units: plots.SI,
		Start: cal.Of(2001, 12, 30), SimMM: []float64{9, 12, 14, 8}, MeasuredMM: []float64{8, 16, 14, math.NaN()},
		RAWMM: []float64{10, 10, 10, 10}, MeasuredRAW: []float64{15, 15, 15, 15}, RainMM: []float64{0, 0, 3, 0}, TAWMM: 20, RMSEMM: 2.2, R: 0.9}
	c := plots.Depletion(v)
	if len(c.Panels) != 2 || c.Panels[0].Note != "past RAW on 1 day simulated, 1 measured, of 2 measured days" ||
		c.Panels[1].Note != "past RAW on 1 day simulated, 0 measured, of 1 measured day" {
		t.Errorf("%q and %q", c.Panels[0].Note, c.Panels[1].Note)
	}
	if !strings.Contains(c.See, "by 2.2 mm (RMSE), 11% of TAW; r is 0.90") {
		t.Error(c.See)
	}
	rain := series(t, c.Panels[1], plots.RainFall)
	near(t, "top of 3 mm of rain", rain.Y[0], c.Y.Max-3)
	near(t, "its foot", rain.Base[0], c.Y.Max)
	near(t, "January 1", rain.X[0], 0)
}

// TestMeasuredCharts holds both charts to what every chart must have.
func TestMeasuredCharts(t *testing.T) {
	for _, years := range []int{1, 8} {
		for _, c := range []plots.Chart{plots.Depletion(sample.Measured(years, plots.US)), plots.WaterUse(sample.Measured(years, plots.SI))} {
			if c.Title == "" || c.Alt == "" || !strings.HasSuffix(c.See, ".") || c.Label != "" || len(c.Keys) == 0 ||
				!fileName.MatchString(c.Name) || c.To <= c.From {
				t.Errorf("%+v", c)
			}
			for i := range c.Panels {
				within(t, &c, &c.Panels[i])
			}
		}
	}
}

// TestUseChart: a spell at 30% of TAW with 80% of ETc, one outside; the Ks line
// bends at p and ends at TAW. The median before RAW is at 0.95 of ETc where Ks is
// 1, that past RAW at 0.9 where Ks is (1 − 0.7)/(1 − 0.4) = 0.5.
func TestUseChart(t *testing.T) {
	v := &plots.MeasuredView{Zone: "lawn", SimMM: []float64{1, 2}, P: 0.4, UseAt: []float64{0.3, 0.3}, Use: []float64{0.8, 2.4},
		MedianAt: []float64{0.3, 0.7}, Median: []float64{0.95, 0.9}}
	c := plots.WaterUse(v)
	dots, ks := series(t, c.Panels[0], plots.Observed), series(t, c.Panels[0], plots.Deficit)
	if len(dots.X) != 1 || dots.X[0] != 30 || dots.Y[0] != 80 || ks.X[1] != 40 || ks.Y[1] != 100 || ks.X[2] != 100 || ks.Y[2] != 0 {
		t.Errorf("%+v, %+v", dots, ks)
	}
	if want := "Before RAW, plants used about as much as the replay says; past RAW, 40% of ETc more than it says."; c.See != want {
		t.Errorf("%q, want %q", c.See, want)
	}
	if !strings.HasPrefix(c.Notes[0], "1 spell is outside") {
		t.Errorf("%q", c.Notes)
	}
	if c := plots.WaterUse(&plots.MeasuredView{SimMM: []float64{1}}); !strings.HasPrefix(c.See, "There are too few") {
		t.Error(c.See)
	}
}
