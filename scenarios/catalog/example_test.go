package catalog_test

import (
	"fmt"

	"loamledger/scenarios/catalog"
)

// Open space with good grass on a soil of group D: TR-55 table 2-2a prints 80.
func ExampleCover_CurveNumber() {
	lawn, _ := catalog.FindCover("lawn, good")
	fmt.Println(lawn.CurveNumber('D'))
	// Output: 80
}
