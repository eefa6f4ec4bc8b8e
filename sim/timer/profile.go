// Package timer describes what an irrigation timer can be set to, and lists what
// of a set of programs does not fit one.
//
// A profile limits settings, not water: it says how many programs and start times
// a timer has, in which steps its percentage moves, how short a run can be, and
// whether it splits runs into cycles with soaks. Package settings finds the nearest
// settings that fit.
package timer

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/weather/quantity"
)

// A Profile is what a timer can be set to.
type Profile struct {
	Name        string  // of a ready profile; empty for one described by its values
	Programs    int     // number of programs, 1 to 24
	Starts      int     // start times of each program, 1 to 24
	PercentStep float64 // step of the percentage, a share that divides 1: 0.01 to 0.5
	MinMinutes  float64 // shortest run time that can be entered, whole minutes, 1 to 60 [min]
	Cycle       bool    // splits runs into cycles with soaks between them
}

// Limits of the values of a profile.
const (
	MaxPrograms   = 24
	MaxStarts     = 24
	MaxMinMinutes = 60
)

// Source is the source of the values of the ready profiles.
const Source = "timers in common use, from memory; check yours"

// Plain and WithCycle are the names of the ready profiles.
const (
	Plain     = "plain"
	WithCycle = "with cycle and soak"
)

// Ready returns the ready profiles. The slice is the caller's.
func Ready() []Profile {
	return []Profile{
		{Name: Plain, Programs: 3, Starts: 4, PercentStep: 0.1, MinMinutes: 1},
		{Name: WithCycle, Programs: 4, Starts: 4, PercentStep: 0.05, MinMinutes: 1, Cycle: true},
	}
}

// Named returns the ready profile of a name, without regard to case.
func Named(name string) (Profile, bool) {
	all := Ready()
	i := slices.IndexFunc(all, func(p Profile) bool { return strings.EqualFold(p.Name, strings.TrimSpace(name)) })
	if i < 0 {
		return Profile{}, false
	}
	return all[i], true
}

// Steps lists the allowed steps of the percentage [%]: those that divide 100.
func Steps() []int { return []int{1, 2, 5, 10, 20, 25, 50} }

// String describes the profile in one line.
func (p *Profile) String() string {
	cycle := "no cycle and soak"
	if p.Cycle {
		cycle = "cycle and soak"
	}
	text := fmt.Sprintf("%s, %s each, percentages in steps of %.0f%%, runs of at least %.0f min, %s",
		quantity.Count(p.Programs, "program", "programs"),
		quantity.Count(p.Starts, "start time", "start times"), 100*p.PercentStep, p.MinMinutes, cycle)
	if p.Name != "" {
		return p.Name + ": " + text
	}
	return text
}

// Unstated says what a settings sheet assumes if no timer is stated.
func Unstated(percentStep float64) string {
	return fmt.Sprintf("not stated, so nothing is refused: any number of programs and start times, cycle and soak, percentages in steps of "+
		"%.0f%%, runs of whole minutes", 100*percentStep)
}

// onStep reports whether a share is a multiple of the profile's step.
func (p *Profile) onStep(share float64) bool {
	n := share / p.PercentStep
	return math.Abs(n-math.Round(n)) < 1e-6
}
