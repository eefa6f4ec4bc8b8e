package ledgerfile

import (
	"fmt"
	"io"
	"strconv"

	"loamledger/sim/tally"
)

// TallyColumns returns the columns of the tally, in order: the columns that
// identify a line, and the measures of a zone.
func TallyColumns(measures []tally.Measure) []Column {
	columns := []Column{
		{"strategy", "", "name of the strategy"},
		{"zone", "", "name of the zone"},
		{"year", "", "calendar year, or in the southern hemisphere the year in which a year from July to June begins"},
	}
	for _, m := range inTally(measures) {
		columns = append(columns, Column{m.Key, m.Kind.Unit(), m.About})
	}
	return columns
}

func inTally(measures []tally.Measure) []*tally.Measure {
	var in []*tally.Measure
	for i := range measures {
		if measures[i].IsIn(tally.InTally) {
			in = append(in, &measures[i])
		}
	}
	return in
}

// pieceBytes is about how much of a tally is written at a time.
const pieceBytes = 1 << 16

// WriteTally writes the measures of a replay as CSV, rounded as in the ledger:
// a line for each strategy, zone and year, in the order of the table,
// with the columns of [TallyColumns].
func WriteTally(w io.Writer, t *tally.Table, measures []tally.Measure) error {
	b := appendHeader(nil, TallyColumns(measures))
	in := inTally(measures)
	years, _ := t.Years()
	for s := range t.Strategies {
		for z := range t.Zones {
			names := quoted(t.Strategies[s]) + "," + quoted(t.Zones[z].Name) + ","
			for _, y := range years {
				b = strconv.AppendInt(append(b, names...), int64(y), 10)
				cell := t.Cell(s, z, y)
				for _, m := range in {
					b = append(b, ',')
					v, given := m.Of(&cell)
					if !given {
						continue
					}
					if !finite(v) {
						return fmt.Errorf("tally: strategy %q, zone %q, %d: %s is %g, not a finite number",
							t.Strategies[s], t.Zones[z].Name, y, m.Key, v)
					}
					b = appendFixed(b, v)
				}
				b = append(b, '\n')
			}
			if len(b) >= pieceBytes {
				if _, err := w.Write(b); err != nil {
					return err
				}
				b = b[:0]
			}
		}
	}
	_, err := w.Write(b)
	return err
}
