package cli

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// printComparison prints a row for each strategy, with a column for each figure
// of the measures.
func printComparison(w io.Writer, t *tally.Table, measures []tally.Measure, sys quantity.System) {
	figures := tally.Figures(measures, tally.InComparison)
	columns := append(toTheRight(2, 1+len(figures)), table.ColumnConfig{Number: 1, WidthMax: 30, WidthMaxEnforcer: text.WrapSoft})
	tw := plainTable(w, columns...)
	head := table.Row{"strategy"}
	for i := range figures {
		head = append(head, printedHead(&figures[i], sys))
	}
	tw.AppendHeader(head)
	cells := t.Cells()
	for s, name := range t.Strategies {
		if s == t.NoWaterIndex() {
			tw.AppendSeparator()
		}
		row := table.Row{name}
		for i := range figures {
			f := &figures[i]
			cell := printedFigure(f.Measure, cells.Site(f.Measure, s, f.Over), sys)
			if s == 0 && f.Measure.Kind == tally.Change {
				cell = "-" // against itself
			}
			row = append(row, cell)
		}
		tw.AppendRow(row)
	}
	tw.Render()
}

// headWidth is how wide a word of a printed heading may make its line.
const headWidth = 8

// printedHead breaks the heading of a figure into lines.
func printedHead(f *tally.Figure, sys quantity.System) string {
	unit := ""
	if dim, ok := plots.Dimension(f.Measure.Kind); ok {
		unit = quantity.Label(dim, sys)
	}
	if f.Head != "" {
		return strings.Replace(f.Head, "%s", unit, 1)
	}
	head := f.Title(false)
	switch {
	case unit != "":
		head += " [" + unit + "]"
	case f.Measure.Kind == tally.Share:
		head += " [%]"
	}
	return text.WrapSoft(head, headWidth)
}

// printedFigure writes a value of a measure, without its unit; a dash where
// there is none.
func printedFigure(m *tally.Measure, v float64, sys quantity.System) string {
	if math.IsNaN(v) {
		return "-"
	}
	switch m.Kind {
	case tally.Change:
		return moreOrLess(v)
	case tally.Share:
		return fmt.Sprintf("%.*f", m.Digits, 100*v)
	case tally.Volume:
		return volumeText(v, sys)
	}
	if dim, ok := plots.Dimension(m.Kind); ok {
		v = quantity.Convert(v, dim, sys)
	}
	return fmt.Sprintf("%.*f", m.Digits, v)
}
