package plots

import (
	"math"
	"slices"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
)

// TestLifeCrossesAgesWithWeatherByHand: in two weather years a part saves 10 and 30 m³; 80%,
// then 50%, then 0% of such parts work. Every age meets both years: year 1 saves 0.8·(10 +
// 30)/2 = 16, from 8 to 24; year 2 saves 0.5·20 = 10, from 5 to 15. As drawn, the device of
// the lawn (9 and 21 m³) fails at 1.2 years, and so works in the middle of year 1 only;
// that of the bed (1 and 9 m³) fails at 1.6, after the middle of year 2; a third is overridden.
func TestLifeCrossesAgesWithWeatherByHand(t *testing.T) {
	l := &LifeTrial{
		Part: "sensor", Working: []float64{0.8, 0.5, 0},
		With: []LifeYear{{M3: 90, Stress: 4}, {M3: 70, Stress: 10}}, Without: []LifeYear{{M3: 100, Stress: 2}, {M3: 100, Stress: 6}},
		Devices: []LifeDevice{
			{Zone: "lawn", Ending: sim.Ending{Age: 1.2, Cause: sim.Failed}, M3: []float64{-9, -21}},
			{Zone: "bed", Ending: sim.Ending{Age: 1.6, Cause: sim.Failed}, M3: []float64{-1, -9}},
			{Zone: "hedge", Ending: sim.Ending{Cause: sim.Overridden}, M3: []float64{-5, -5}},
		},
	}
	for year, want := range []LifeEffect{
		{Working: 0.8, M3: -16, Low: -24, High: -8, Stress: 2.4, Devices: 2, DrawnM3: -20},
		{Working: 0.5, M3: -10, Low: -15, High: -5, Stress: 1.5, Devices: 1, DrawnM3: -5},
		{},
	} {
		got := l.Effect(year + 1)
		for _, pair := range [][2]float64{{got.Working, want.Working}, {got.M3, want.M3}, {got.Low, want.Low}, {got.High, want.High},
			{got.Stress, want.Stress}, {got.DrawnM3, want.DrawnM3}, {float64(got.Devices), float64(want.Devices)}} {
			if math.Abs(pair[0]-pair[1]) > 1e-12 {
				t.Errorf("year %d: %+v, by hand %+v", year+1, got, want)
			}
		}
	}
	s := &Study{Units: SI, Table: &tally.Table{Strategies: []string{"smart"}}}
	want := []string{"sensor", "1", "80%", "−16.0", "−24.0 to −8.00", "+2.4", "2 of 3", "−20.0"}
	if rows := s.LifeRows(l); !slices.Equal(rows[0], want) {
		t.Errorf("row %q, by hand %q", rows[0], want)
	}
	const text = "Yearly figures take sensor of “smart” as working. By its stated life, 80% of such devices work in their first " +
		"year. As the " +
		"seed draws it, that of lawn fails after 1.2 years, that of bed fails after 1.6 years, that of hedge is overridden from the start."
	if got := s.LifeText(l); got != text {
		t.Errorf("text %q\nwant %q", got, text)
	}
}
