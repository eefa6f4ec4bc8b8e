package catalog

import (
	"slices"
	"strings"

	"loamledger/scenarios/names"
)

// The coefficient sets. They differ by 20 to 40% for the same plant, so a
// result always names the set it used.
const (
	S623  = "S623"   // annual plant factors of ANSI/ASABE S623
	FAO56 = "FAO-56" // single crop coefficients of FAO-56 table 12, mid season
	UC    = "UC"     // monthly turf coefficients of the University of California
	LCM   = "LCM"    // species factors of the landscape coefficient method

	Arizona = "Arizona" // University of Arizona, turf in the low desert
	Florida = "Florida" // measured in central Florida
)

// Sets returns the names of the coefficient sets.
func Sets() []string { return []string{S623, FAO56, UC, LCM, Arizona, Florida} }

// A Coefficient is a plant's coefficient in one set.
type Coefficient struct {
	Set       string
	K         [12]float64 // by calendar month
	Stages    [3]float64  // initial, mid and end of the season; all 0 where not published
	Low, High float64     // range over plantings; both 0 where unknown
	Source    string
	Grade     Grade
}

// A Plant is a kind of planting of the catalog.
type Plant struct {
	Name         string
	Aliases      []string // what else people type; a name that several plants share could mean any of them
	Group        Group
	Coefficients []Coefficient // the first is the default
	P            Figure        // stress fraction at ETc 5 mm/d
	RootDepth    Figure        // [m]
	// Ka and Kd are the coefficients in full growth and at rest, T0C and T1C the
	// 30-day mean temperatures [°C] between which the first takes over from the
	// second. Without Ka the coefficient is constant, for the reason in Constant.
	Ka, Kd, T0C, T1C Figure
	Constant         string
	// Tolerance and Browning are the shares of the last seven days' need below
	// which the plant is stressed and turns brown.
	Tolerance, Browning Figure
	Cover               string // ground cover for the curve number
	Watering            string // its row of [Waterings]
	Note                string // what else is known; empty for most
}

// Seasonal reports whether the plant's coefficient follows the season.
func (p *Plant) Seasonal() bool { return p.Ka.Known() }

// CoverGuess is the source of a plant's ground cover.
const CoverGuess = "closest match; our choice"

// Coefficient returns the plant's coefficient in the given set.
func (p *Plant) Coefficient(set string) (Coefficient, bool) {
	for _, c := range p.Coefficients {
		if matches(set, c.Set) {
			return c, true
		}
	}
	return Coefficient{}, false
}

// SetNames returns the sets in which the plant has a coefficient.
func (p *Plant) SetNames() []string {
	return namesOf(p.Coefficients, func(c Coefficient) string { return c.Set })
}

func every(k float64) (m [12]float64) {
	for i := range m {
		m[i] = k
	}
	return m
}

var plants = append(turfs(), beds()...)

// Plants returns the plantings. The slice is the caller's.
func Plants() []Plant { return append([]Plant(nil), plants...) }

// FindPlants returns the plantings that a name can mean; one, if it is clear.
// Turf may be called by its grass with lawn, turf or sod after it.
func FindPlants(name string) []Plant {
	called := func(p Plant) (string, []string) { return p.Name, p.Aliases }
	if found := findAll(plants, name, called); len(found) > 0 {
		return found
	}
	words := names.Words(name)
	if n := len(words) - 1; n > 0 && slices.Contains([]string{"lawn", "turf", "sod"}, words[n]) {
		found := findAll(plants, strings.Join(words[:n], " "), called)
		return slices.DeleteFunc(found, func(p Plant) bool { return !p.Group.Turf() })
	}
	return nil
}

// FindPlant returns the planting of the given name, unless it can mean several.
func FindPlant(name string) (Plant, bool) { return only(FindPlants(name)) }

// PlantNames returns the names of the plantings.
func PlantNames() []string { return namesOf(plants, func(p Plant) string { return p.Name }) }

// DefaultDensity is the density factor of a zone without one.
func DefaultDensity() Figure {
	return Figure{Value: 1, Low: 0.5, High: 1.3, Grade: Memory,
		Source: "Costello and Jones (2000): average planting 1, sparse 0.5 to 0.9, dense 1.1 to 1.3"}
}

// DefaultMicroclimate is the microclimate factor of a zone without one.
func DefaultMicroclimate() Figure {
	return Figure{Value: 1, Low: 0.5, High: 1.4, Grade: Memory,
		Source: "Costello and Jones (2000): average 1, shaded 0.5 to 0.9, exposed 1.1 to 1.4"}
}

// DefaultP is the stress fraction of a custom plant without one.
func DefaultP() Figure {
	return Figure{Value: 0.50, Low: 0.30, High: 0.70, Grade: Guess, Source: "middle of FAO-56 table 22; our choice"}
}
