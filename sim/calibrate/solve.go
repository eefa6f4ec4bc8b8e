package calibrate

import "math"

// most is the maximum number of columns of a fit: the constant, the flow scale, and a
// level after each of two changes.
const most = 4

// A fit is least squares on a few columns.
type fit struct {
	coef [most]float64
	sse  float64
	ok   bool
}

// leastSquares fits y by the columns, of which those with fixed[j] set keep their
// value of from. Columns that are alike to rounding give no fit.
func leastSquares(y []float64, columns [][]float64, fixed []bool, from []float64) (f fit) {
	var free [most]int
	n := 0
	for j := range columns {
		f.coef[j] = from[j]
		if !fixed[j] {
			free[n] = j
			n++
		}
	}
	var a [most][most + 1]float64
	for i := range y {
		rest := y[i]
		for j, c := range columns {
			if fixed[j] {
				rest -= from[j] * c[i]
			}
		}
		for p := range n {
			cp := columns[free[p]][i]
			for q := p; q < n; q++ {
				a[p][q] += cp * columns[free[q]][i]
			}
			a[p][n] += cp * rest
		}
	}
	for p := range n {
		for q := range p {
			a[p][q] = a[q][p]
		}
	}
	if !eliminate(&a, n) {
		return fit{}
	}
	for p := range n {
		f.coef[free[p]] = a[p][n]
	}
	f.sse, f.ok = residual(y, columns, f.coef[:]), true
	return f
}

// eliminate solves n equations in place, with columns scaled to the same size.
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
		if a[p][p] < 1e-9 { // of 1: the column is a mixture of those before
			return false
		}
		for r := range n {
			if r == p {
				continue
			}
			by := a[r][p] / a[p][p]
			for q := p; q <= n; q++ {
				a[r][q] -= by * a[p][q]
			}
		}
	}
	for p := range n {
		a[p][n] = a[p][n] / a[p][p] * scale[p]
	}
	return true
}

func residual(y []float64, columns [][]float64, coef []float64) (sse float64) {
	for i := range y {
		e := y[i]
		for j, c := range columns {
			e -= coef[j] * c[i]
		}
		sse += e * e
	}
	return sse
}

// A box is the bounds of a fit: of the constant, of the level before the first change,
// and of the ratio of each later level to that one.
type box struct {
	constant            bool // the first column is the constant
	low, high           [2]float64
	ratioLow, ratioHigh float64
}

// atFace says which coefficients are at a bound: −1 low, 0 free, 1 high.
type atFace [most]int8

// bounded fits y within the box, exactly: the best point is the least-squares point of
// some face of the box, and all faces are tried if the free one is outside.
func (b *box) bounded(y []float64, columns [][]float64) (best fit, face atFace) {
	n := len(columns)
	level := 0 // index of the level before the first change
	if b.constant {
		level = 1
	}
	var none [most]bool
	var zero [most]float64
	if f := leastSquares(y, columns, none[:n], zero[:n]); f.ok && b.inside(&f, n, level, atFace{}) {
		return f, face
	}
	faces := 1
	for range n {
		faces *= 3
	}
	for code := 1; code < faces; code++ {
		var at atFace
		for j, c := 0, code; j < n; j, c = j+1, c/3 {
			at[j] = [...]int8{0, -1, 1}[c%3]
		}
		f := b.onFace(y, columns, level, at)
		if f.ok && b.inside(&f, n, level, at) && (!best.ok || f.sse < best.sse) {
			best, face = f, at
		}
	}
	return best, face
}

// onFace fits y on one face. A level at a bound of its ratio adds its column, times
// the bound, to that of the level before the first change.
func (b *box) onFace(y []float64, columns [][]float64, level int, at atFace) fit {
	n := len(columns)
	var fixed [most]bool
	var from [most]float64
	own := make([][]float64, n)
	copy(own, columns)
	joined := false
	for j := range n {
		if at[j] == 0 {
			continue
		}
		if fixed[j] = true; j <= level {
			from[j] = b.low[j-level+1]
			if at[j] > 0 {
				from[j] = b.high[j-level+1]
			}
			continue
		}
		if !joined {
			own[level] = append([]float64(nil), own[level]...)
			joined = true
		}
		r := b.ratio(at[j])
		for i := range own[level] {
			own[level][i] += r * columns[j][i]
		}
	}
	f := leastSquares(y, own, fixed[:n], from[:n])
	for j := level + 1; j < n; j++ {
		if at[j] != 0 {
			f.coef[j] = b.ratio(at[j]) * f.coef[level]
		}
	}
	if f.ok {
		f.sse = residual(y, columns, f.coef[:])
	}
	return f
}

func (b *box) ratio(side int8) float64 {
	if side < 0 {
		return b.ratioLow
	}
	return b.ratioHigh
}

// inside reports whether the free coefficients of a fit are within the box.
func (b *box) inside(f *fit, n, level int, at atFace) bool {
	for j := range n {
		if at[j] != 0 {
			continue
		}
		v, low, high := f.coef[j], 0.0, 0.0
		if j <= level {
			low, high = b.low[j-level+1], b.high[j-level+1]
		} else {
			low, high = b.ratioLow*f.coef[level], b.ratioHigh*f.coef[level]
		}
		if !(v >= low-1e-12*(1+max(low, -low)) && v <= high+1e-12*(1+high)) {
			return false
		}
	}
	return true
}
