// Package replay runs every strategy of a site on every zone, the two
// reference strategies last, and hands back a [tally.Table]. It needs no
// ledger in memory: daily rows go, one zone under one strategy at a time, to a
// function.
package replay

import (
	"loamledger/sim"
	"loamledger/sim/strategy"
)

// A Job is one replay of a site.
type Job struct {
	Zones      []sim.Zone
	Weather    sim.Weather
	Strategies []strategy.Strategy
	// StartShare is the depletion at the start as a share of TAW, used when
	// NoSpinUp is set. Otherwise the first 365 days run once with the same
	// strategy, from a full root zone, before the record begins.
	NoSpinUp   bool
	StartShare float64
	Workers    int // goroutines; 0 and 1 mean one. Results do not depend on it.
}
