// Package forecast holds weather forecasts with the day each was issued, so
// that a replay knows on any morning only what was known then; makes imperfect
// ones with a stated skill from a record; and scores forecasts against what
// came.
//
// # Units
//
// mm, %, °C. Unknown values are NaN.
//
// # Words
//
// Lead is the number of days from the day of issue to the day that is
// forecast: what is issued this evening for tomorrow has lead 1. An event is a
// day with at least a threshold of rain. POD is the share of events that were
// forecast, FAR the share of forecast events that did not come, POFD the share
// of days without the event for which it was forecast, bias forecast events
// over events.
//
// # Promises
//
// The package reads no file and no clock. [Archive.Known] never returns what
// was issued on the morning's own date or later. Equal arguments, the seed
// included, give equal forecasts on one kind of machine.
package forecast
