package study

import (
	"loamledger/plots"
	"loamledger/weather/quantity"
)

// A plainTable is a table of texts, for a terminal and for the report.
type plainTable struct {
	head []string // the first is that of the names
	rows []plainRow
}

type plainRow struct {
	name  string
	cells []string
}

// nameWidth is the maximum width of names on a terminal.
const nameWidth = 30

// grid returns the table for a terminal.
func (t *plainTable) grid() *Grid {
	g := &Grid{Head: t.head, Columns: toTheRight(1, len(t.head))}
	g.Columns[0].Width = nameWidth
	for _, row := range t.rows {
		g.Rows = append(g.Rows, append([]string{row.name}, row.cells...))
	}
	return g
}

// page returns the table for the report.
func (t *plainTable) page() plots.Table {
	out := plots.Table{First: quantity.Capital(t.head[0]), Head: t.head[1:]}
	for _, row := range t.rows {
		out.Rows = append(out.Rows, plots.TableRow{Name: row.name, Cells: row.cells})
	}
	return out
}
