// Package fill fills gaps in a record by stated rules. It marks and counts
// every filled value.
//
// # Rules, in order
//
//  1. Temperature gaps of up to Options.tempGapDays are interpolated linearly between the days on either side.
//  2. Remaining gaps are filled from a second station if one is given: temperature and dew point are
//
// shifted by the month's mean difference; rain, wind and radiation are scaled by the ratio of the
// month's sums. Both are calculated from the days that both stations have.
//  3. Remaining temperature gaps get the mean of the days around the same day of the year, adjusted
//
// toward the days on either side of the gap by the record's day-to-day correlation. Rain is never
// averaged, since daily drizzle would not run off, soak in or hold watering: it is copied from the
// same days of the year whose surrounding rain is closest to the mean of all years.
//
// Rain is never interpolated, and a missing day is never assumed dry. Humidity,
// wind and radiation stay missing without a second station: the reference-ET
// equations have their own substitutes.
//
// A year with more filled days than the limits allow is an error, because the
// replay would test the fills, not the weather. All rules are common practice
// without a single source; [SelfTest] measures their errors on the record.
//
// The package reads no file, clock or random source; [SelfTest] is seeded.
package fill
