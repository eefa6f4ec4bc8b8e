package ledgerfile

import (
	"fmt"
	"math"
)

// noNumber returns the error for a column whose value on day d is not finite.
func noNumber(c *DayColumn, d *Day) error {
	return fmt.Errorf("ledger: strategy %q, zone %q, %v: %s is %g, not a finite number; this day was not written",
		d.Strategy, d.Zone, d.Date, c.Key, c.Float(d))
}

// firstNoNumber returns the error for the first day on which column c is not finite.
func firstNoNumber(c *DayColumn, days []Day) error {
	for i := range days {
		if !finite(c.Float(&days[i])) {
			return noNumber(c, &days[i])
		}
	}
	return nil
}

// Imbalance returns the largest daily error of the balance [mm], from the second
// day of each strategy and zone on: inflow less outflow must equal the fall in
// depletion. It needs the columns strategy and zone, and those with a [Term].
func (l *Ledger) Imbalance() float64 {
	strategies, zones := l.Texts("strategy"), l.Texts("zone")
	worst := 0.0
	for i := 1; i < l.Rows; i++ {
		if strategies[i] != strategies[i-1] || zones[i] != zones[i-1] {
			continue
		}
		off := 0.0
		for k := range l.columns {
			v := l.numbers[k]
			switch l.columns[k].Term {
			case Enters:
				off += v[i]
			case Leaves:
				off -= v[i]
			case Depletion:
				off += v[i] - v[i-1]
			}
		}
		worst = max(worst, math.Abs(off))
	}
	return worst
}
