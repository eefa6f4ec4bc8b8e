package calibrate

import (
	"math"
	"math/rand/v2"
	"slices"

	"loamledger/weather/portable"
)

// A drawn is what one resample came to.
type drawn struct {
	fitting
	ok bool
}

// intervals resamples the fit: every period keeps its modeled use and gets its own
// error, enlarged by its leverage, with a random sign; then schedule and values are
// found anew. The intervals are the quantiles, so they include doubt about the
// schedule. Source: the wild bootstrap with Rademacher signs and errors of type w3,
// û/(1 − h), in MacKinnon (2012), Inference based on the wild bootstrap.
func (w *work) intervals(f *fitting) error {
	fitted, err := w.model(f)
	if err != nil {
		return err
	}
	n := len(w.fitted)
	mean, errs := make([]float64, n), make([]float64, n)
	leverage, err := w.leverage(f)
	if err != nil {
		return err
	}
	for k, i := range w.fitted {
		mean[k] = float64((fitted[i] - w.leaks[i]) * w.weight[k])
		errs[k] = (float64(w.y[k]*w.weight[k]) - mean[k]) / (1 - min(leverage[k], mostLeverage))
	}
	rng := rand.New(rand.NewPCG(w.Seed, 0x63616c69))
	list := make([]drawn, 0, w.Draws)
	y := make([]float64, n)
	for range w.Draws {
		if err := w.ctx.Err(); err != nil {
			return err
		}
		for k := range y {
			y[k] = mean[k] + errs[k]
			if rng.Uint64()&1 == 0 {
				y[k] = mean[k] - errs[k]
			}
		}
		d, err := w.draw(y, f)
		if err != nil {
			return err
		}
		if d.ok {
			list = append(list, d)
		}
	}
	w.res.Draws = len(list)
	if len(list) > 0 {
		w.summarize(f, list)
	}
	return nil
}

// mostLeverage keeps an error finite at a period that alone decides a parameter.
const mostLeverage = 0.9

// draw fits one resample.
func (w *work) draw(y []float64, f *fitting) (drawn, error) {
	s := shape{constant: f.constant, k: 1}
	if f.k != 1 || w.memory { // another schedule would take replays
		s = f.shape
	}
	g, err := w.at(y, s)
	if err != nil || !g.ok {
		return drawn{}, err
	}
	switch {
	case f.k != 1:
		g, err = w.plants(y, g)
	case !w.memory:
		g, err = w.schedule(y, g)
	}
	return drawn{g, g.ok}, err
}

// leverage returns the diagonal of the hat matrix of the columns of a fit, bounds aside:
// the fit is linear, so that of a unit vector has it at the place of the unit.
func (w *work) leverage(f *fitting) ([]float64, error) {
	columns, err := w.columns(f.shape)
	if err != nil {
		return nil, err
	}
	n := len(w.fitted)
	out, unit := make([]float64, n), make([]float64, n)
	b := box{constant: f.constant}
	for k := range n {
		clear(unit)
		unit[k] = 1
		q := normalOf(unit, columns)
		g := q.on(&b, face{})
		for j := range columns {
			out[k] += float64(g.coef[j] * columns[j][k])
		}
	}
	return out, nil
}

// summarize turns the resamples into intervals, support and correlations.
func (w *work) summarize(f *fitting, list []drawn) {
	tail := float64((1 - w.res.Confidence) / 2)
	// Resamples vary as if the variance were known; Student's t makes up for it.
	wider := 1.0
	if free := float64(len(w.fitted) - w.res.P); free > 0 {
		wider = portable.StudentQuantile(free, 1-tail) / portable.NormalQuantile(1-tail)
	}
	interval := func(value float64, of func(*drawn) float64) [2]float64 {
		v := make([]float64, len(list))
		for i := range list {
			v[i] = of(&list[i])
		}
		slices.Sort(v)
		return [2]float64{value + float64(wider*(quantileOf(v, tail)-value)), value + float64(wider*(quantileOf(v, 1-tail)-value))}
	}
	share := func(is func(*drawn) bool) float64 {
		n := 0
		for i := range list {
			if is(&list[i]) {
				n++
			}
		}
		return float64(n) / float64(len(list))
	}
	c := -1
	for i := range w.res.Params {
		p := &w.res.Params[i]
		if !p.Tuned {
			continue
		}
		switch p.Key {
		case Base, Leak:
			p.Interval = interval(p.Value, func(d *drawn) float64 { return d.constantOf() })
		case Scale:
			p.Interval = interval(p.Value, func(d *drawn) float64 { return d.scale() })
		case K:
			p.Interval = interval(p.Value, func(d *drawn) float64 { return d.k })
		case Off:
			p.Support = share(func(d *drawn) bool { return d.off[p.Month-1] })
		case Change:
			c++
			at := f.changes[c]
			p.Interval = interval(p.Value, func(d *drawn) float64 { return d.level(at) })
			p.Support = share(func(d *drawn) bool { return slices.Contains(d.changes[:d.n], at) })
		}
	}
	w.alike(f, list)
}

// level returns the factor of run times in fitted period k.
func (f *fitting) level(k int) float64 {
	level := 1.0
	for c := range f.n {
		if k >= f.changes[c] {
			level = f.factor(c)
		}
	}
	return level
}

// quantileOf returns a quantile of sorted values, linear between them.
func quantileOf(sorted []float64, q float64) float64 {
	at := float64(q * float64(len(sorted)-1))
	i := min(int(at), len(sorted)-1)
	if i == len(sorted)-1 {
		return sorted[i]
	}
	return sorted[i] + float64((at-float64(i))*(sorted[i+1]-sorted[i]))
}

// alike names pairs of estimates that go together in the resamples.
func (w *work) alike(f *fitting, list []drawn) {
	type named struct {
		key Key
		of  func(*drawn) float64
	}
	var all []named
	if f.constant {
		key := Base
		if w.Dedicated {
			key = Leak
		}
		all = append(all, named{key, func(d *drawn) float64 { return d.constantOf() }})
	}
	all = append(all, named{Scale, func(d *drawn) float64 { return d.scale() }})
	for c := range f.n {
		at := f.changes[c]
		all = append(all, named{Change, func(d *drawn) float64 { return d.level(at) }})
	}
	if f.k != 1 {
		all = append(all, named{K, func(d *drawn) float64 { return d.k }})
	}
	for i := range all {
		for _, b := range all[i+1:] {
			if r := correlation(list, all[i].of, b.of); math.Abs(r) > alikeAt {
				w.res.Alike = append(w.res.Alike, Alike{all[i].key, b.key, r})
			}
		}
	}
}

// correlation returns the correlation of two values over the resamples; 0 if one does
// not vary.
func correlation(list []drawn, a, b func(*drawn) float64) float64 {
	n := float64(len(list))
	ma, mb := 0.0, 0.0
	for i := range list {
		ma += a(&list[i]) / n
		mb += b(&list[i]) / n
	}
	saa, sbb, sab := 0.0, 0.0, 0.0
	for i := range list {
		x, y := a(&list[i])-ma, b(&list[i])-mb
		saa += float64(x * x)
		sbb += float64(y * y)
		sab += float64(x * y)
	}
	if !(saa > 0 && sbb > 0) {
		return 0
	}
	return sab / math.Sqrt(saa*sbb)
}
