// Package plots turns the results of a replay into charts and a report, as
// data; it draws no picture and writes no page.
//
// # Units
//
// Results arrive as depth [mm], volume [m³] and area [m²]. A [Chart] and a
// [Report] hold what people see: numbers on axes are already in the unit named
// beside them, which [Units] selects.
//
// # Promises
//
// All panels of a chart have the same scale. Hue never carries meaning alone:
// series differ by dash, hatch, lightness or position, so a chart works on a gray
// printer and for any color vision. Every figure that compares strategies has the
// label [Estimated].
package plots

// Estimated is the label of all water saved or used: the values are calculated
// before any change, not measured after it.
const Estimated = "Estimated, not measured"
