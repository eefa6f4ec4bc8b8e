package sim_test

import (
	"fmt"

	"loamledger/sim"
)

// Half the mean application reaches the driest quarter of a lawn whose
// sprinklers have a low-quarter uniformity of 50%.
func ExampleShares() {
	fmt.Printf("%.3f\n", sim.Shares(4, 0.5))
	// Output: [0.500 0.833 1.167 1.500]
}

// The third day of FAO-56 example 37: 67 mm depleted of 160, stress from 64 on.
func ExampleKs() {
	fmt.Printf("%.2f\n", sim.Ks(67, 160, 0.4))
	// Output: 0.97
}

// Two inches of rain on a curve number of 80: TR-55 table 2-1 prints 0.56 in.
func ExampleCurveNumberRunoff() {
	fmt.Printf("%.2f in\n", sim.CurveNumberRunoff(2*25.4, 80)/25.4)
	// Output: 0.56 in
}

// Twenty minutes at 40 mm/h is too much at once for a soil that takes in 9 mm/h
// and stores 6 mm on its surface. With cycles and soaks, nothing runs off.
func ExampleZone_Dose() {
	lawn := &sim.Zone{PRMMH: 40, IntakeMMH: 9, SurfaceStorageMM: 6, DULQ: 0.7, Strips: 4}
	shares, in := sim.Shares(4, 0.7), make([]float64, 4)
	once := lawn.Dose([]sim.Run{{Minutes: 20}}, shares, in)
	fmt.Printf("at once: %.2f mm, %.2f run off, %.2f to %.2f enter\n", once.GrossMM, once.RunoffMM, in[0], in[3])
	soaked := lawn.Dose([]sim.Run{{Minutes: 20, CycleMin: 5, SoakMin: 40}}, shares, in)
	fmt.Printf("in %d cycles: %.2f mm, %.2f run off, %.2f to %.2f enter\n", soaked.Cycles, soaked.GrossMM, soaked.RunoffMM, in[0], in[3])
	// Output:
	// at once: 13.33 mm, 4.33 run off, 9.00 to 9.00 enter
	// in 4 cycles: 13.33 mm, 0.00 run off, 9.33 to 17.33 enter
}
