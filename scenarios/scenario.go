// Package scenarios gives meaning to what a user writes: the site, its zones,
// its programs and the strategies to compare. It fills in defaults from the
// catalogue, checks every value against its range and hands on numbers that
// package sim can trust.
//
// # Units
//
// A quantity is written with its unit and kept in the base unit of its
// dimension: m, mm, m², mm/h, L/min, minutes, shares of 1, °C. Nothing past
// this package converts but for showing.
//
// # Promises
//
// The package reads no file: file formats are read by its edge packages into
// [Node] trees. All faults of a scenario are reported together, each with its
// place. Every value used, given or default, is recorded as an [Input].
package scenarios

import (
	"loamledger/scenarios/catalogue"
	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Scenario is everything a replay is told, resolved and checked.
type Scenario struct {
	File       string
	Site       Site
	Units      quantity.System // what is printed; files are always SI
	Weather    Weather
	Forecast   *Forecast // nil for none
	Zones      []Zone
	Programs   []strategy.Program
	Strategies []strategy.Strategy
	Limits     *strategy.Limits // nil where the scenario states none
	// NoSpinUp is set when the scenario states the depletion at the start,
	// StartShare of TAW in every zone; otherwise a spin-up pass finds it.
	NoSpinUp   bool
	StartShare float64
	// Inputs lists every value the replay uses, in the order it was read.
	Inputs []Input
	// ZoneValues lists the parameters of each zone as understood, in the order
	// of [ZoneParams].
	ZoneValues [][]ZoneValue
	// Stacks names the parts of each strategy, with their parameters as read.
	Stacks []Stack
	// Canonical is the scenario as understood: what was given, in base units,
	// and every parameter of every zone. [Build] makes the same scenario of it.
	Canonical *Node
	// Warnings are what can be meant and is more often a slip.
	Warnings []Warning
}

// A Site is the place. Unknown numbers are NaN.
type Site struct {
	Name   string
	LatDeg float64 // decimal degrees, south negative
	LonDeg float64 // decimal degrees, west negative
	ElevM  float64
}

// A File is the name of a file as written, and where that was.
type File struct {
	Name string
	Pos  diag.Pos
}

// Weather says where the weather is and what its files do not state.
type Weather struct {
	Files       []File     // one record each, or parts of one
	RainFile    *File      // a nearer rain gauge that replaces the rain; nil for none
	FillFiles   []File     // second stations that fill gaps, first choice first
	WindHeightM float64    // height of the anemometer; NaN where not stated
	Layout      string     // name of a layout to force; empty to recognise it
	Units       string     // "", "si", "us" or "tenths": for layouts that state none
	Station     string     // id or name of the station to read; empty where there is one
	Dates       cal.Period // days to use, of those the record has
	Pos         diag.Pos   // of the whole
	WeatherRules
}

// A Zone is a zone's numbers and where they came from.
type Zone struct {
	sim.Zone
	Pos          diag.Pos
	Plant        string          // name in the catalogue, or "custom"
	PlantGroup   catalogue.Group // kind of plants; NoGroup where a plant of one's own gives none
	Soil         string          // name in the catalogue, or "custom"
	Sprinkler    string          // kind in the catalogue
	Cover        string          // ground cover of the curve number; empty where the number was given without it
	Coefficients string          // coefficient set of K, or "custom"
	PlantK       [12]float64     // K before density and microclimate
	Density      float64
	Microclimate float64
	RootDepthM   float64
	AWCMMPerM    float64
	SlopeShare   float64
	Group        byte    // hydrologic soil group 'A' to 'D'; 0 where the curve number was given without it
	FlowLMin     float64 // stated, or the rate times the area
}

// A Stack is a strategy by the names of its parts.
type Stack struct {
	Name  string
	Parts []StackPart
}

// A StackPart is a part of a strategy: the key of its kind, such as "hold.rain",
// and its parameters, given and default, as inputs.
type StackPart struct {
	Key    string
	Inputs []Input
}

// Custom stands for the name of what was given by numbers.
const Custom = "custom"

// SimZones returns the zones as the engine wants them.
func (sc *Scenario) SimZones() []sim.Zone {
	out := make([]sim.Zone, len(sc.Zones))
	for i := range sc.Zones {
		out[i] = sc.Zones[i].Zone
	}
	return out
}

// StrategyIndex returns the index of the strategy of the given name, -1 for none.
func (sc *Scenario) StrategyIndex(name string) int {
	for i := range sc.Strategies {
		if sc.Strategies[i].Name == name {
			return i
		}
	}
	return -1
}
