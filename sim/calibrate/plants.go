package calibrate

import "math"

// steps is the number of steps between the bounds of the plant coefficients.
const steps = 12

// plants tunes the factor on plant coefficients on a grid, and between its points by
// the parabola through the three best.
func (w *work) plants(y []float64, from fitting) (fitting, error) {
	low, high := w.Bounds.K.Low, w.Bounds.K.High
	best, at := from, -1
	var all [steps + 1]fitting
	for i := range all {
		s := from.shape
		if s.k = low + (high-low)*float64(i)/steps; math.Abs(s.k-1) < 1e-9 {
			s.k = 1
		}
		f, err := w.at(y, s)
		if err != nil {
			return from, err
		}
		all[i] = f
		if f.ok && (at < 0 || f.sse < all[at].sse) {
			best, at = f, i
		}
	}
	if at <= 0 || at == steps || !all[at-1].ok || !all[at+1].ok {
		return best, nil
	}
	left, middle, right := all[at-1].sse, all[at].sse, all[at+1].sse
	bend := left - 2*middle + right
	if !(bend > 0) {
		return best, nil
	}
	// Whole steps of 1/1000, so that resamples share replays.
	s := from.shape
	s.k = math.Round(1000*(all[at].k+(high-low)/steps*(left-right)/(2*bend))) / 1000
	f, err := w.at(y, s)
	if err == nil && f.ok && f.sse < best.sse {
		best = f
	}
	return best, err
}
