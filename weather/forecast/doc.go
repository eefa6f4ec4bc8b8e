// Package forecast stores weather forecasts with their issue days, so that a
// replay knows on any morning only what was known then. It also makes imperfect
// forecasts with a stated skill from a record, and scores forecasts against
// observed rain.
//
// # Units
//
// mm, %, °C. Unknown values are NaN.
// # Terms
//
// Lead is the number of days from the issue day to the forecast day: a forecast
// issued this evening for tomorrow has lead 1. An event is a day with rain at
// or above a threshold. POD is the share of events that were forecast, FAR the
// share of forecast events that did not happen, pofd the share of days without
// an event for which one was forecast. Bias is forecast events divided by
// events.
//
// # Promises
//
// The package reads no file and no clock. [Archive.Known] never returns a
// forecast issued on the date of that morning or later. Equal arguments,
// including the seed, give equal forecasts on the same kind of machine.
package forecast
