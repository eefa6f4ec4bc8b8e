package sim_test

import (
	"testing"

	"loamledger/sim"
)

// TestRoundHalfUp: hand. The second is the noise of 0.9 in binary.
func TestRoundHalfUp(t *testing.T) {
	share := 0.9
	for _, c := range []struct{ v, step, want float64 }{
		{31.5, 1, 32},
		{35 * share, 1, 32},
		{10.5, 1, 11},
		{31.4999, 1, 31},
		{31.6, 1, 32},
		{2.25, 0.5, 2.5},
		{0.4, 1, 0},
		{0.5, 1, 1},
		{0, 1, 0},
	} {
		if got := sim.RoundHalfUp(c.v, c.step); got != c.want {
			t.Errorf("RoundHalfUp(%.17g, %g) = %g, want %g", c.v, c.step, got, c.want)
		}
	}
}
