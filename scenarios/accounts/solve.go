package accounts

import "math"

// A solver finds the factor on run times that gives a metered use. Use rises with the factor,
// in a straight line for a fixed schedule, so that the second try is right; where people or
// sensors decide, it takes a few.
type solver struct {
	target float64
	points []point
}

type point struct{ scale, use float64 }

func (s *solver) add(scale, use float64) { s.points = append(s.points, point{scale, use}) }

func (s *solver) last() point { return s.points[len(s.points)-1] }

// next returns the next factor to try, 0 or more: on the line through the two points nearest
// to the target or, of one point, through 0.
func (s *solver) next() float64 {
	if len(s.points) == 1 {
		return s.points[0].scale * s.target / s.points[0].use
	}
	near, second := s.points[len(s.points)-1], s.points[len(s.points)-2]
	if d := near.use - second.use; d != 0 {
		if next := near.scale + (s.target-near.use)*(near.scale-second.scale)/d; next > near.scale/3 && next < 3*near.scale {
			return next
		}
	}
	if near.use > 0 {
		return near.scale * s.target / near.use
	}
	return 2 * near.scale
}

// stuck reports whether another try changes nothing: the use moves in steps.
func (s *solver) stuck() bool {
	n := len(s.points)
	return n > 2 && math.Abs(s.points[n-1].scale-s.points[n-2].scale) <= 1e-9*s.points[n-1].scale
}
