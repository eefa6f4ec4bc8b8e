package ledgerfile

import (
	"fmt"
	"io"
	"strconv"

	"loamledger/sim/tally"
)

// placeColumns returns the last columns of the tally of a site that names its controllers
// or meters.
func placeColumns() []Column {
	return []Column{{"controller", "", "controller of the zone"}, {"meter", "", "water meter of the zone"}}
}

// tallyColumns returns the columns of the tally, in order: the columns that
// identify a line, and the measures of a zone. Two columns, controller and meter, follow if
// the site names any.
func tallyColumns(measures []tally.Measure) []Column {
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
// with the columns of [tallyColumns]. places has the controller and the meter of each zone;
// nil if the site names none.
func WriteTally(w io.Writer, t *tally.Table, measures []tally.Measure, places [][2]string) error {
	columns := tallyColumns(measures)
	if places != nil {
		columns = append(columns, placeColumns()...)
	}
	b := appendHeader(nil, columns)
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
				if places != nil {
					b = append(b, ","+quoted(places[z][0])+","+quoted(places[z][1])...)
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
