package cli

import (
	"fmt"
	"io"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"loamledger/scenarios/study"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// printLines prints each line as it is.
func printLines(w io.Writer, lines []string) {
	for _, line := range lines {
		fmt.Fprintln(w, line)
	}
}

// printComparison prints a row for each strategy.
func printComparison(w io.Writer, t *tally.Table, sys quantity.System) {
	rows := t.Compare()
	columns := append(toTheRight(2, 11), table.ColumnConfig{Number: 1, WidthMax: 30, WidthMaxEnforcer: text.WrapSoft})
	tw := plainTable(w, columns...)
	volume, depth := quantity.Label(quantity.Volume, sys), quantity.Label(quantity.Depth, sys)
	tw.AppendHeader(table.Row{"strategy", volume + "\na year", "against\nthe first", "stress\ndays,\nmedian", "stress\ndays,\ndry", "longest\nstreak\n[days]",
		"runoff\nevents\na year", "perco-\nlation\n[" + depth + "/yr]", "ade-\nquacy\n[%]", "\nexcess\n[%]", "appli-\ncation\nratio"})
	for i, r := range rows {
		if i == t.NoWaterIndex() {
			tw.AppendSeparator()
		}
		change := "-"
		if i > 0 {
			change = study.MoreOrLess(r.Change)
		}
		tw.AppendRow(table.Row{r.Strategy, study.VolumeText(r.M3PerYear, sys), change,
			study.Days(r.StressMedian), study.Days(r.StressDry), r.LongestStreak, fmt.Sprintf("%.1f", r.RunoffEvents),
			fmt.Sprintf("%.1f", quantity.Convert(r.PercMMPerYear, quantity.Depth, sys)), fmt.Sprintf("%.0f", 100*r.Adequacy), fmt.Sprintf("%.0f", 100*r.Excess), study.Ratio(r.ApplicationRatio)})
	}
	tw.Render()
}
