package visible_test

import (
	"fmt"

	"loamledger/weather/visible"
)

// A station's name that would clear the screen.
func ExampleText() {
	fmt.Println(visible.Text("QUIET FLATS\x1b[2J"))
	// Output: QUIET FLATS\u001b[2J
}
