// Package catalogue holds the published figures a scenario falls back on:
// soils, plants, sprinklers and curve numbers, each with its range, its source
// and a grade that says how far to trust it.
//
// # Units
//
// Depths and surface storage [mm], rates [mm/h], available water [mm/m],
// root depths [m], shares from 0 to 1. Figures printed in inches are converted
// by exact factors; their sources say what was printed.
//
// "From memory" in a source means that the original was not at hand when the
// figure was written down; check it before claiming conformance.
package catalogue

import (
	"strings"

	"loamledger/weather/quantity"
)

// A Grade says how far a figure can be trusted.
type Grade = quantity.Grade

// The grades, best first. Given is for what the user states.
const (
	Given        = quantity.Given
	Measured     = quantity.Measured
	LocalTable   = quantity.LocalTable
	GeneralTable = quantity.GeneralTable
	Memory       = quantity.Memory
	Guess        = quantity.Guess
	Grades       = quantity.Grades
)

// A Figure is a number with what is known about it. Low and High are the range
// in which it is usually found; both are 0 where no range is known.
type Figure struct {
	Value     float64
	Low, High float64
	Source    string
	Grade     Grade
}

// Known reports whether there is a figure at all.
func (f Figure) Known() bool { return f.Source != "" }

const (
	inch     = quantity.InchMM
	inPerFt  = 1000.0 / 12 // in/ft in mm/m
	inPerIn  = 1000.0      // in/in in mm/m
	inchRoot = 0.0254      // m
)

// inches returns a figure printed in inches (or in/h) in mm (or mm/h).
func inches(v, low, high float64, g Grade, source string) Figure {
	return Figure{Value: v * inch, Low: low * inch, High: high * inch, Source: source, Grade: g}
}

// matches reports whether name is one of the given names, without regard to
// case, hyphens and runs of blanks.
func matches(name string, names ...string) bool {
	n := plain(name)
	for _, s := range names {
		if plain(s) == n {
			return true
		}
	}
	return false
}

func plain(s string) string {
	return strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(s, "-", " "))), " ")
}
