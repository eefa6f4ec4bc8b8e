package allowance_test

import (
	"fmt"

	"loamledger/sim/allowance"
)

// A rule that allows 0.6 of ETo on 500 m², of which 100 m² of vegetables count in full, in a year of 1000 mm.
// By hand: 1 m × (0.6 × 400 + 1 × 100) m² = 340 m³.
func ExampleRule_M3() {
	rule := allowance.Rule{Factor: 0.6, AreaM2: 500, Special: 1, SpecialM2: 100}
	fmt.Printf("%.0f m³\n", rule.M3(1000, 0))
	// Output: 340 m³
}
