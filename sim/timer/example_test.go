package timer_test

import (
	"fmt"

	"loamledger/sim/strategy"
	"loamledger/sim/timer"
)

// A program in cycles of 8 minutes, on a timer that cannot split runs and whose percentage moves in tens.
func ExampleProfile_Check() {
	plain, _ := timer.Named(timer.Plain)
	lawn := strategy.Program{Name: "lawn", Starts: []int{300}, Minutes: []float64{20}, Cycle: 8, Soak: 30}
	for _, r := range plain.Check([]strategy.Program{lawn}, [12]float64{5: 0.75, 6: 1}, 1) {
		fmt.Println(r.Reason, r.Asked, r.Has)
	}
	// Output:
	// no-cycle-and-soak 3 1
	// percent-off-step 0.75 0.1
}
