package draw_test

import (
	"fmt"

	"loamledger/sim/draw"
)

// A sprinkler's rate is 30 to 50 mm/h, most likely 40. Do 12 minutes give more than 9 mm? By hand: that takes 45 mm/h, and the
// triangle above 45 is (1/2)²/2 = 1/8 of all draws, more than the tenth that would make it unlikely.
func ExampleDecide() {
	rate, above := draw.Around(30, 40, 50), 0
	points := draw.Points(1000, 1, 1)
	for _, p := range points {
		if rate.At(p[0])*12/60 > 9 {
			above++
		}
	}
	fmt.Printf("%.3f, unlikely: %v\n", float64(above)/1000, draw.Decide(above, len(points)) == draw.Unlikely)
	// Output: 0.125, unlikely: false
}
