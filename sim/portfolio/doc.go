// Package portfolio has the rows that a replay of many accounts leaves behind: what
// was understood of each account, a year of each account under each measure, and
// its months. They are plain values; sim/portfolio/portfoliofile writes and reads
// them as Parquet.
//
// Volumes are at the meter. All quantities are SI; the unit is part of each column's
// name, and [ResultColumns], [MonthColumns] and [AccountColumns] list it once more
// for the metadata of the files.
package portfolio
