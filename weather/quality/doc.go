// Package quality checks a record against published and customary rules, drops impossible values and reports doubtful ones.
// # Actions
//
// An impossible value is dropped: NaN with mark Missing. A humidity slightly
// above 100% is limited to 100. A column labeled ETo that clearly is something
// else is ignored. Everything else is kept and reported. Every rule with a case
// gives one [weather.Finding] per column: its code, the count, the worst day,
// the action and the source of the rule.
//
// Rules that need solar geometry are skipped, and reported as skipped, if the
// latitude is unknown. Thresholds without a publication say "own threshold".
//
// Readers report what only they can see: duplicate rows, dates out of order,
// missing-value codes and multi-day rain totals. Package et0 reports whether
// supplied ETo agrees with computed ETo within ten percent, which is useful
// even if nothing is wrong.
//
// # Whole columns, parts and dates
//
// Medians, quantiles and tests of counts report columns in another unit, a
// change of unit within a column, gauges that are dead, read rarely or summed,
// and seasons at the wrong time. Each finding has the line where it begins.
//
// # What values cannot tell
//
// Rain that is doubled or halved throughout; a whole column of light wind in
// mph or knots; the height of the anemometer without supplied ETo; dates that
// are off by whole years; a second station with the same climate; a shift by
// half a year near the equator; a change of the unit of rain in the first or last
// nine months. Nothing here reports them.
//
// The package reads no file, clock or random source.
package quality
