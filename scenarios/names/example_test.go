package names_test

import (
	"fmt"

	"loamledger/scenarios/names"
)

// Case, spaces and hyphens do not matter, but zone 1-2 is not zone 12.
func ExampleFind() {
	zones := []string{"Front lawn", "Zone 12", "Zone 1-2"}
	fmt.Println(names.Find("front-lawn", zones), names.Find("zone 1 2", zones), names.Find("back lawn", zones))
	// Output: 0 2 -1
}
