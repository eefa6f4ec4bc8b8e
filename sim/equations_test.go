package sim_test

import (
	"math"
	"testing"

	"loamledger/sim"
)

// TestShares: the shares ascend, average 1, and the mean of the lowest quarter
// is DU_LQ, for every allowed number of strips.
func TestShares(t *testing.T) {
	for _, n := range []int{1, 4, 8, 12, 16, 20} {
		for _, du := range []float64{0.25, 0.4962, 0.55, 0.7, 1} {
			w := sim.Shares(n, du)
			if len(w) != n {
				t.Fatalf("%d strips gave %d shares", n, len(w))
			}
			sum, low := 0.0, 0.0
			for i, v := range w {
				if sum += v; i < n/4 {
					low += v
				}
				if v < 0 || i > 0 && v < w[i-1] {
					t.Errorf("n %d, DU %g: share %d is %g after %g", n, du, i, v, w[max(i-1, 0)])
				}
			}
			if math.Abs(sum/float64(n)-1) > 1e-12 {
				t.Errorf("n %d, DU %g: the shares average %g", n, du, sum/float64(n))
			}
			if n > 1 && math.Abs(low/float64(n/4)-du) > 1e-12 {
				t.Errorf("n %d, DU %g: the lowest quarter averages %g", n, du, low/float64(n/4))
			}
		}
	}
	// By hand from the formula: DU 0.55 makes c 0.6, so w = 0.4 + 0.6(2i+1)/4.
	for i, want := range []float64{0.55, 0.85, 1.15, 1.45} {
		if got := sim.Shares(4, 0.55)[i]; math.Abs(got-want) > 1e-12 {
			t.Errorf("share %d of 4 is %g, want %g", i, got, want)
		}
	}
}

// TestStressFraction: p = p_table + 0.04(5 − ETc), limited to 0.1..0.8 (FAO-56
// chapter 8 and the note to table 22); values worked from the formula.
func TestStressFraction(t *testing.T) {
	for _, tt := range []struct{ p, etc, want float64 }{
		{0.4, 5, 0.4}, {0.4, 2.5, 0.5}, {0.4, 8, 0.28}, {0.4, 6, 0.36}, {0.5, 10, 0.3}, {0.5, 3, 0.58},
		{0.6, 0, 0.8}, {0.7, 0, 0.8}, {0.2, 11, 0.1}, {0.1, 5, 0.1},
	} {
		if got := sim.StressFraction(tt.p, tt.etc); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("p %g, ETc %g: %g, want %g", tt.p, tt.etc, got, tt.want)
		}
	}
}

// TestKs: the Ks column of FAO-56 example 37 from the printed depletion at the
// start of each day, TAW 160 mm, p 0.40, printed to 0.01; then the limits.
func TestKs(t *testing.T) {
	for _, tt := range []struct{ dr, want, tol float64 }{
		{55, 1, 0}, {61, 1, 0}, {67, 0.97, 0.005}, {72.8, 0.91, 0.005}, {78.3, 0.85, 0.005}, {83.4, 0.80, 0.005},
		{88.2, 0.75, 0.005}, {92.6, 0.70, 0.005}, {96.9, 0.66, 0.005}, {100.8, 0.62, 0.005},
		{0, 1, 0}, {64, 1, 0}, {64.0001, 1, 2e-6}, {112, 0.5, 1e-12}, {160, 0, 0}, {170, 0, 0},
	} {
		if got := sim.Ks(tt.dr, 160, 0.4); math.Abs(got-tt.want) > tt.tol {
			t.Errorf("Ks at %g mm: %.5f, FAO-56 example 37 and eq. 84 give %g", tt.dr, got, tt.want)
		}
	}
}

