// Package csvfile reads the daily weather files that stations, agencies and
// reanalyses hand out into a [weather.Record], and writes loamledger's own.
//
// # Promises
//
// A layout is recognised by what its lines say, never by counting them. A unit
// that neither file nor layout states is settled by stated evidence, or the file
// is refused with the option to give. No gap is filled, no row is lost without a
// finding, and every fault is reported with its line and byte column, up to
// twenty at once.
//
// Memory is bounded: lines are at most 1 MiB, dates lie in the years 1700 to
// 2199, and [ReadAll] holds one station at a time where the file allows it.
package csvfile
