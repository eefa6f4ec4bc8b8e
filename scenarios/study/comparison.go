package study

import (
	"fmt"

	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// Comparison sets the strategies of a replay, and below a line the references,
// beside each other.
func (l *Study) Comparison(t *tally.Table) *Grid {
	sys := l.Scenario.Units
	volume, depth := quantity.Label(quantity.Volume, sys), quantity.Label(quantity.Depth, sys)
	g := &Grid{Rule: t.NoWaterIndex(), Columns: toTheRight(1, 11)}
	g.Columns[0].Width = 30
	g.Head = []string{"strategy", volume + "\na year", "against\nthe first", "stress\ndays,\nmedian", "stress\ndays,\ndry", "longest\nstreak\n[days]",
		"runoff\nevents\na year", "perco-\nlation\n[" + depth + "/yr]", "ade-\nquacy\n[%]", "\nexcess\n[%]", "appli-\ncation\nratio"}
	for i, r := range t.Compare() {
		change := "-"
		if i > 0 {
			change = moreOrLess(r.Change)
		}
		g.add(r.Strategy, volumeText(r.M3PerYear, sys), change,
			days(r.StressMedian), days(r.StressDry), r.LongestStreak, fmt.Sprintf("%.1f", r.RunoffEvents),
			fmt.Sprintf("%.1f", quantity.Convert(r.PercMMPerYear, quantity.Depth, sys)), fmt.Sprintf("%.0f", 100*r.Adequacy), fmt.Sprintf("%.0f", 100*r.Excess), ratio(r.ApplicationRatio))
	}
	return g
}
