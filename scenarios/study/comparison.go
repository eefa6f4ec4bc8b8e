package study

import (
	"fmt"
	"math"

	"loamledger/plots"
	"loamledger/sim/tally"
	"loamledger/weather/quantity"
)

// Comparison compares the strategies of a replay, with the references below a
// line and a column for each figure of the measures.
func (l *Study) Comparison(t *tally.Table) *Grid {
	return comparison(t, l.measures(), l.Scenario.Units)
}

func comparison(t *tally.Table, measures []tally.Measure, sys quantity.System) *Grid {
	cells := t.Cells()
	figures := cells.Basis.Figures(tally.Figures(measures, tally.InComparison))
	g := &Grid{Rule: t.NoWaterIndex(), Head: []string{"strategy"}, Columns: toTheRight(1, 1+len(figures))}
	g.Columns[0].Width = 30
	for i := range figures {
		head, broken := printedHead(&figures[i], &cells.Basis, sys)
		g.Head = append(g.Head, head)
		if !broken {
			g.Columns[1+i].HeadWidth = headWidth
		}
	}
	for s, name := range t.Strategies {
		row := []any{name}
		for i := range figures {
			f := &figures[i]
			cell := printedFigure(f.Measure, cells.Site(f.Measure, s, f.Over), sys)
			if s == t.Baseline && f.Measure.Kind == tally.Change {
				cell = "-" // compared with itself
			}
			row = append(row, cell)
		}
		g.add(row...)
	}
	return g
}

// headWidth is the maximum line width of a printed heading.
const headWidth = 8

// printedHead returns the heading of a figure, and whether it already has line
// breaks.
func printedHead(f *tally.Figure, b *tally.Basis, sys quantity.System) (head string, broken bool) {
	unit := ""
	if dim, ok := plots.Dimension(f.Measure.Kind); ok {
		unit = quantity.Label(dim, sys)
	}
	if f.Head != "" {
		return f.TerminalHead(b, unit), true
	}
	head = f.Title(b, false)
	switch {
	case unit != "":
		head += " [" + unit + "]"
	case f.Measure.Kind == tally.Share:
		head += " [%]"
	}
	return head, false
}

// printedFigure writes a value of a measure without its unit, or a dash if
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
