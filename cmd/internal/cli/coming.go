package cli

import (
	"encoding/csv"
	"io"

	"loamledger/scenarios/study"
)

// writeComing writes every strategy's coming days as CSV, in SI.
func (l *loaded) writeComing(w io.Writer, c *study.Coming) error {
	cw := csv.NewWriter(w)
	_ = cw.WriteAll(l.ComingTable(c)) // kept for Error
	return cw.Error()
}

// printComing shows one strategy's coming days.
func (l *loaded) printComing(w io.Writer, c *study.Coming, name string) {
	if c == nil {
		return
	}
	view := l.ComingView(c, name)
	printLines(w, view.Head)
	printGrid(w, view.Grid)
	printLines(w, view.Notes)
}
