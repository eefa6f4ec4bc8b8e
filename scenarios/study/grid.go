package study

import "fmt"

// A Grid is a table in words, to be set on a screen or a page.
type Grid struct {
	Head    []string // a line break in it is one of the column's head
	Rows    [][]string
	Rule    int // a line is drawn below so many rows; 0 for none
	Columns []GridColumn
}

// A GridColumn says how a column is set; columns without one are to the left.
type GridColumn struct {
	Right     bool // to the right, as numbers are
	Width     int  // most letters in a line, beyond which words go on below; 0 for no limit
	HeadWidth int  // most letters in a line of the head; 0 for no limit
}

// toTheRight returns n columns, from the given one on to the right.
func toTheRight(from, n int) []GridColumn {
	columns := make([]GridColumn, n)
	for i := from; i < n; i++ {
		columns[i].Right = true
	}
	return columns
}

// add adds a row; whole numbers and words are written as they are.
func (g *Grid) add(cells ...any) {
	row := make([]string, len(cells))
	for i, c := range cells {
		row[i] = fmt.Sprint(c)
	}
	g.Rows = append(g.Rows, row)
}
