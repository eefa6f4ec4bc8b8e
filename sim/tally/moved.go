package tally

import (
	"slices"

	"loamledger/sim"
)

// MovedStress is the stress of one zone under one strategy by moved marks of the
// plants.
type MovedStress struct {
	record sim.Stress   // excluded years left out
	Years  []sim.Stress // the years of the record in order, excluded ones too
}

// Add adds the stress of span i of the table.
func (m *MovedStress) Add(t *Table, i int, stress sim.Stress) {
	if t.Counts(t.Spans[i].Year) {
		m.record.Add(&stress)
	}
	m.Years[t.YearOf(&t.Spans[i])-t.YearOf(&t.Spans[0])].Add(&stress)
}

// WithMarks returns the result with the marks of every plant moved by a shift:
// sums of a year and of the record have the stress days by those marks, and all
// else is that of t, months too. It shares the memory of t. shift must be 0 or one
// of the table's MarkShifts.
func (t *Table) WithMarks(shift float64) *Table {
	other := *t
	if other.moved = slices.Index(t.MarkShifts, shift) + 1; other.moved == 0 && shift != 0 {
		panic("tally: stress is not counted with marks moved by this shift")
	}
	return &other
}
