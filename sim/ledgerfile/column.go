package ledgerfile

import "loamledger/sim/replay"

// A Column describes one column of a file: its name, its unit ("" for text,
// dates and plain numbers) and what it holds.
type Column struct {
	Key, Unit, About string
}

// A Day is what a column of the ledger is taken from: a row, and the sheet it
// is a day of.
type Day struct {
	replay.Row
	Sheet *replay.Sheet
	Index int // of the day in the sheet
}

// A DayColumn is a column of the ledger. Of the four functions it has the one
// that its kind asks for. [Columns] lists them; an entry there puts a column
// into the CSV, the Parquet, the reader and the check.
type DayColumn struct {
	Column
	Kind  Kind
	Float func(*Day) float64
	Int   func(*Day) int
	Bool  func(*Day) bool
	Text  func(*Day) string
	// Few marks a column whose values recur, as those of weather and of settings
	// do: Parquet keeps a dictionary of them.
	Few bool
	// Term is the place of a depth in the balance of the day.
	Term Term
}

// Kind is the type of a column's values.
type Kind uint8

// The kinds, with what they are in Parquet and in CSV.
const (
	Float Kind = iota // DOUBLE; four decimals
	Int               // INT32
	Bool              // BOOLEAN; 1 for yes, 0 for no
	Text              // STRING
	Date              // DATE, from Int in days since 1970; 2006-01-02
)

// Term is the place of a depth in the balance of a day: what enters less what
// leaves is what the depletion falls by.
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
