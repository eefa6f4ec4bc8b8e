package cli

import (
	"encoding/csv"
	"io"

	"loamledger/scenarios/study"
)

// writeOutlook writes the forecast days past the record, for every strategy, as
// CSV in SI units.
func (l *loaded) writeOutlook(w io.Writer, c *study.Coming) error {
	return writeRows(w, l.ComingTable(c))
}

// writeRows writes rows of text as CSV.
func writeRows(w io.Writer, rows [][]string) error {
	cw := csv.NewWriter(w)
	_ = cw.WriteAll(rows) // kept for Error
	return cw.Error()
}

// printOutlook prints the forecast days past the record: the totals of every
// strategy, and the days of all, or of the named one zone by zone.
func (l *loaded) printOutlook(w io.Writer, c *study.Coming, name string) {
	if c == nil {
		if why := l.NoComing(); why != "" {
			printLines(w, []string{"", why})
		}
		return
	}
	printViews(w, l.ComingViews(c, name))
}

// printViews prints tables with their lines.
func printViews(w io.Writer, views []study.View) {
	for _, v := range views {
		printLines(w, v.Head)
		if v.Grid != nil {
			printGrid(w, v.Grid)
		}
		printLines(w, v.Notes)
	}
}
