// Package strategy works out what a controller does, day by day and zone by
// zone, before the soil is replayed.
//
// A strategy is a stack of small parts: programs, percentages, holds, a refill, a
// soil sensor. Each part runs once per replay and writes into the columns of a
// [Draft]; [Compiler.Compile] turns the draft into one [sim.Plan] per zone. A new
// part is one file and one line in [Kinds]. Its [Spec] defines how it is read,
// written, described and checked.
//
// # No peeking
//
// On the morning of day i a part can use weather up to day i−1 and nothing later.
// It sees the true depletion only through a sensor. A test changes the weather
// after day k and checks that nothing changes up to day k.
package strategy

import (
	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A Site is what all strategies in a replay share.
type Site struct {
	Zones   []sim.Zone
	Forcing [][]sim.Day // day records of each zone, days of the record
	Growth  []sim.Growth
	// Known is the day records of each zone whose coefficient follows temperature,
	// by the calendar's coefficient, as strategies know them; empty for others.
	Known    [][]sim.Day
	Calendar *sim.Calendar
	Weather  sim.Weather
	Limits   *Limits       // nil for none
	Wiring   *clock.Wiring // controllers and meters; nil for one controller, one zone at a time
	Forecast Forecast
	Units    quantity.System // of the texts of [Strategy.Describe]
	Spin     int             // spin-up days before the record: a repeat of its first Spin days
	// StartShare is the depletion before the first day of a plan, as a share of
	// TAW, for strategies with their own water balance.
	StartShare float64
}

// Days returns the number of days of a plan: spin-up and record.
func (s *Site) Days() int { return s.Spin + s.Weather.Days() }

// Source returns the day of the record that corresponds to day i of a plan.
func (s *Site) Source(i int) int {
	if i < s.Spin {
		return i
	}
	return i - s.Spin
}

// dayOf returns the true day record of zone z on day i of a plan, in a slice of one.
func (s *Site) dayOf(z, i int) []sim.Day {
	if i < s.Spin && z < len(s.Growth) && i < len(s.Growth[z].Head) {
		return s.Growth[z].Head[i : i+1]
	}
	k := s.Source(i)
	return s.Forcing[z][k : k+1]
}

// outside reports whether a range of dates is entirely outside the record; 0 means
// open-ended.
func (s *Site) outside(from, to cal.Date) bool {
	return to != 0 && to < s.Weather.Start || from != 0 && from >= s.Weather.Start+cal.Date(s.Weather.Days())
}

// date returns the date of day i of a plan.
func (s *Site) date(i int) cal.Date { return s.Weather.Start + cal.Date(s.Source(i)) }

// A Stage orders parts, regardless of their order in a scenario.
type Stage uint8

// The stages, in the order they are applied.
const (
	Permit Stage = iota // parts that hold watering: holds, season, suspensions
	Scale               // parts that scale run times
	Water               // parts that water: programs, refill, manual runs
	Sense               // parts that act during the replay: soil sensor
)

// A Part is one component of a strategy.
type Part interface {
	// Kind returns the kind of the part.
	Kind() Kind
	Stage() Stage
	// Apply writes the part's effect into the draft. It must not keep d.
	Apply(d *Draft)
}

// A Strategy is a name and a stack of parts. Without parts it never waters.
type Strategy struct {
	Name  string
	Parts []Part
	// Unbound is set if the site's rules do not bind the strategy: what they
	// forbid is applied and listed as a breach, as with [Limits.FlagOnly].
	Unbound bool
	Role    Role
	// Stretches are what its changes leave of the site's zones, by date; none if it
	// changes nothing.
	Stretches []Stretch
	// Terms say when each part is in force, parallel to Parts; none if all always are.
	// Their dates are those of the stretches.
	Terms []Term
}

// A Role is what a strategy stands for in a comparison.
type Role uint8

// The roles.
const (
	Option   Role = iota
	Baseline      // what ran, with which the others are compared
	Cut           // the baseline as the site's rules would cut it: shown beside it, never an option
)
