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
		{dryShare, 30, 27}, {medianShare, 30, 15}, {wetShare, 30, 2}, {dryShare, 5, 4}, {wetShare, 5, 0},
		{medianShare, 5, 2}, {dryShare, 1, 0}, {wetShare, 1, 0}, {dryShare, 8, 7}, {dryShare, 9, 8},
	} {
		if got := rank(tt.share, tt.n); got != tt.want {
			t.Errorf("Rank(%g, %d) = %d, want %d", tt.share, tt.n, got, tt.want)
		}
	}
}
