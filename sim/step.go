package sim

// A Flux is what moved through one strip on one day [mm].
type Flux struct {
	PercIrrMM  float64 // irrigation that drained below the roots
	PercRainMM float64 // rain that drained below the roots
	OpenMM     float64 // depletion after watering and rain, before the draw
	Ks         float64
	ETaMM      float64
}

// Step takes one strip through one day, the way [Balance.Replay] takes all of
// them, one term at a time: drMM is its depletion in the morning and
// infiltratedMM the irrigation that enters it. It returns the depletion in the
// evening.
//
//	Dr ← Dr − I, a negative rest percolates     [FAO56] eq. 85 and 88, early order
//	Dr ← Dr − P, a negative rest percolates
//	Ks = (TAW − Dr)/((1 − p) TAW) if Dr > RAW, else 1          [FAO56] eq. 84
//	ETa = min(Ks ETc, TAW − Dr),  Dr ← Dr + ETa               [FAO56] eq. 81
//
// Ks and ETa are held to 0..1 and 0..ETc, which a rounding could pass.
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
