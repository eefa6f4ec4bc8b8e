package calibrate

import "math"

// moments are the sums of products from which every placement of changes is fitted in a
// few steps, for one use and one y, weighted. Sums up to k exclude fitted period k.
type moments struct {
	uu, ud, uy []float64 // running sums of use², use·days and use·y
	dd, dy, yy float64
}

// prepare computes the moments.
func (m *moments) prepare(use []float64, w *work, y []float64) {
	n := len(w.fitted)
	if m.uu == nil {
		m.uu, m.ud, m.uy = make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	}
	m.dd, m.dy, m.yy = 0, 0, 0
	for k, i := range w.fitted {
		u, d := use[i]*w.weight[k], w.days[k]*w.weight[k]
		m.uu[k+1], m.ud[k+1], m.uy[k+1] = m.uu[k]+u*u, m.ud[k]+u*d, m.uy[k]+u*y[k]
		m.dd, m.dy, m.yy = m.dd+d*d, m.dy+d*y[k], m.yy+y[k]*y[k]
	}
}

// solve fits a shape. ok is false if the fit must be made from the columns: it has no
// solution, it is outside the box, or so close that rounding matters.
func (m *moments) solve(s *shape, b *box) (sse float64, ok bool) {
	var a [most][most + 1]float64
	var f fit
	n, level := 0, 0
	if s.constant {
		a[0][0], a[0][most] = m.dd, m.dy
		n, level = 1, 1
	}
	last := len(m.uu) - 1
	for seg := range s.n + 1 {
		from, to := 0, last
		if seg > 0 {
			from = s.changes[seg-1]
		}
		if seg < s.n {
			to = s.changes[seg]
		}
		a[n][n], a[n][most] = m.uu[to]-m.uu[from], m.uy[to]-m.uy[from]
		if s.constant {
			a[0][n] = m.ud[to] - m.ud[from]
			a[n][0] = a[0][n]
		}
		n++
	}
	var right [most]float64
	for p := range n {
		right[p] = a[p][most]
		a[p][most] = 0
		a[p][n] = right[p]
	}
	if !eliminate(&a, n) {
		return 0, false
	}
	sse = m.yy
	for p := range n {
		f.coef[p] = a[p][n]
		sse -= a[p][n] * right[p]
	}
	if !(sse > rounding*m.yy) || !b.inside(&f, n, level, atFace{}) {
		return 0, false
	}
	return sse, true
}

// rounding is the share of the sum of squares below which a difference of sums is not
// trusted.
const rounding = 1e-10

// quick returns the criterion of a shape, as [work.at] finds it.
func (w *work) quick(y []float64, s shape, m *moments) (float64, error) {
	b := w.box(&s)
	if sse, ok := m.solve(&s, &b); ok {
		f := fitting{shape: s, fit: fit{sse: sse, ok: true}}
		return w.ebic(&f), nil
	}
	f, err := w.at(y, s)
	if !f.ok {
		return math.Inf(1), err
	}
	return f.ebic, err
}
