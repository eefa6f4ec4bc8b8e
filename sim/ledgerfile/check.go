package ledgerfile

import "fmt"

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
