package tally

import "testing"

// By hand: 0.9·31 = 27.9, so the 28th of 30; 0.5·31 = 15.5 rounds to 16;
// 0.1·31 = 3.1. With five years 0.9·6 = 5.4 is the fifth, with one all are it,
// and 0.9·9 = 8.1 is past the last but one.
func TestRank(t *testing.T) {
	for _, tt := range []struct {
		share   float64
		n, want int
	}{
		{DryShare, 30, 27}, {MedianShare, 30, 15}, {WetShare, 30, 2}, {DryShare, 5, 4}, {WetShare, 5, 0},
		{MedianShare, 5, 2}, {DryShare, 1, 0}, {WetShare, 1, 0}, {DryShare, 8, 7}, {DryShare, 9, 8},
	} {
		if got := Rank(tt.share, tt.n); got != tt.want {
			t.Errorf("Rank(%g, %d) = %d, want %d", tt.share, tt.n, got, tt.want)
		}
	}
}
