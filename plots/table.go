package plots

// A Table is cells as text, a name before each row.
type Table struct {
	Caption string
	First   string   // above the names
	Head    []string // above the cells, with the unit in parentheses
	Minor   []bool   // cells that a narrow screen hides
	Words   []bool   // cells of words, not numbers
	Rows    []TableRow
	Omitted int // rows that a page has no room for
}

// IsMinor reports whether a narrow screen hides cell i.
func (t *Table) IsMinor(i int) bool { return i < len(t.Minor) && t.Minor[i] }

// IsWords reports whether cell i has words, which line up at their beginning.
func (t *Table) IsWords(i int) bool { return i < len(t.Words) && t.Words[i] }

// CellClass returns the style of cell i; empty for none.
func (t *Table) CellClass(i int) string {
	switch {
	case t.IsMinor(i):
		return "minor"
	case t.IsWords(i):
		return "left"
	}
	return ""
}

// Columns returns the number of columns, that of the names included.
func (t *Table) Columns() int { return len(t.Head) + 1 }

// A TableRow is one strategy or zone.
type TableRow struct {
	Name      string
	Note      string // what is special about it
	About     string // what the strategy does, in plain words
	Fails     string // what keeps it from being recommended; empty for nothing
	Reference bool
	Named     bool // the verdict is about it
	Cells     []string
	Spread    []string // how far each cell may be off; none without draws
	Spreads   string   // what Spread says, below the name; empty for nothing
}

// Below is the text below the row, across all columns; empty for none.
func (r TableRow) Below() string { return sentences(r.About, r.Fails) }

// SpreadOf returns how far cell i may be off; empty for nothing.
func (r TableRow) SpreadOf(i int) string { return textAt(r.Spread, i) }

// textAt returns text i; empty if there are fewer.
func textAt(texts []string, i int) string {
	if i >= len(texts) {
		return ""
	}
	return texts[i]
}
