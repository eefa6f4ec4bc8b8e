package sim_test

import (
	"math"
	"testing"

	"loamledger/sim"
)

// TestCycles: full cycles and then the remainder.
func TestCycles(t *testing.T) {
	for _, tt := range []struct {
		minutes, cycle float64
		want           int
	}{{0, 8, 0}, {20, 0, 1}, {8, 8, 1}, {8.5, 8, 2}, {16, 8, 2}, {20, 8, 3}, {24, 8, 3}, {0.3, 0.1, 3}, {5, 8, 1}} {
		if got := (sim.Run{Minutes: tt.minutes, CycleMin: tt.cycle, SoakMin: 30}).Cycles(); got != tt.want {
			t.Errorf("%g min in cycles of %g: %d, want %d", tt.minutes, tt.cycle, got, tt.want)
		}
	}
}

// TestDoseByHand works one uneven zone through cycles and soaks by hand.
//
// PR 30 mm/h, loss 20%, so 24 mm/h reach the ground; DU 0.55 on four strips:
// shares 0.55, 0.85, 1.15, 1.45, rates 13.2, 20.4, 27.6, 34.8 mm/h. Intake 12
// mm/h, ASA 2 mm. 20 min in cycles of 8 with soaks of 5 min (1 mm).
//
//	strip 0: grows 0.16 a cycle of 8, falls 1 in a soak: no runoff
//	strip 1: grows 1.12, soaks to 0.12, 1.24, 0.24, then 4 min +0.56 = 0.80: no runoff
//	strip 2: grows 2.08: runoff 0.08, 2 − 1 = 1, 3.08: runoff 1.08, 1, then 4 min +1.04 = 2.04: runoff 0.04
//	strip 3: grows 3.04: runoff 1.04, 1, 4.04: runoff 2.04, 1, then 4 min +1.52 = 2.52: runoff 0.52
func TestDoseByHand(t *testing.T) {
	z := &sim.Zone{PRMMH: 30, LossShare: 0.2, DULQ: 0.55, Strips: 4, IntakeMMH: 12, SurfaceStorageMM: 2}
	in := make([]float64, 4)
	d := z.Dose([]sim.Run{{Minutes: 20, CycleMin: 8, SoakMin: 5}}, sim.Shares(4, 0.55), in)
	if d.Minutes != 20 || d.Cycles != 3 || math.Abs(d.GrossMM-10) > 1e-12 || math.Abs(d.SprayLossMM-2) > 1e-12 {
		t.Errorf("dose %+v, want 20 min in 3 cycles, 10 mm gross of which 2 are lost in the air", d)
	}
	off := []float64{0, 0, 1.2, 3.6}
	mean := 0.0
	for i, rate := range []float64{13.2, 20.4, 27.6, 34.8} {
		mean += off[i] / 4
		if want := rate*20/60 - off[i]; math.Abs(in[i]-want) > 1e-12 {
			t.Errorf("strip %d: %g mm enter, want %g", i, in[i], want)
		}
	}
	if math.Abs(d.RunoffMM-mean) > 1e-12 {
		t.Errorf("runoff %g mm, want %g", d.RunoffMM, mean)
	}
	// The surface is empty again at the next start: two starts are twice one.
	twice := z.Dose([]sim.Run{{Minutes: 20, CycleMin: 8, SoakMin: 5}, {Minutes: 20, CycleMin: 8, SoakMin: 5}}, sim.Shares(4, 0.55), in)
	if twice.Minutes != 40 || twice.Cycles != 6 || math.Abs(twice.RunoffMM-2*mean) > 1e-12 || math.Abs(twice.GrossMM-20) > 1e-12 {
		t.Errorf("two starts give %+v", twice)
	}
}

// TestDoseCloses over a grid of zones and runs: applied water is lost in the air,
// runs off or enters, and more water never means that less enters.
func TestDoseCloses(t *testing.T) {
	for _, n := range []int{1, 8, 20} {
		for _, intake := range []float64{0.5, 9, 200} {
			for _, asa := range []float64{0, 3} {
				for _, run := range []sim.Run{{}, {Minutes: 45}, {Minutes: 45, CycleMin: 7, SoakMin: 20}, {Minutes: 45, CycleMin: 7},
					{Minutes: 0.01, CycleMin: 3, SoakMin: 1}} {
					z := &sim.Zone{PRMMH: 38, LossShare: 0.07, DULQ: 0.5, Strips: n, IntakeMMH: intake, SurfaceStorageMM: asa}
					in := make([]float64, n)
					for i := range in {
						in[i] = math.NaN() // whatever memory held before
					}
					d := z.Dose([]sim.Run{run}, sim.Shares(n, 0.5), in)
					mean := 0.0
					for i, v := range in {
						mean += v / float64(n)
						if v < 0 || i > 0 && v < in[i-1]-1e-12 {
							t.Errorf("%+v: strip %d takes %g after %g", run, i, v, in[max(i-1, 0)])
						}
					}
					if off := d.GrossMM - d.SprayLossMM - d.RunoffMM - mean; !sim.Closed(off) || d.RunoffMM < 0 {
						t.Errorf("intake %g, ASA %g, %+v: off balance by %g mm, %+v", intake, asa, run, off, d)
					}
				}
			}
		}
	}
}
