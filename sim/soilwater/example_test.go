package soilwater_test

import (
	"fmt"
	"math"

	"loamledger/sim/soilwater"
	"loamledger/weather/cal"
)

// A sensor 15 cm deep in a soil that holds 0.30 at field capacity. By hand, for roots of 300 mm: (0.30 − 0.22) × 300 = 24 mm.
func ExampleDeplete() {
	sensor := soilwater.Sensor{Name: "15 cm", DepthM: 0.15, Theta: []float64{0.30, 0.22, math.NaN(), 0.32}}
	record := soilwater.NewRecord(cal.Of(2031, 7, 1), []soilwater.Sensor{sensor}, nil)
	bounds := soilwater.SameBounds(len(record.Levels), 0.30, 0.12)
	profile := soilwater.Deplete(record, &bounds, []float64{300}, make([]bool, record.Days))
	fmt.Printf("%.0f mm, of at most %.0f mm\n", profile.DepletionMM, bounds.RangeMM([]float64{300}))
	// Output: [0 24 NaN 0] mm, of at most 54 mm
}
