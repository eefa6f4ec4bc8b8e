// Package scenarios interprets a scenario: the site, its zones, its programs
// and the strategies to compare. It adds defaults from the catalog and checks
// every value against its range, so that package sim can trust the numbers.
//
// # Units
//
// A quantity is written with its unit and kept in the base unit of its
// dimension: m, mm, m², mm/h, L/min, minutes, shares of 1, °C. After this
// package, values are converted only for display.
//
// # Promises
//
// The package reads no file: packages such as yamlfile turn files into [Node]
// trees. All errors in a scenario are reported together, each with its
// position. Every value used, given or default, is recorded as an [Input].
package scenarios

import (
	"loamledger/scenarios/catalog"
	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Scenario is the complete, checked input of a replay.
type Scenario struct {
	File     string
	Site     Site
	Units    quantity.System // for printed output; files are always SI
	Weather  Weather
	Forecast *Forecast // nil for none
	// Controllers and Meters have at least one entry, whose name is empty if the
	// scenario lists none. Each zone has its index in both.
	Controllers []Controller
	Meters      []Meter
	Zones       []Zone
	Programs    []strategy.Program
	Strategies  []strategy.Strategy
	// Baseline is the index of the strategy that ran, with which the others are
	// compared; BaselineGiven is set if the scenario names it, else it is the
	// first.
	Baseline      int
	BaselineGiven bool
	Verdict       VerdictRule
	Limits        *strategy.Limits // nil if the scenario has none
	Money         *Money           // what water costs; nil if not stated
	Allowance     *Allowance       // the water that a rule allows; nil if not stated
	Prepared      *Prepared        // who made the report; nil if not stated
	Decision      *Decision        // who decides on it, and by when; nil if not stated
	Timer         *timer.Profile   // what the timer can be set to; nil if not stated
	// NoSpinUp is set if the scenario gives the depletion at the start,
	// StartShare of TAW in every zone; otherwise a spin-up pass finds it.
	NoSpinUp   bool
	StartShare float64
	// Inputs lists every value the replay uses, in the order it was read.
	Inputs []Input
	// ZoneValues lists the parameters of each zone as understood, in the order
	// of [ZoneParams].
	ZoneValues [][]ZoneValue
	// Stacks lists the parts of each strategy, with their parameters as read.
	Stacks []Stack
	// Canonical is the scenario as understood: what was given, in base units,
	// and every parameter of every zone. [Build] makes the same scenario from
	// it.
	Canonical *Node
	Ranges    Ranges
	// Doubts are the numbers that are not exactly known, in the order they were read. One
	// of a changed zone may be listed several times.
	Doubts []Doubt
	again  func(pick func(*Doubt) float64) (*Scenario, error) // builds the scenario once more

	// Warnings lists values that are valid but probably mistakes.
	Warnings []Warning
}

// A Site is the location. Unknown numbers are NaN.
type Site struct {
	Name   string
	LatDeg float64 // decimal degrees, south negative
	LonDeg float64 // decimal degrees, west negative
	ElevM  float64
}

// A File is a file name as written, and its position.
type File struct {
	Name string
	Pos  diag.Pos
}

// Weather names the weather files and gives what they do not state.
type Weather struct {
	Files       []File     // one record each, or parts of one
	RainFile    *File      // a nearer rain gauge that replaces the rain; nil for none
	FillFiles   []File     // second stations that fill gaps, first choice first
	WindHeightM float64    // height of the anemometer; NaN if not stated
	Layout      string     // name of the layout to use; empty to detect it
	Units       string     // "", "si", "us" or "tenths": for layouts that state no units
	Station     string     // id or name of the station to read; empty if there is only one
	Dates       cal.Period // days of the record to use
	Pos         diag.Pos   // of the group of keys
	WeatherRules
}

// A Zone has the numbers of a zone and their origin.
type Zone struct {
	sim.Zone
	Pos diag.Pos
	// Controller and Meter are indexes of the scenario's lists; the names are empty if
	// it has none.
	Controller, Meter         int
	ControllerName, MeterName string
	Plant                     string        // name in the catalog, or "custom"
	PlantGroup                catalog.Group // kind of plants; NoGroup for a custom plant without one
	Soil                      string        // name in the catalog, or "custom"
	Sprinkler                 string        // kind in the catalog
	Cover                     string        // ground cover of the curve number; empty if the number was given without one
	Coefficients              string        // coefficient set of K, or "custom"
	PlantK                    [12]float64   // K before density and microclimate
	PlantSeason               PlantSeason
	// OverseedPlant is the plant of the catalog sown for part of the year; empty for
	// none.
	OverseedPlant string
	Density       float64
	Microclimate  float64
	RootDepthM    float64
	AWCMMPerM     float64
	SlopeShare    float64
	Group         byte    // hydrologic soil group 'A' to 'D'; 0 if the curve number was given without one
	FlowLMin      float64 // stated, of all emitters, or the rate times the area
	// Emitters and EmitterLMin are the number of drip emitters and the flow of each
	// [L/min]; 0 where the scenario does not give them.
	Emitters, EmitterLMin float64
}

// A Stack lists the parts of a strategy.
type Stack struct {
	Name  string
	Parts []StackPart
	// Changes are what the strategy changes in zones, in order, and Effects what each
	// of them does alone, and all up to it.
	Changes []Change
	Effects []Effect
	// Stages are its zones from each date on, parallel to the stretches of the
	// strategy; none without changes.
	Stages []Stage
	// Bare are the stretches of the strategy without its changes; none unless parts
	// have dates.
	Bare []strategy.Stretch
}

// A StackPart is a part of a strategy: the key of its kind, such as "hold.rain",
// and its parameters, given and default, as inputs.
type StackPart struct {
	Key    string
	Inputs []Input
}

// Custom is the name of plants and soils that are given by numbers.
const Custom = "custom"

// SimZones returns the zones in the form the engine needs.
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
