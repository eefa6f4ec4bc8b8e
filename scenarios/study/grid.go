package study

import "fmt"

// A Grid is a table of texts for a screen or a page.
type Grid struct {
	Head    []string // may contain line breaks
	Rows    [][]string
	Rule    int // number of rows above a line; 0 for no line
	Columns []GridColumn
}

// A GridColumn says how a column is set; columns without one are aligned left.
type GridColumn struct {
	Right     bool // aligned right, as numbers are
	Width     int  // maximum characters per line, after which words wrap; 0 for no limit
	HeadWidth int  // maximum characters per line of the heading; 0 for no limit
}

// toTheRight returns n columns, aligned right from the given one on.
func toTheRight(from, n int) []GridColumn {
	columns := make([]GridColumn, n)
	for i := from; i < n; i++ {
		columns[i].Right = true
	}
	return columns
}

// add adds a row; cells are written by fmt.Sprint.
func (g *Grid) add(cells ...any) {
	row := make([]string, len(cells))
	for i, c := range cells {
		row[i] = fmt.Sprint(c)
	}
	g.Rows = append(g.Rows, row)
}
