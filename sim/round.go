package sim

import "math"

// hair is the tolerance for ties, in steps: 35 min at 90% is 31.499999999999996
// in a computer and 31.5 to everyone else.
const hair = 1e-9

// RoundHalfUp returns v rounded to a multiple of step, ties upward. A value less
// than a billionth of a step below a tie counts as one. step must be above 0.
func RoundHalfUp(v, step float64) float64 {
	return float64(math.Floor(float64(v/step)+0.5+hair) * step)
}
