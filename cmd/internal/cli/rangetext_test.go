package cli

import (
	"testing"

	"loamledger/weather/quantity"
)

// By hand: 0.1 mm is 0.0039 in and 100 mm is 3.937 in, rounded into the range;
// 0.5 m/s is 1.118 mph; a day has 1,440 min, which no system rounds.
func TestRangesAreRoundedInward(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		dim       quantity.Dimension
		sys       quantity.System
		want      string
	}{
		{0.1, 100, quantity.Depth, quantity.US, "0.01 in to 3.9 in"},
		{0.1, 100, quantity.Depth, quantity.SI, "0.1 mm to 100 mm"},
		{0, 25.4, quantity.Depth, quantity.US, "0 in to 1 in"},
		{0.5, 40, quantity.Speed, quantity.US, "1.2 mph to 89 mph"},
		{0.1, 1440, quantity.Duration, quantity.US, "0.1 min to 1,440 min"},
		{-20, 20, quantity.Temperature, quantity.US, "-4 °F to 68 °F"},
	} {
		if got := rangeText(c.low, c.high, c.dim, false, c.sys); got != c.want {
			t.Errorf("%g to %g: %q, want %q", c.low, c.high, got, c.want)
		}
	}
}