// TestRainSplit by hand: the three rules in order.
func TestRainSplit(t *testing.T) {
	cn := sim.Rain{Method: sim.CurveNumber, CN: 80} // S 63.5 mm, Ia 12.7 mm
	share := sim.Rain{Method: sim.FixedShare, EffectiveShare: 0.8}
	for _, tt := range []struct {
		why                         string
		r                           sim.Rain
		rain, eto                   float64
		in, runoff, evaporatedWhole float64
	}{
		{"no rain", cn, 0, 5, 0, 0, 0},
		{"less than 0.2 ETo evaporates", cn, 0.99, 5, 0, 0, 0.99},
		{"0.2 ETo itself enters", cn, 1, 5, 1, 0, 0},
		{"below Ia all enters", cn, 12.7, 5, 12.7, 0, 0},
		// (50.8 − 12.7)²/(50.8 + 50.8) = 14.2875; TR-55 prints 0.56 in for 2.0 in.
		{"above Ia some runs off", cn, 50.8, 5, 50.8 - 14.2875, 14.2875, 0},
		{"a fixed share enters", share, 10, 5, 8, 2, 0},
		{"light rain evaporates with a fixed share, too", share, 0.5, 5, 0, 0, 0.5},
		{"without ETo every drop enters", share, 0.5, 0, 0.4, 0.1, 0},
	} {
		in, runoff, evaporated := tt.r.Split(tt.rain, tt.eto)
		if math.Abs(in-tt.in) > 1e-9 || math.Abs(runoff-tt.runoff) > 1e-9 || math.Abs(evaporated-tt.evaporatedWhole) > 1e-9 {
			t.Errorf("%s: %g, %g, %g, want %g, %g, %g", tt.why, in, runoff, evaporated, tt.in, tt.runoff, tt.evaporatedWhole)
		}
	}
}

// TestForcing by hand: July's coefficient on 6 mm of ETo, p adjusted and not.
func TestForcing(t *testing.T) {
	z := sim.Zone{TAWMM: 50, P: 0.4, Rain: sim.Rain{Method: sim.FixedShare, EffectiveShare: 0.5}}
	z.K[6], z.K[7] = 0.9, 0.5
	start := sim.NewCalendar(11869, 2) // 2002-07-01, the days of July and no other
	w := sim.Weather{Start: 11869, RainMM: []float64{8, 0.4}, EToMM: []float64{6, 2.5}}
	days := sim.Forcing(nil, &z, w, start)
	// ETc 5.4: p 0.4 + 0.04·(−0.4) = 0.384, RAW 19.2; ETc 2.25: p 0.51, RAW 25.5.
	for i, want := range []sim.Day{{ETcMM: 5.4, RAWMM: 19.2, Slope: 1 / (0.616 * 50), RainInMM: 4},
		{ETcMM: 2.25, RAWMM: 25.5, Slope: 1 / (0.49 * 50), RainInMM: 0}} {
		got := days[i]
		if math.Abs(got.ETcMM-want.ETcMM) > 1e-12 || math.Abs(got.RAWMM-want.RAWMM) > 1e-12 || math.Abs(got.Slope-want.Slope) > 1e-12 ||
			math.Abs(got.RainInMM-want.RainInMM) > 1e-12 {
			t.Errorf("day %d: %+v, want %+v", i, got, want)
		}
	}
	z.PConstant = true
	if d := sim.Forcing(days, &z, w, start)[0]; math.Abs(d.RAWMM-20) > 1e-12 || math.Abs(d.Slope-1/30.0) > 1e-12 {
		t.Errorf("p constant: %+v, want RAW 20 and slope 1/30", d)
	}
}

// TestClosed: the promise of the balance is 1e-9 mm either way.
func TestClosed(t *testing.T) {
	for r, want := range map[float64]bool{0: true, 1e-9: true, -1e-9: true, 2e-9: false, -2e-9: false, math.NaN(): false, math.Inf(1): false} {
		if sim.Closed(r) != want {
			t.Errorf("Closed(%g) is %v", r, !want)
		}
	}
}
