package ledgerfile

import "loamledger/sim/replay"

// A Column describes one column of a file: its name, its unit ("" for text,
// dates and plain numbers) and its meaning.
type Column struct {
	Key, Unit, About string
}

// A Day is the source of a ledger line: a row, and its sheet.
type Day struct {
	replay.Row
	Sheet *replay.Sheet
	Index int // of the day in the sheet
}

// A DayColumn is a column of the ledger. It has the one function of the four that
// its kind needs. An entry in [Columns] adds a column to the CSV, the Parquet, the
// reader and the check.
type DayColumn struct {
	Column
	kind  kind
	Float func(*Day) float64
	int   func(*Day) int
	bool  func(*Day) bool
	text  func(*Day) string
	// few marks a column with few distinct values, such as weather and settings:
	// Parquet stores them in a dictionary.
	few bool
	// term is the role of a depth in the balance of the day.
	term term
}

// kind is the type of a column's values.
type kind uint8

// The kinds, with their form in Parquet and in CSV.
const (
	kindFloat       kind = iota // DOUBLE; four decimals
	kindInt                     // INT32
	kindBool                    // BOOLEAN; 1 for yes, 0 for no
	kindText                    // STRING
	kindDate                    // DATE, from Int in days since 1970; 2006-01-02
	kindFloatOrNone             // optional DOUBLE, from Float with NaN for none; four decimals, or an empty cell
)

// term is the role of a depth in the balance of a day: inflow less outflow equals
// the fall in depletion.
type term int8

// The terms.
const (
	noTerm term = iota
	enters
	leaves
	depletion // at the end of the day
)

// headings returns the descriptions of columns.
func headings(columns []DayColumn) []Column {
	out := make([]Column, len(columns))
	for i := range columns {
		out[i] = columns[i].Column
	}
	return out
}
