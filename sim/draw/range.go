// Package draw is for numbers that are not exactly known: ranges, quasi-random draws
// from them, and what many draws say about a result.
//
// Points are those of a randomized Halton sequence, so equal seeds give equal draws,
// and the first n of more points are the n points. Nothing here uses the clock or a
// random source of its own.
package draw

import "math"

// A Range is where a number lies. If Flat is set, every value from Low to High is as
// likely as any other and Mode is the middle; else the likelihood rises in a straight
// line from Low to Mode and falls from there to High. Low ≤ Mode ≤ High.
//
// If Whole is set, only whole numbers are drawn: of a flat range each with the same
// chance, else each with the chance of the half to either side of it. Low and High are
// then whole.
type Range struct {
	Low, Mode, High float64
	Flat, Whole     bool
}

// Between returns the range in which all values are equally likely.
func Between(low, high float64) Range {
	return Range{Low: low, Mode: low + float64((high-low)/2), High: high, Flat: true}
}

// Around returns the range with a most likely value.
func Around(low, mode, high float64) Range { return Range{Low: low, Mode: mode, High: high} }

// Counted returns the range r with whole numbers only. Of a flat range Mode is the middle,
// or the lower of the two middle numbers.
func Counted(r Range) Range {
	r.Whole = true
	if r.Flat {
		r.Mode = math.Floor((r.Low + r.High) / 2)
	}
	return r
}

// Known reports whether r is a range at all: its ends differ and are in order.
func (r Range) Known() bool { return r.Low < r.High && r.Low <= r.Mode && r.Mode <= r.High }

// At returns the value below which a share u, 0 to 1, of all draws lies: the inverse of
// the distribution function. Of a range that is not known it is Mode.
func (r Range) At(u float64) float64 {
	if r.Whole && r.Known() {
		if r.Flat {
			return min(r.Low+math.Floor(u*(r.High-r.Low+1)), r.High)
		}
		wide := Around(r.Low-0.5, r.Mode, r.High+0.5)
		return min(max(math.Floor(wide.At(u)+0.5), r.Low), r.High)
	}
	width := r.High - r.Low
	switch left := (r.Mode - r.Low) / width; {
	case !r.Known():
		return r.Mode
	case r.Flat:
		return r.Low + float64(u*width)
	case u < left:
		return r.Low + math.Sqrt(u*width*(r.Mode-r.Low))
	default:
		return r.High - math.Sqrt((1-u)*width*(r.High-r.Mode))
	}
}

// Mean returns the mean of all draws.
func (r Range) Mean() float64 {
	if r.Flat {
		return (r.Low + r.High) / 2
	}
	return (r.Low + r.Mode + r.High) / 3
}

// variance returns the variance of all draws: w²/12 for a flat range and
// (a² + b² + c² − ab − ac − bc)/18 for a triangle. Source: elementary integration.
func (r Range) variance() float64 {
	a, b, c := r.Low, r.Mode, r.High
	if r.Flat {
		return (c - a) * (c - a) / 12
	}
	return (float64(a*a) + float64(b*b) + float64(c*c) - float64(a*b) - float64(a*c) - float64(b*c)) / 18
}
