// Package fill closes the gaps of a record by stated rules, marks every value
// that it puts in and counts them.
//
// # Rules, in order
//
//  1. Temperature gaps of up to Options.TempGapDays are drawn straight between
//     the days on either side.
//  2. What is left comes from a second station where one is given: temperature
//     and dew point shifted by the mean difference of the month, rain, wind and
//     radiation scaled by the ratio of the month's sums. Both are worked out on
//     the days that both stations have.
//  3. What is still left of temperature is the mean of the days around the same
//     day of the year, drawn towards the days on either side of the gap as far
//     as weather lasts from day to day in this record. Rain is never averaged, as a drizzle every day is no
//     rain that runs off, soaks in or skips a watering: the same days of another
//     year are taken, of the year whose rain around them comes nearest to the
//     mean of all years.
//
// Rain is never interpolated, and a missing day is never a dry day. Humidity,
// wind and radiation without a second station are left missing: the
// reference-ET equations have stand-ins of their own for them.
//
// A year with more filled days than the limits allow is refused: what would be
// replayed is the filling and not the year. All rules are common practice
// without a single source; [SelfTest] tells what they are worth on the record
// at hand.
//
// The package reads no file, clock or random source; [SelfTest] is seeded.
package fill
