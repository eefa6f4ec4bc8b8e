package cal_test

import (
	"fmt"

	"loamledger/weather/cal"
)

// Dates are numbers of days: they subtract and compare, and no clock change shortens one.
func ExampleDate() {
	first, last := cal.Of(2012, 2, 28), cal.Of(2012, 3, 1)
	fmt.Println(int(last-first), first < last, first+1, last.YearDay())
	// Output: 2 true 2012-02-29 61
}

func ExampleParse() {
	d, err := cal.Parse("2012-06-30")
	fmt.Println(d, d.Month(), err)
	_, err = cal.Parse("30.6.2012")
	fmt.Println(err != nil)
	// Output:
	// 2012-06-30 6 <nil>
	// true
}

// A season without an end: it holds from its first day on.
func ExamplePeriod() {
	season := cal.Period{}.From(cal.Of(2012, 5, 1))
	fmt.Println(season.Holds(cal.Of(2012, 4, 30)), season.Holds(cal.Of(2012, 5, 1)), season.Holds(cal.Of(2030, 1, 1)))
	// Output: false true true
}
