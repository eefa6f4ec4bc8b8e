// Package soilfile reads measured soil water. There are two layouts.
//
// The daily files of the US Climate Reference Network, with their header or as
// published without one: SOIL_MOISTURE_5_DAILY and so on [m³/m³], and the soil
// temperature at 10 cm.
//
// A CSV file with the column date (2014-07-02) and one column for each sensor. A
// heading is a depth with its unit, a name if there are several sensors, and the
// unit of the values in brackets:
//
//	date,5 cm [m3/m3],20 cm north [%],20 cm south [%],10 cm [C]
//
// Units are m3/m3 or % for water content and C or F for the temperature of the
// soil. Empty cells, NA, NaN and -9999 are gaps, and so are missing rows.
//
// Tensions are not converted: the retention curve of a soil is rarely known, and
// near field capacity a small error in it is a large one in water.
package soilfile
