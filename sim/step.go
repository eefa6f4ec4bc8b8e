package sim

// A Flux is the water that moved through one strip on one day [mm].
type Flux struct {
	PercIrrMM  float64 // irrigation that drained below the roots
	PercRainMM float64 // rain that drained below the roots
	OpenMM     float64 // depletion after watering and rain, before the draw
	Ks         float64
	ETaMM      float64
}

// Step takes one strip through one day, one term at a time, as [Balance.Replay]
// does for all strips together. drMM is the depletion in the morning, and
// infiltratedMM is the irrigation that enters the strip. Step returns the
// depletion in the evening.
//
//	Dr ← Dr − I; anything below 0 percolates    [FAO56] eq. 85 and 88, early order
//	Dr ← Dr − P; anything below 0 percolates
//	Ks = (TAW − Dr)/((1 − p) TAW) if Dr > RAW, else 1          [FAO56] eq. 84
//	ETa = min(Ks ETc, TAW − Dr),  Dr ← Dr + ETa               [FAO56] eq. 81
//
// Ks and ETa are limited to 0..1 and 0..ETc, which rounding could exceed.
func Step(drMM, tawMM float64, day *Day, infiltratedMM float64) (float64, Flux) {
	f := Flux{Ks: 1}
	if drMM -= infiltratedMM; drMM < 0 {
		f.PercIrrMM, drMM = -drMM, 0
	}
	if drMM -= day.RainInMM; drMM < 0 {
		f.PercRainMM, drMM = -drMM, 0
	}
	f.OpenMM = drMM
	left := max(tawMM-drMM, 0)
	if drMM > day.RAWMM {
		f.Ks = min(left*day.Slope, 1)
	}
	f.ETaMM = min(f.Ks*day.ETcMM, left)
	return drMM + f.ETaMM, f
}
