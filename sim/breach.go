package sim

import "loamledger/weather/cal"

// A Breach is a watering requested by a strategy that a rule of the site forbids,
// for one zone and day.
type Breach struct {
	Date    cal.Date
	Zone    int     // index of the zone
	Rule    string  // the rule in words
	Minutes float64 // minutes omitted, or applied anyway and flagged
}
