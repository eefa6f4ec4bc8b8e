package sim_test

import (
	"math"
	"strconv"
	"testing"

	"loamledger/sim"
	"loamledger/testdata/published"
)

// TestRunTimeMultiplier against the formula worked to three places (common
// practice, from memory).
func TestRunTimeMultiplier(t *testing.T) {
	rows := published.Cells(t, "sprinkler-run-time-multiplier.csv")
	if len(rows) != 7 {
		t.Fatalf("%d rows, want 7", len(rows))
	}
	for _, line := range rows {
		du, err1 := strconv.ParseFloat(line[0], 64)
		want, err2 := strconv.ParseFloat(line[1], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("%v: %v %v", line, err1, err2)
		}
		if got := sim.RunTimeMultiplier(du); math.Abs(got-want) > 0.0005 {
			t.Errorf("DU %g: %.4f, want %.3f", du, got, want)
		}
	}
}

// TestAppliedToNeeded by hand: DU 0.55 needs 1/(0.4 + 0.33) = 1.3699 times the
// water at the zone. A loss of 3% makes that 1.4122, and another 5% of overspray
// and 2% at broken heads 1.3699/0.9 = 1.5221. One strip is watered evenly.
func TestAppliedToNeeded(t *testing.T) {
	for _, tt := range []struct {
		zone sim.Zone
		want float64
	}{
		{sim.Zone{Strips: 8, DULQ: 0.55, LossShare: 0.03}, 1.4122},
		{sim.Zone{Strips: 8, DULQ: 0.55, LossShare: 0.03, OversprayShare: 0.05, BrokenShare: 0.02}, 1.5221},
		{sim.Zone{Strips: 1, DULQ: 0.55, LossShare: 0.2}, 1.25},
		{sim.Zone{Strips: 4, DULQ: 1}, 1},
	} {
		if got := tt.zone.AppliedToNeeded(); math.Abs(got-tt.want) > 0.00005 {
			t.Errorf("%+v: %.5f, want %.4f", tt.zone, got, tt.want)
		}
	}
}
