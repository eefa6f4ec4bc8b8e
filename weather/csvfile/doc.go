// Package csvfile reads daily weather files from stations, agencies and
// reanalyses into a [weather.Record], and writes loamledger's own format.
//
// # Promises
//
// A layout is detected by the text of its lines, never by their number. A unit
// that neither file nor layout states is inferred from stated evidence;
// otherwise the error names the option to set. No gap is filled, no row is lost
// without a finding, and every error is reported with its line and byte column,
// up to twenty at once.
//
// Memory is bounded: lines are at most 1 MiB, dates are in the years 1700 to
// 2199, and [ReadAll] keeps one station at a time in memory if the file allows
// it.
package csvfile
