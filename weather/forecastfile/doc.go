// Package forecastfile reads and writes archives of forecasts as CSV: one row
// per issue day and valid day.
//
//	issued,valid,rain_mm,rain_probability_pct,tmax_c,tmin_c,eto_mm
//	2024-06-30,2024-07-01,4.5,70,27.4,12.1,5.2
//
// issued and valid are required, and so is rain_mm or rain_probability_pct.
// Columns may be in any order. An empty cell is unknown. Rows may be in any
// order, so that a file can be appended to daily.
//
// # Promises
//
// Units are in the column names. A column with any other name is an error, so
// that a typo does not lose data. Errors are reported with line and byte
// column, up to twenty at once. Memory is bounded: a line has at most 64 KiB
// and a file at most four million rows.
package forecastfile
