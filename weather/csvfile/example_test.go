package csvfile_test

import (
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/csvfile"
)

func ExampleRead() {
	file := "\"STATION\",\"NAME\",\"DATE\",\"PRCP\",\"TMAX\",\"TMIN\"\n" +
		"\"XX000000001\",\"QUIET FLATS, XX\",\"2031-07-01\",\"0.30\",\"95\",\"68\"\n" +
		"\"XX000000001\",\"QUIET FLATS, XX\",\"2031-07-03\",\"0.00\",\"104\",\"71\"\n"
	rec, err := csvfile.Read(strings.NewReader(file), "july.csv", csvfile.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: layout %s, %d days, first %.1f °C and %.2f mm\n", rec.File, rec.Layout, rec.Days, rec.At(weather.Tmax, 0),
		rec.At(weather.Rain, 0))
	for _, f := range rec.Findings {
		fmt.Printf("%s: %s; %s\n", f.Code, f.Detail, f.Action)
	}
	// Output:
	// july.csv: layout ncei-wide, 3 days, first 35.0 °C and 7.62 mm
	// missing-days: gaps: 1; the longest is from 2031-07-02 to 2031-07-02; kept as days without values
}

func ExampleRead_faults() {
	file := "date,tmax_c,tmin_c\n2031-07-01,31.5,l7.2\n2031-07-32,30.1,16.0\n"
	_, err := csvfile.Read(strings.NewReader(file), "july.csv", csvfile.Options{})
	fmt.Println(err)
	// Output:
	// july.csv:2:17: tmin_c "l7.2" is not a number
	// 	fix: write a decimal number, or leave the cell empty if the value is missing
	// july.csv:3:1: "2031-07-32" is not a calendar date between 1700 and 2199
	// 	fix: write the date as 2012-06-30
}
