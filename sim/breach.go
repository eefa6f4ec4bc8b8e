package sim

import "loamledger/weather/cal"

// A Breach is one thing a strategy wanted on one day that a rule of the site
// forbids.
type Breach struct {
	Date    cal.Date
	Zone    int     // index of the zone
	Rule    string  // the rule in words
	Minutes float64 // minutes left out, or applied all the same and flagged
}
