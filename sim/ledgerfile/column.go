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
	Kind  Kind
	Float func(*Day) float64
	Int   func(*Day) int
	Bool  func(*Day) bool
	Text  func(*Day) string
	// Few marks a column with few distinct values, such as weather and settings:
	// Parquet stores them in a dictionary.
	Few bool
	// Term is the role of a depth in the balance of the day.
	Term Term
}

// Kind is the type of a column's values.
type Kind uint8

// The kinds, with their form in Parquet and in CSV.
const (
	Float       Kind = iota // DOUBLE; four decimals
	Int                     // INT32
	Bool                    // BOOLEAN; 1 for yes, 0 for no
	Text                    // STRING
	Date                    // DATE, from Int in days since 1970; 2006-01-02
	FloatOrNone             // optional DOUBLE, from Float with NaN for none; four decimals, or an empty cell
)

// Term is the role of a depth in the balance of a day: inflow less outflow equals
// the fall in depletion.
type Term int8

// The terms.
const (
	NoTerm Term = iota
	Enters
	Leaves
	Depletion // at the end of the day
)

// Headings returns the descriptions of columns.
func Headings(columns []DayColumn) []Column {
	out := make([]Column, len(columns))
	for i := range columns {
		out[i] = columns[i].Column
	}
	return out
}
