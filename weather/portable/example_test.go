package portable_test

import (
	"fmt"
	"math"

	"loamledger/weather/portable"
)

// Whatever the machine, the bits are these. 4005bf0a8b145769 is the float64 nearest to e.
func ExampleExp() {
	fmt.Printf("%x\n", math.Float64bits(portable.Exp(1)))
	// Output: 4005bf0a8b145769
}
