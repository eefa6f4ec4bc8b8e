package calibrate

import (
	"math"
	"slices"

	"loamledger/weather/portable"
)

// A shape is what is fitted: which months are off, when run times change, and whether
// there is a constant part.
type shape struct {
	constant bool
	off      Months
	changes  [mostChanges]int // fitted periods before which run times change, ascending
	n        int              // changes
	k        float64
}

// mostChanges is the maximum number of dated changes. A choice of ours: people rarely
// reprogram, and a meter cannot carry more.
const mostChanges = most - 2

// params is the number of parameters in a shape. A dated change counts twice.
func (s *shape) params() int {
	p := 1 + len(s.off.List()) + 2*s.n
	if s.constant {
		p++
	}
	if s.k != 1 {
		p++
	}
	return p
}

// A fitting is a shape fitted to data.
type fitting struct {
	shape
	fit
	ebic float64
}

// constantOf and level0 return the constant [m³/d] and the level before any change.
func (f *fitting) constantOf() float64 {
	if f.constant {
		return f.coef[0]
	}
	return 0
}

func (f *fitting) levelAt() int {
	if f.constant {
		return 1
	}
	return 0
}

func (f *fitting) scale() float64 { return f.coef[f.levelAt()] }

// factor returns the factor of run times after change c.
func (f *fitting) factor(c int) float64 {
	if s := f.scale(); s > 0 {
		return f.coef[f.levelAt()+1+c] / s
	}
	return 1
}

// columns returns the weighted columns of a shape over the fitted periods: days, then
// volume through open valves between changes.
func (w *work) columns(s shape) ([][]float64, error) {
	use, err := w.use(Altered{Off: s.off, K: s.k})
	if err != nil {
		return nil, err
	}
	columns := make([][]float64, 0, most)
	n := len(w.fitted)
	memory := make([]float64, n*(s.n+2))
	if s.constant {
		c := memory[(s.n+1)*n:]
		for k := range c {
			c[k] = w.days[k] * w.weight[k]
		}
		columns = append(columns, c)
	}
	for seg := range s.n + 1 {
		from, to := 0, n
		if seg > 0 {
			from = s.changes[seg-1]
		}
		if seg < s.n {
			to = s.changes[seg]
		}
		c := memory[seg*n:][:n]
		for k := from; k < to; k++ {
			c[k] = use[w.fitted[k]] * w.weight[k]
		}
		columns = append(columns, c)
	}
	return columns, nil
}

// at fits a shape to y, the weighted use of the fitted periods.
func (w *work) at(y []float64, s shape) (fitting, error) {
	f := fitting{shape: s}
	columns, err := w.columns(s)
	if err != nil {
		return f, err
	}
	b := w.box(&s)
	q := normalOf(y, columns)
	if f.fit = q.within(&b, face{}); f.ok {
		f.sse = residual(y, columns, f.coef[:])
	}
	f.ebic = w.ebic(&f)
	return f, nil
}

// box returns the bounds of the columns of a shape.
func (w *work) box(s *shape) box {
	return box{constant: s.constant, low: [2]float64{w.Bounds.constant.Low, w.Bounds.Scale.Low},
		high:     [2]float64{w.Bounds.constant.High, w.Bounds.Scale.High},
		ratioLow: w.Bounds.Factor.Low, ratioHigh: w.Bounds.Factor.High}
}

// ebic returns the extended Bayesian information criterion with γ = 1 and a correction for
// few periods, less is better:
//
//	n ln(SSE/n) + p ln n · n/(n − p − 2) + 2 ln C(months, off) + 2 ln C(dates, changes)
//
// A dated change counts as one parameter, its factor, since the last term is for its
// date. To the mean square is added that of the meter itself, so that a perfect
// fit cannot be bought with a parameter. Sources: Chen and Chen (2008), Extended Bayesian
// information criteria for model selection with large model spaces, Biometrika 95,
// 759–771, of which the abstract was seen, and the formula in the manuals of two programs;
// McQuarrie (1999), A small-sample correction for the Schwarz SIC model selection
// criterion, from memory.
func (w *work) ebic(f *fitting) float64 {
	n := float64(len(w.fitted))
	if !f.constant { // periods without water say nothing
		n = float64(w.watered)
	}
	off := len(f.off.List())
	p := float64(f.params() - f.n)
	if !f.ok || !(n > p+2) {
		return math.Inf(1)
	}
	return float64(n*portable.Log(f.sse/n+w.floor2)) + p*portable.Log(n)*n/(n-p-2) + float64(2*logChoose(len(w.offs), off)) +
		float64(2*logChoose(len(w.dates), f.n))
}

