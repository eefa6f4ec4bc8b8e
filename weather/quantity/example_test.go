package quantity_test

import (
	"fmt"

	"loamledger/weather/quantity"
)

func ExampleParse() {
	rate, _ := quantity.Parse("1.5 in/h", quantity.Rate)
	fmt.Println(rate, quantity.Rate.BaseUnit())
	_, err := quantity.Parse("1.5", quantity.Rate)
	fmt.Println(err)
	// Output:
	// 38.1 mm/h
	// 1.5 has no unit; add a unit: in/h or mm/h, as in "1.5 in/h"
}

func ExampleFormat() {
	fmt.Println(quantity.Format(870, quantity.Volume, quantity.US))
	fmt.Println(quantity.Format(870, quantity.Volume, quantity.SI))
	// Output:
	// 229,830 gal
	// 870 m³
}
