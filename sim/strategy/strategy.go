// Package strategy works out what a controller does, day by day and zone by
// zone, before the soil is replayed.
//
// A strategy is a stack of small parts: programs, percentages, skips, a
// refill, a soil sensor. Each part is asked once for a whole run and writes
// into columns of a [Draft]; [Compile] turns the draft into one [sim.Plan] a
// zone. A new part is one file and one line in [Kinds]: the file says what the
// part does and, in its [Spec], what it is to readers, sheets and searches.
//
// # No peeking
//
// On the morning of day i a part may use weather up to day i−1 and nothing
// later; it never sees the true depletion, but through a sensor. A test
// changes the weather after day k and finds nothing changed up to day k.
package strategy

import (
	"loamledger/sim"
	"loamledger/weather/cal"
)

// A Site is what all strategies of a replay share.
type Site struct {
	Zones    []sim.Zone
	Forcing  [][]sim.Day // day records of each zone, days of the record
	Calendar *sim.Calendar
	Weather  sim.Weather
	Limits   *Limits // nil for none
	Forecast Forecast
	Spin     int // spin-up days in front of the record: its first Spin days once more
	// StartShare is the depletion before the first day of a plan, as a share of
	// TAW, as far as a strategy with a balance of its own is told.
	StartShare float64
}

// Days returns the number of days of a plan: spin-up and record.
func (s *Site) Days() int { return s.Spin + s.Weather.Days() }

// Source returns the day of the record that day i of a plan repeats or is.
func (s *Site) Source(i int) int {
	if i < s.Spin {
		return i
	}
	return i - s.Spin
}

// outside reports whether days from one date to another all lie outside the
// record; 0 leaves an end open.
func (s *Site) outside(from, to cal.Date) bool {
	return to != 0 && to < s.Weather.Start || from != 0 && from >= s.Weather.Start+cal.Date(s.Weather.Days())
}

// Date returns the date of day i of a plan.
func (s *Site) Date(i int) cal.Date { return s.Weather.Start + cal.Date(s.Source(i)) }

// A Stage orders parts, whatever order a scenario lists them in.
type Stage uint8

// The stages, in the order they are applied.
const (
	Permit Stage = iota // parts that hold watering back: skips, suspensions
	Scale               // parts that change minutes by a factor
	Water               // parts that ask for water: programs, refill
	Sense               // parts that act in the loop: soil sensor
)

// A Part is one component of a strategy.
type Part interface {
	// Kind returns what the part is to everyone who handles strategies.
	Kind() Kind
	Stage() Stage
	// Apply writes the part's share into the draft. It must not keep d.
	Apply(d *Draft)
}

// A Strategy is a name and a stack of parts. The zero stack waters nothing.
type Strategy struct {
	Name  string
	Parts []Part
}
