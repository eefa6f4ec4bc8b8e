package replay_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
)

// TestBriefsAreTheMonths holds that a brief gives the same digits, to the last
// bit, as the months it stands for, with years left out and on any number of
// goroutines.
func TestBriefsAreTheMonths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSite(t, 3, 3, 900)
		first := s.job.Weather.Start.Year()
		s.job.ExcludeYears = []int{first + rapid.IntRange(0, 3).Draw(t, "year left out")}
		whole := tableOf(t, &s.job)
		job := s.job
		job.Brief, job.Workers = true, rapid.IntRange(1, 3).Draw(t, "goroutines")
		brief := tableOf(t, &job)
		for s := range whole.Outcomes {
			for z := range whole.Outcomes[s] {
				same := func(what string, a, b sim.Sums) {
					if !slices.Equal(bits(a), bits(b)) {
						t.Fatalf("%s of strategy %d on zone %d: %+v, in brief %+v", what, s, z, a, b)
					}
				}
				same("the record", whole.Total(s, z), brief.Total(s, z))
				for y := first - 1; y < first+5; y++ {
					same("a year", whole.Year(s, z, y), brief.Year(s, z, y))
				}
				for i := range whole.Spans {
					a, b := whole.Month(s, z, i), brief.Month(s, z, i)
					a.Minutes = float64(float32(a.Minutes)) // a brief has seven digits of it
					if a != b {
						t.Fatalf("month %d of strategy %d on zone %d: %+v, in brief %+v", i, s, z, a, b)
					}
				}
			}
		}
	})
}
