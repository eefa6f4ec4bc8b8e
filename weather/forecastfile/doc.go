// Package forecastfile reads and writes archives of forecasts as CSV: one row
// for each day of issue and valid day.
//
//	issued,valid,rain_mm,rain_probability_pct,tmin_c,eto_mm
//	2024-06-30,2024-07-01,4.5,70,12.1,5.2
//
// issued and valid must be there, and one of rain_mm and rain_probability_pct;
// columns may stand in any order. An empty cell is unknown. Rows may stand in
// any order; a file is appended to from day to day.
//
// # Promises
//
// Units are in the column names. A column with another name is refused, so
// that a slip loses nothing. Faults are reported with line and byte column, up
// to twenty at once. Memory is bounded: lines have at most 64 KiB and a file at
// most four million rows.
package forecastfile
