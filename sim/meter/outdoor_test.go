package meter

import (
	"math"
	"testing"

	"loamledger/weather/cal"
)

// TestOutdoor takes base use off each day. By hand: 60 m3 in the 30 days of April are
// 2 m3 a day, less 0.5 of base use 1.5; 3 m3 in 30 days are 0.1, 0.4 below base use. The
// period after the change and the one left out have no days.
func TestOutdoor(t *testing.T) {
	start := cal.Of(2021, 4, 1)
	s := &Site{Days: &Days{Start: start, SimM3: make([]float64, 121)}, Periods: []Period{
		{From: start - 10, To: start + 20, M3: 60},
		{From: start + 20, To: start + 50, M3: 3},
		{From: start + 50, To: start + 80, M3: 99, Left: true},
		{From: start + 80, To: start + 110, M3: 99},
	}}
	c := &Comparison{Before: []int{0, 1}, After: []int{3}, Bases: []Base{{Method: LowestWinter, M3Day: 0.5}}}
	got := s.Outdoor(c)
	for day, want := range map[int]float64{0: 1.5, 19: 1.5, 20: -0.4, 49: -0.4} {
		if math.Abs(got[day]-want) > 1e-12 {
			t.Errorf("day %d: %v m3, want %v", day, got[day], want)
		}
	}
	for _, day := range []int{50, 79, 80, 120} {
		if !math.IsNaN(got[day]) {
			t.Errorf("day %d: %v m3, want none", day, got[day])
		}
	}
	if c.Base = -1; s.Outdoor(c) != nil {
		t.Error("outdoor use without base use")
	}
}
