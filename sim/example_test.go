package sim_test

import (
	"fmt"

	"loamledger/sim"
	"loamledger/weather/cal"
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

// A strip that is 30 mm short of a full root zone of 60 mm, on a day on which the plants want 6 mm and are stressed beyond 24 mm.
// By hand: Ks = (60 − 30)/(60 − 24) = 0.833, so they get 5 mm. With 40 mm of water first, 10 mm drain and they get all.
func ExampleStep() {
	day := &sim.Day{ETcMM: 6, RAWMM: 24, Slope: 1.0 / (60 - 24)}
	evening, flux := sim.Step(30, 60, day, 0)
	fmt.Printf("dry: Ks %.3f, ETa %.1f mm, depletion %.1f mm\n", flux.Ks, flux.ETaMM, evening)
	evening, flux = sim.Step(30, 60, day, 40)
	fmt.Printf("watered: Ks %.3f, ETa %.1f mm, depletion %.1f mm, %.1f mm drained\n", flux.Ks, flux.ETaMM, evening, flux.PercIrrMM)
	// Output:
	// dry: Ks 0.833, ETa 5.0 mm, depletion 35.0 mm
	// watered: Ks 1.000, ETa 6.0 mm, depletion 6.0 mm, 10.0 mm drained
}

// A schedule of one's own on a lawn of one strip: 12 mm whenever more than half of 40 mm is gone. By hand: K·ETo is 4.8 mm a day;
// the fifth evening ends at 24 mm, so water comes on the sixth morning, and again when 21.6 mm
// and 24 mm are gone.
func ExampleForcing() {
	lawn := &sim.Zone{TAWMM: 40, P: 0.6, PConstant: true, DULQ: 1, Strips: 1}
	for m := range lawn.K {
		lawn.K[m] = 0.8
	}
	w := sim.Weather{Start: cal.Of(2031, 7, 1), RainMM: make([]float64, 12), EToMM: []float64{6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6, 6}}
	calendar := sim.NewCalendar(w.Start, len(w.EToMM))
	depletion := 0.0
	for i, day := range sim.Forcing(nil, lawn, w, calendar) {
		water := 0.0
		if depletion > 20 {
			water = 12
			fmt.Printf("%v: %.1f mm short, watered\n", calendar.Date(i), depletion)
		}
		depletion, _ = sim.Step(depletion, lawn.TAWMM, &day, water)
	}
	// Output:
	// 2031-07-06: 24.0 mm short, watered
	// 2031-07-08: 21.6 mm short, watered
	// 2031-07-11: 24.0 mm short, watered
}
