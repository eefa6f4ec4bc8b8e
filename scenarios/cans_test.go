package scenarios

import (
	"math"
	"testing"
)

func TestLowQuarterUniformity(t *testing.T) {
	tests := []struct {
		catches []float64
		want    float64
		tol     float64
		source  string
	}{
		{[]float64{47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12}, 0.4962039, 0.000001,
			"published: North Carolina State University, catch-can reference page: 15 cans, the quarter taken as 4"},
		{[]float64{10, 12, 14, 16, 18, 20, 22, 24}, 11.0 / 17, 1e-12, "hand: low quarter 10 and 12, mean 11; mean of all 17"},
		{[]float64{5, 5, 5, 5}, 1, 1e-12, "hand: even"},
	}
	for _, tt := range tests {
		if got := lowQuarterUniformity(tt.catches); math.Abs(got-tt.want) > tt.tol {
			t.Errorf("%v: %.7f, want %.7f (%s)", tt.catches, got, tt.want, tt.source)
		}
	}
	if !math.IsNaN(lowQuarterUniformity(nil)) || !math.IsNaN(lowQuarterUniformity([]float64{0, 0})) {
		t.Error("no water has no uniformity")
	}
}
