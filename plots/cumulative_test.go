package plots_test

import (
	"slices"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
	"loamledger/sim/tally"
)

// TestCumulativeWaterByHand: 50.8 mm on 100 m² in each of twelve months is 5.08 m³ a
// month, 5.08/3.785411784 = 1.34199 thousand gallons; the last point is the sum of the
// bars by year.
func TestCumulativeWaterByHand(t *testing.T) {
	s := tiny()
	c := plots.Cumulative(s)
	line := series(t, c.Panels[0], plots.OwnTotal)
	if len(line.Y) != 13 {
		t.Fatalf("%d points, want the start and 12 ends of months", len(line.Y))
	}
	near(t, "at the start", line.Y[0], 0)
	near(t, "after January", line.Y[1], 5.08/3.785411784)
	near(t, "January ends on day", line.X[1], 30)
	near(t, "after the year", line.Y[12], 60.96/3.785411784)
	near(t, "as in the chart of years", line.Y[12], series(t, plots.Years(s).Panels[0], plots.Applied).Y[0])
}

// TestCumulativeGap checks that the gap is filled with what the strategy saves or
// adds, and that the last points are the volumes of the years added up.
func TestCumulativeGap(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 4, Zones: 3, Years: 4})
	c := plots.Cumulative(s)
	base := series(t, c.Panels[s.Table.Baseline], plots.OwnTotal)
	for st, p := range c.Panels {
		own := series(t, p, plots.OwnTotal)
		end := len(own.Y) - 1
		m3 := 0.0
		for _, y := range s.Table.RankYears().Years {
			m3 += s.Table.VolumeInYear(st, y)
		}
		near(t, p.Title+" in all", own.Y[end], m3/3.785411784)
		if st == s.Table.Baseline {
			continue
		}
		less, extra := series(t, p, plots.SavesWater), series(t, p, plots.UsesMore)
		for i := range own.Y {
			near(t, "less", less.Y[i]-less.Base[i], max(base.Y[i]-own.Y[i], 0))
			near(t, "more", extra.Y[i]-extra.Base[i], max(own.Y[i]-base.Y[i], 0))
		}
	}
}

// TestRunTimesByHand: 120 minutes in a month of 31 days are 2 × 7/31 hours a week, in
// February of 28 days 0.5.
func TestRunTimesByHand(t *testing.T) {
	bars := series(t, plots.RunTimes(tiny()).Panels[0], plots.Applied)
	near(t, "January", bars.Y[0], 14.0/31)
	near(t, "February", bars.Y[1], 0.5)
	if n := len(bars.Y); n != 12 || slices.Max(bars.Y) != bars.Y[1] {
		t.Errorf("%d months, the most not in February", n)
	}
}

// TestBriefKeepsMinutes checks that a table in little room draws the same times.
func TestBriefKeepsMinutes(t *testing.T) {
	full, little := tiny(), tiny()
	for st := range little.Table.Outcomes {
		o := &little.Table.Outcomes[st][0]
		b := &tally.Brief{Months: make([]tally.BriefMonth, 12), RainMM: make([]float64, 12)}
		b.Years = append(b.Years, o.Months[0])
		b.Fill(little.Table, o.Months)
		*o = tally.Outcome{Brief: b}
	}
	want, got := plots.RunTimes(full).Panels[0].Series[0].Y, plots.RunTimes(little).Panels[0].Series[0].Y
	if !slices.Equal(want, got) { // 120 is exact in little room, too
		t.Errorf("got %v, want %v", got, want)
	}
}
