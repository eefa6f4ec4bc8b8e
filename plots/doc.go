// Package plots turns the results of a replay into charts and a report, as
// data: no picture is drawn and no page is written here.
//
// # Units
//
// Results come in as depth [mm], volume [m³] and area [m²]. A [Chart] and a
// [Report] hold what people see: the numbers of a chart's axes are already in
// the unit named beside them, which [Units] decides.
//
// # Promises
//
// Within one chart every panel has the same scale. Nothing is told by hue
// alone: series differ by dash, hatch, lightness or place, so that a chart
// survives a grey printer and any colour vision. Every figure that compares
// strategies carries the words of [Estimated].
package plots

// Estimated is the label that stands wherever water saved or used is shown:
// the figures are calculated ahead of the change, not measured after it.
const Estimated = "Estimated (ex-ante)"
