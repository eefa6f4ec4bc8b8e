package cli

import (
	"encoding/csv"
	"io"

	"loamledger/scenarios/study"
)

// writeOutlook writes the forecast days past the record, for every strategy, as
// CSV in SI units.
func (l *loaded) writeOutlook(w io.Writer, c *study.Coming) error {
	cw := csv.NewWriter(w)
	_ = cw.WriteAll(l.ComingTable(c)) // kept for Error
	return cw.Error()
}

// printOutlook prints one strategy's forecast days past the record.
func (l *loaded) printOutlook(w io.Writer, c *study.Coming, name string) {
	if c == nil {
		return
	}
	view := l.ComingView(c, name)
	printLines(w, view.Head)
	printGrid(w, view.Grid)
	printLines(w, view.Notes)
}
