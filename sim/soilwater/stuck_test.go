package soilwater

import (
	"math"
	"testing"
)

func TestStuck(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		theta      []float64
		from, days int
	}{
		{nil, 0, 0},
		{[]float64{nan, nan}, 0, 0},
		{[]float64{0.3, 0.2, 0.2, 0.2, 0.3, 0.3}, 1, 3},
		{[]float64{0.2, 0.2, nan, 0.2, 0.2, 0.2}, 3, 3}, // a gap ends a run
	} {
		l := Level{Theta: tt.theta}
		if from, days := l.Stuck(); from != tt.from || days != tt.days {
			t.Errorf("%v: %d days from %d, by hand %d from %d", tt.theta, days, from, tt.days, tt.from)
		}
	}
}
