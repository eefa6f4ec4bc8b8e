package sim

import "math"

// A Run is one start of a zone: Minutes of watering in cycles of at most CycleMin
// with soaks of SoakMin between them. CycleMin 0 means one cycle.
type Run struct {
	Minutes, CycleMin, SoakMin float64
}

// Cycles returns the number of cycles in the run.
func (r Run) Cycles() int {
	if r.Minutes <= 0 {
		return 0
	}
	if r.CycleMin <= 0 || r.Minutes <= r.CycleMin {
		return 1
	}
	// A remainder under a millionth of a cycle is rounding, not a cycle.
	return int(math.Ceil(r.Minutes/r.CycleMin - 1e-6))
}

// A Dose is the water applied by one day's runs of a zone, as means over the zone.
type Dose struct {
	Minutes     float64
	Cycles      int
	GrossMM     float64
	SprayLossMM float64
	OversprayMM float64
	BrokenMM    float64
	FillDrainMM float64
	RunoffMM    float64
}

// Dose calculates the runs of one day on zone z. It stores the depth infiltrated
// in each strip in in, which has one value per strip, and returns the means.
// shares is [Shares] of the zone. The surface is empty at each start, and the
// pipes take at most the water that would otherwise reach the zone.
func (z *Zone) Dose(runs []Run, shares, in []float64) Dose {
	var d Dose
	z.dose(&d, runs, shares, in)
	return d
}

// dose is [Zone.Dose] into d, which must be the zero Dose.
func (z *Zone) dose(d *Dose, runs []Run, shares, in []float64) {
	clear(in)
	net := float64(z.PRMMH * (1 - z.LossShare - z.OversprayShare - z.BrokenShare))
	runoff := 0.0
	for _, r := range runs {
		if r.Minutes <= 0 {
			continue
		}
		cycles := r.Cycles()
		d.Minutes += r.Minutes
		d.Cycles += cycles
		net := net
		if z.FillDrainMM > 0 {
			// Water that fills and drains the pipes does not reach the heads.
			gross := z.PRMMH * r.Minutes / 60
			lost := min(z.FillDrainMM*float64(cycles), net*r.Minutes/60)
			d.FillDrainMM += lost
			net -= z.PRMMH * lost / gross
		}
		for i, w := range shares {
			rate := net * w
			off := 0.0
			if rate > z.IntakeMMH {
				off = z.surfaceRunoff(rate, r, cycles)
			}
			in[i] += rate*r.Minutes/60 - off
			runoff += off
		}
	}
	d.GrossMM = z.PRMMH * d.Minutes / 60
	d.SprayLossMM = d.GrossMM * z.LossShare
	d.OversprayMM = d.GrossMM * z.OversprayShare
	d.BrokenMM = d.GrossMM * z.BrokenShare
	d.RunoffMM = runoff / float64(len(shares))
}

// surfaceRunoff returns the depth [mm] that runs off a strip in one run, watered
// at rate [mm/h], above the intake rate, in the given number of cycles. In a cycle
// of t minutes the surface store grows by (rate − intake)t/60, and anything above
// the allowable surface storage runs off. In a soak the store falls by
// intake·soak/60, but not below 0. After the last cycle, the rest soaks in.
func (z *Zone) surfaceRunoff(rate float64, r Run, cycles int) float64 {
	grow := (rate - z.IntakeMMH) / 60
	if grow*r.Minutes <= z.SurfaceStorageMM {
		return 0 // the store holds all, even without pauses
	}
	fall := z.IntakeMMH * r.SoakMin / 60
	if cycles > 1 && fall >= min(grow*r.CycleMin, z.SurfaceStorageMM) {
		// Every soak empties the store, so cycles do not interact.
		last := r.Minutes - float64(float64(cycles-1)*r.CycleMin)
		return float64(float64(cycles-1)*max(float64(grow*r.CycleMin)-z.SurfaceStorageMM, 0)) + max(float64(grow*last)-z.SurfaceStorageMM, 0)
	}
	store, off, left := 0.0, 0.0, r.Minutes
	for n := cycles; n > 0; n-- {
		t := left
		if n > 1 {
			t = r.CycleMin
		}
		left -= t
		store += float64(grow * t)
		if store > z.SurfaceStorageMM {
			off += store - z.SurfaceStorageMM
			store = z.SurfaceStorageMM
		}
		if store -= fall; store < 0 {
			store = 0
		}
	}
	return off
}

// LongestCycle returns the longest run without runoff at the zone's mean rate
// [min], and the shortest soak that then empties the surface store [min]:
//
//	60·ASA/(PR − IR) and 60·ASA/IR
//
// Both are 0 if the rate does not exceed the intake. Source: common practice in
// sprinkler scheduling, from memory.
func (z *Zone) LongestCycle() (cycleMin, soakMin float64) {
	net := float64(z.PRMMH * (1 - z.LossShare - z.OversprayShare - z.BrokenShare))
	if net <= z.IntakeMMH {
		return 0, 0
	}
	return 60 * z.SurfaceStorageMM / (net - z.IntakeMMH), 60 * z.SurfaceStorageMM / z.IntakeMMH
}

// RunTimeMultiplier returns the factor on run time that makes up for uneven
// coverage, 1/(0.4 + 0.6 DU_LQ). Source: common practice in sprinkler
// scheduling, from memory.
func RunTimeMultiplier(duLQ float64) float64 { return 1 / (0.4 + float64(0.6*duLQ)) }

// RunTimeMultiplier returns the multiplier of the zone as it is replayed: a single
// strip is watered evenly, whatever its DU, so it needs none.
func (z *Zone) RunTimeMultiplier() float64 {
	if z.Strips == 1 {
		return 1
	}
	return RunTimeMultiplier(z.DULQ)
}

// AppliedToNeeded returns the ratio of water applied to plant need that uneven
// coverage and losses alone require: the run-time multiplier divided by the share
// of gross that reaches the zone. It ignores water lost in pipes and leaks, which
// does not grow with the need.
func (z *Zone) AppliedToNeeded() float64 {
	return z.RunTimeMultiplier() / (1 - z.LossShare - z.OversprayShare - z.BrokenShare)
}
