package scenarios_test

import (
	"math"
	"testing"

	"loamledger/scenarios"
)

// A difference of 9 °F is 5 °C, by definition of the scales; 0 °F apart is 0
// and not −17.8 °C.
func TestDegreesApart(t *testing.T) {
	for text, want := range map[string]float64{"2 C": 2, "0 C": 0, "9 F": 5, "0 F": 0, "3.6 °F": 2} {
		got, ok := scenarios.DegreesApart(text)
		if !ok || math.Abs(got-want) > 1e-12 {
			t.Errorf("%s apart is %g (%v), want %g", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "2", "2 mm", "C", "two C"} {
		if v, ok := scenarios.DegreesApart(text); ok {
			t.Errorf("%q is taken as %g °C", text, v)
		}
	}
}
