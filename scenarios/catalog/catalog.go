// Package catalog has the published default values for a scenario: soils,
// plants, sprinklers and curve numbers, each with its range, its source and a
// grade that says how far to trust it.
//
// # Units
//
// Depths and surface storage [mm], rates [mm/h], available water [mm/m], root
// depths [m], shares from 0 to 1. Figures published in inches are converted by
// exact factors; their sources give the published value.
//
// The grade Memory, "published table, from memory", means that the original was
// not available when the figure was entered, from memory; check it before claiming
// conformance.
package catalog

import (
	"loamledger/scenarios/names"
	"loamledger/weather/quantity"
)

// A Grade says how far to trust a figure.
type Grade = quantity.Grade

// The grades, best first. Given marks values from the user.
const (
	Given        = quantity.Given
	Measured     = quantity.Measured
	LocalTable   = quantity.LocalTable
	GeneralTable = quantity.GeneralTable
	Memory       = quantity.Memory
	Guess        = quantity.Guess
	Grades       = quantity.Grades
)

// A Figure is a number with its usual range, source and grade. Low and High are
// both 0 if no range is known.
type Figure struct {
	Value     float64
	Low, High float64
	Source    string
	Grade     Grade
}

// Known reports whether f has a value.
func (f Figure) Known() bool { return f.Source != "" }

const (
	inch     = quantity.InchMM
	inPerFt  = 1000.0 / 12 // in/ft in mm/m
	inchRoot = 0.0254      // m
)

// inches returns a figure printed in inches (or in/h) in mm (or mm/h).
func inches(v, low, high float64, g Grade, source string) Figure {
	return Figure{Value: v * inch, Low: low * inch, High: high * inch, Source: source, Grade: g}
}

// matches reports whether two names differ at most in case, spaces, punctuation
// and the form of accented letters.
func matches(a, b string) bool { return names.Key(a) == names.Key(b) }
