// Package quantity defines the physical quantities of irrigation, the units a
// user may write and the units they are shown in. Inside loamledger every
// quantity has one unit, the base unit of its [Dimension].
package quantity

// A Dimension is a kind of quantity; its base unit is the one used internally.
type Dimension uint8

// The dimensions, with their base units.
const (
	Length      Dimension = iota // m: elevation, root depth, distance, anemometer height
	Depth                        // mm: water over an area
	Area                         // m²
	Volume                       // m³
	Rate                         // mm/h: precipitation and intake rates
	Flow                         // L/min
	Duration                     // min: run times, cycles, soaks
	Days                         // d: spans of whole days
	Fraction                     // 1: shares and percentages
	Temperature                  // °C
	Speed                        // m/s
	Capacity                     // mm/m: available water per depth of soil
	Dimensions                   // how many dimensions there are
)