// logChoose returns ln C(n, k).
func logChoose(n, k int) (sum float64) {
	for i := range k {
		sum += portable.Log(float64(n-i) / float64(i+1))
	}
	return sum
}

// settle moves changes over periods without water, in which nothing shows them, to the
// next with some.
func (w *work) settle(s *shape) error {
	use, err := w.use(Altered{Off: s.off, K: s.k})
	for c := range s.n {
		for s.changes[c]+1 < len(w.fitted) && use[w.fitted[s.changes[c]]] == 0 {
			s.changes[c]++
		}
	}
	return err
}

// schedule searches months off and dated changes, adding one at a time, or two changes at
// once, as long as EBIC falls.
func (w *work) schedule(y []float64, from fitting) (fitting, error) {
	best := from
	for {
		next, err := w.oneMore(y, best)
		if err != nil {
			return best, err
		}
		if !(next.ebic < best.ebic) {
			if best.n == 0 {
				return best, nil
			}
			s := best.shape
			if err := w.settle(&s); err != nil {
				return best, err
			}
			return w.at(y, s)
		}
		best = next
	}
}

// mostPairs limits the periods for which two changes are tried at once.
const mostPairs = 40

func (w *work) oneMore(y []float64, now fitting) (fitting, error) {
	best, at := now.shape, now.ebic
	try := func(s shape, m *moments) {
		if ebic := w.quick(s, m); ebic < at {
			best, at = s, ebic
		}
	}
	if on := len(w.offs) - len(now.off.List()); on > 1 {
		for _, off := range w.offs {
			if now.off[off] {
				continue
			}
			s := now.shape
			s.off[off] = true
			m, err := w.moments(y, &s)
			if err != nil {
				return now, err
			}
			try(s, m)
		}
	}
	m, err := w.moments(y, &now.shape)
	if err != nil {
		return now, err
	}
	use, err := w.use(Altered{Off: now.off, K: now.k})
	if err != nil {
		return now, err
	}
	idle := func(d int) bool { return use[w.fitted[d]] == 0 } // the same as a later date
	for i, d := range w.dates {
		s := now.shape
		if idle(d) || !s.insert(d) {
			continue
		}
		try(s, m)
		if now.n > 0 || len(w.dates) > mostPairs {
			continue
		}
		for _, e := range w.dates[i+1:] {
			pair := s
			if !idle(e) && pair.insert(e) {
				try(pair, m)
			}
		}
	}
	if at == now.ebic {
		return now, nil
	}
	f, err := w.at(y, best)
	if !(f.ebic < now.ebic) { // by rounding
		return now, err
	}
	return f, err
}

// moments computes the moments of a shape, in the memory of the last.
func (w *work) moments(y []float64, s *shape) (*moments, error) {
	use, err := w.use(Altered{Off: s.off, K: s.k})
	if err == nil {
		w.sums.prepare(use, w, y)
	}
	return &w.sums, err
}

// apart is the minimum number of fitted periods between two changes.
const apart = 2

// insert adds a change; it returns false if one is too close.
func (s *shape) insert(d int) bool {
	if s.n == mostChanges {
		return false
	}
	for _, c := range s.changes[:s.n] {
		if d-c < apart && c-d < apart {
			return false
		}
	}
	s.changes[s.n] = d
	s.n++
	slices.Sort(s.changes[:s.n])
	return true
}
