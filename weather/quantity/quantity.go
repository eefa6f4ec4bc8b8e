// Package quantity knows the physical quantities of the trade, the units a
// person may write them in and the units they are shown in. Inside the
// program every quantity has one unit, the base unit of its [Dimension].
package quantity

// A Dimension is a kind of quantity; its base unit is the one used inside.
type Dimension uint8

// The dimensions, with their base units.
const (
	Length      Dimension = iota // m: elevation, root depth, distance, wind height
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
