// Package quality holds a record against published and customary rules, drops
// what cannot be and tells what is doubtful.
//
// # What is done
//
// A value that cannot be is dropped: NaN with mark Missing. A humidity a little
// above 100 % is held to 100. A column that claims to be ETo and is plainly
// something else is set aside. All else is kept and told. Every rule that was
// met gives one [weather.Finding] a column: its code, how often, the worst day,
// what was done and where the rule is from.
//
// Rules that need the sun above the station are left out, and said to be, where
// the latitude is unknown. Thresholds without a publication say "own threshold".
//
// What a reader alone can see (rows that stand twice, dates out of order, codes
// for missing values, several days' rain booked on one) is the reader's to tell.
// Whether a supplied ETo agrees with the computed one within ten per cent is
// told by package et0, as it is of use to know even where nothing is wrong.
//
// The package reads no file, clock or random source.
package quality
