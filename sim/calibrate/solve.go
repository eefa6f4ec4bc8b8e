package calibrate

import "math"

// most is the maximum number of columns of a fit: the constant, the flow scale, and a
// level after each of two changes.
const most = 4

// A normal is the normal equations of a fit by least squares.
type normal struct {
	n  int
	a  [most][most]float64 // products of the columns
	b  [most]float64       // products of the columns with y
	yy float64
}

// A fit is the coefficients of the columns and the sum of squares that is left.
type fit struct {
	coef [most]float64
	sse  float64
	ok   bool
}

// normalOf computes the normal equations of columns.
func normalOf(y []float64, columns [][]float64) (q normal) {
	q.n = len(columns)
	for i := range y {
		q.yy += float64(y[i] * y[i])
		for p, c := range columns {
			q.b[p] += float64(c[i] * y[i])
			for r := p; r < q.n; r++ {
				q.a[p][r] += float64(c[i] * columns[r][i])
			}
		}
	}
	for p := range q.n {
		for r := range p {
			q.a[p][r] = q.a[r][p]
		}
	}
	return q
}

// A box is the bounds of a fit: of the constant, of the level before the first change,
// and of the ratio of each later level to that one.
type box struct {
	constant            bool // the first column is the constant
	low, high           [2]float64
	ratioLow, ratioHigh float64
}

// A face says which coefficients are at a bound: −1 low, 0 free, 1 high.
type face [most]int8

// level is the index of the level before the first change.
func (b *box) level() int {
	if b.constant {
		return 1
	}
	return 0
}

// bound returns the bound of coefficient j on the given side: a value, or a ratio to the
// level before the first change.
func (b *box) bound(j int, side int8) float64 {
	low, high := b.ratioLow, b.ratioHigh
	if level := b.level(); j <= level {
		low, high = b.low[j-level+1], b.high[j-level+1]
	}
	if side < 0 {
		return low
	}
	return high
}

// within finds the best point of the box. If the best point of a face is outside, some
// bound that it violates holds at the best point within: the problem is convex. A
// constant of which only one value is allowed is fixed.
func (q *normal) within(b *box, at face) fit {
	if b.constant && at[0] == 0 && b.low[0] == b.high[0] {
		at[0] = -1
	}
	f := q.on(b, at)
	if !f.ok {
		return f
	}
	level := b.level()
	var best fit
	outside := false
	for j := range q.n {
		if at[j] != 0 {
			continue
		}
		by := 1.0
		if j > level {
			by = f.coef[level]
		}
		low, high := float64(by*b.bound(j, -1)), float64(by*b.bound(j, 1))
		side := int8(0)
		switch slack := float64(1e-12 * (1 + math.Abs(high))); {
		case f.coef[j] < low-slack:
			side = -1
		case f.coef[j] > high+slack:
			side = 1
		default:
			continue
		}
		outside = true
		next := at
		next[j] = side
		if g := q.within(b, next); g.ok && (!best.ok || g.sse < best.sse) {
			best = g
		}
	}
	if outside {
		return best
	}
	return f
}

// on finds the best point of a face. A level at a bound of its ratio moves with the level
// before the first change.
func (q *normal) on(b *box, at face) (f fit) {
	// Coefficients are into·(free ones) + f.coef.
	var into [most][most]float64
	var free [most]int
	n, level := 0, b.level()
	for j := range q.n {
		switch {
		case at[j] == 0:
			free[n] = j
			into[j][n] = 1
			n++
		case j <= level:
			f.coef[j] = b.bound(j, at[j])
		default:
			r := b.bound(j, at[j])
			into[j] = into[level]
			for c := range into[j] {
				into[j][c] *= r
			}
			f.coef[j] = r * f.coef[level]
		}
	}
	var rest [most]float64
	for p := range q.n {
		rest[p] = q.b[p]
		for r := range q.n {
			rest[p] -= float64(q.a[p][r] * f.coef[r])
		}
	}
	var own [most][most + 1]float64
	for x := range n {
		for p := range q.n {
			if into[p][x] == 0 {
				continue
			}
			own[x][n] += float64(into[p][x] * rest[p])
			for z := range n {
				for r := range q.n {
					own[x][z] += float64(into[p][x] * q.a[p][r] * into[r][z])
				}
			}
		}
	}
	if !eliminate(&own, n) {
		return fit{}
	}
	for j := range q.n {
		for x := range n {
			f.coef[j] += float64(into[j][x] * own[x][n])
		}
	}
	f.sse, f.ok = q.left(&f.coef), true
	return f
}

// left returns the sum of squares that coefficients leave.
func (q *normal) left(coef *[most]float64) float64 {
	sse := q.yy
	for p := range q.n {
		sse -= float64(2 * coef[p] * q.b[p])
		for r := range q.n {
			sse += float64(coef[p] * q.a[p][r] * coef[r])
		}
	}
	return max(sse, 0)
}

// eliminate solves n equations in place, with columns scaled to the same size. It returns
// false if a column is a mixture of those before.
func eliminate(a *[most][most + 1]float64, n int) bool {
	var scale [most]float64
	for p := range n {
		if !(a[p][p] > 0) {
			return false
		}
		scale[p] = 1 / math.Sqrt(a[p][p])
	}
	for p := range n {
		for q := range n {
			a[p][q] *= scale[p] * scale[q]
		}
		a[p][n] *= scale[p]
	}
	for p := range n {
		if a[p][p] < 1e-9 { // of 1
			return false
		}
		for r := range n {
			if r == p {
				continue
			}
			by := a[r][p] / a[p][p]
			for q := p; q <= n; q++ {
				a[r][q] -= float64(by * a[p][q])
			}
		}
	}
	for p := range n {
		a[p][n] = a[p][n] / a[p][p] * scale[p]
	}
	return true
}

// residual returns the sum of squares that coefficients leave, without the rounding of a
// difference of sums.
func residual(y []float64, columns [][]float64, coef []float64) (sse float64) {
	for i := range y {
		e := y[i]
		for j, c := range columns {
			e -= float64(coef[j] * c[i])
		}
		sse += float64(e * e)
	}
	return sse
}
