package calibrate

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
		m.uu[k+1], m.ud[k+1], m.uy[k+1] = m.uu[k]+float64(u*u), m.ud[k]+float64(u*d), m.uy[k]+float64(u*y[k])
		m.dd, m.dy, m.yy = m.dd+float64(d*d), m.dy+float64(d*y[k]), m.yy+float64(y[k]*y[k])
	}
}

// normal returns the normal equations of a shape.
func (m *moments) normal(s *shape) (q normal) {
	q.yy = m.yy
	if s.constant {
		q.a[0][0], q.b[0], q.n = m.dd, m.dy, 1
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
		n := q.n
		q.a[n][n], q.b[n] = m.uu[to]-m.uu[from], m.uy[to]-m.uy[from]
		if s.constant {
			q.a[0][n] = m.ud[to] - m.ud[from]
			q.a[n][0] = q.a[0][n]
		}
		q.n++
	}
	return q
}

// quick returns the criterion of a shape, as [work.at] finds it but for rounding.
func (w *work) quick(s shape, m *moments) float64 {
	b, q := w.box(&s), m.normal(&s)
	f := fitting{shape: s, fit: q.within(&b, face{})}
	return w.ebic(&f)
}
