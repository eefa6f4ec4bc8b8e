package plots

// A Table is cells as text, a name before each row.
type Table struct {
	Caption string
	First   string   // above the names
	Head    []string // above the cells, with the unit in parentheses
	Beside  []string // what the small print beside the cells counts; as in a row
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

// SmallPrint returns what the small print beside cell i of each row counts; empty for
// none.
func (t *Table) SmallPrint(i int) string { return textAt(t.Beside, i) }

// Columns returns the number of columns, that of the names included.
func (t *Table) Columns() int { return len(t.Head) + 1 }

// A TableRow is one strategy or zone.
type TableRow struct {
	Name      string
	Note      string // what is special about it
	About     string // what the strategy does, in plain words
	Reference bool
	Named     bool // the verdict is about it
	Cells     []string
	Spread    []string // how far each cell may be off; none without draws
	Beside    []string // in small print beside the cells; shorter if the last ones have none, and empty for none
}

// SmallPrint returns what stands in small print beside cell i; empty for nothing.
func (r TableRow) SmallPrint(i int) string { return textAt(r.Beside, i) }

// SpreadOf returns how far cell i may be off; empty for nothing.
func (r TableRow) SpreadOf(i int) string { return textAt(r.Spread, i) }

// textAt returns text i; empty if there are fewer.
func textAt(texts []string, i int) string {
	if i >= len(texts) {
		return ""
	}
	return texts[i]
}
