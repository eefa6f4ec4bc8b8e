package calibrate

import (
	"context"
	"math"
	"slices"
)

// Run calibrates. The error is that of a replay.
func (j *Job) Run(ctx context.Context) (*Result, error) {
	own := *j
	if own.Confidence == 0 {
		own.Confidence = DefaultConfidence
	}
	if own.Draws == 0 {
		own.Draws = DefaultDraws
	}
	nan := math.NaN()
	w := &work{Job: &own, ctx: ctx, cache: map[Altered][]float64{}, months: map[float64]*[12][]float64{},
		res: &Result{Confidence: own.Confidence, Altered: Altered{K: 1}, Other: Pair{nan, nan}}}
	if err := w.probe(); err != nil {
		return nil, err
	}
	w.part()
	if _, err := w.use(Altered{K: 1}); err != nil {
		return nil, err
	}
	w.gather()
	own.Bounds = own.Bounds.over(defaultBounds(w.quiet))
	before := fitting{shape: shape{constant: true, k: 1}}
	before.coef = [most]float64{w.start(), 1}
	if err := w.fill(&before, func(r *Row) *float64 { return &r.Before }); err != nil {
		return nil, err
	}
	if w.res.Stopped = w.stopped(); w.res.Stopped != "" {
		return w.res, w.fill(&before, func(r *Row) *float64 { return &r.After })
	}
	final, err := w.stages()
	if err != nil {
		return nil, err
	}
	return w.res, w.finish(&final)
}

// start is the constant part before the calibration [m³/d].
func (w *work) start() float64 {
	if w.Dedicated || w.Base == nil || len(w.fitted) == 0 {
		return 0
	}
	return max(w.Base(w.fitted), 0)
}

// stopped says why nothing can be tuned.
func (w *work) stopped() Reason {
	if len(w.fitted) < leastPeriods {
		return TooFew
	}
	used, runs := false, false
	all := w.cache[Altered{K: 1}]
	for k, i := range w.fitted {
		used = used || w.y[k] > 0
		runs = runs || all[i] > 0
	}
	switch {
	case !used:
		return NoUse
	case !runs:
		return NeverWaters
	}
	return ""
}

// weighted fits a shape twice: without weights, and with those that follow from it.
func (w *work) weighted(s shape) (fitting, error) {
	f, err := w.at(w.y, s)
	if err != nil || !f.ok {
		return f, err
	}
	model, err := w.model(&f)
	if err != nil {
		return f, err
	}
	own := make([]float64, len(w.fitted))
	for k, i := range w.fitted {
		own[k] = model[i] - w.leaks[i]
	}
	w.weigh(own)
	return w.at(w.target(), s)
}

// target returns the weighted use of the fitted periods, leaks of the scenario aside.
func (w *work) target() []float64 {
	out := make([]float64, len(w.y))
	for k := range out {
		out[k] = w.y[k] * w.weight[k]
	}
	return out
}

// step notes what a stage has come to.
func (w *work) step(key Key, f *fitting, kept bool) {
	p := f.params()
	if key == Base || w.flat && !w.Dedicated {
		p-- // the flow is not tuned yet, or the constant part stays
	}
	w.res.Steps = append(w.res.Steps, Step{Key: key, P: p, M3: w.rms(f), EBIC: f.ebic, Kept: kept})
}

// rms returns the root mean square of what a fitting leaves, without weights [m³].
func (w *work) rms(f *fitting) float64 {
	model, err := w.model(f)
	sum := 0.0
	for _, i := range w.fitted {
		e := w.Periods[i].M3 - model[i]
		sum += e * e / float64(len(w.fitted))
	}
	if err != nil {
		return math.NaN()
	}
	return math.Sqrt(sum)
}

// stages tunes one stage after the other and returns what is left.
func (w *work) stages() (fitting, error) {
	plain := shape{constant: !w.Dedicated, k: 1}
	if w.flat = w.alikeEveryDay(); w.flat {
		w.find(SameEveryDay)
		w.Bounds.constant.Low, w.Bounds.constant.High = w.start(), w.start()
	} else if !w.Dedicated {
		f, err := w.baseAlone(plain)
		if err != nil {
			return f, err
		}
		w.step(Base, &f, true)
	}
	f, err := w.weighted(plain)
	if err != nil {
		return f, err
	}
	w.step(Scale, &f, true)
	if err := w.candidates(); err != nil {
		return f, err
	}
	g, err := w.schedule(w.target(), f)
	if err != nil {
		return f, err
	}
	if w.res.Searched = len(w.offs)+len(w.dates) > 0; w.res.Searched {
		for _, key := range []Key{Off, Change} {
			kept := key == Off && g.off != f.off || key == Change && g.n > 0
			w.step(key, &g, kept)
		}
	}
	f = g
	if w.Dedicated && !w.flat {
		s := f.shape
		s.constant = true
		if g, err = w.at(w.target(), s); err != nil {
			return f, err
		}
		kept := g.ok && g.constantOf() > 0 && g.ebic < f.ebic
		w.step(Leak, &g, kept)
		if kept {
			f = g
		}
	}
	if !w.res.Plants || len(w.fitted) < EnoughPeriods {
		return f, nil
	}
	g, err = w.plants(w.target(), f)
	if err != nil {
		return f, err
	}
	kept := g.ebic < f.ebic
	w.step(K, &g, kept)
	if kept {
		f = g
	} else {
		w.find(flowOrK)
	}
	return f, nil
}

// leastSpread is the coefficient of variation of the replayed use per day below which a
// constant part is not told from irrigation. A choice of ours.
const leastSpread = 0.1

// alikeEveryDay reports whether the replay uses nearly the same a day in all fitted
// periods.
func (w *work) alikeEveryDay() bool {
	use := w.cache[Altered{K: 1}]
	n := float64(len(w.fitted))
	mean, square := 0.0, 0.0
	for k, i := range w.fitted {
		v := use[i] / w.days[k]
		mean += v / n
		square += v * v / n
	}
	return square-float64(mean*mean) < leastSpread*leastSpread*mean*mean
}

// baseAlone takes the constant part from the periods in which the replay waters nothing,
// with flows as in the scenario; the start value if there are none.
func (w *work) baseAlone(s shape) (fitting, error) {
	f := fitting{shape: s}
	use, err := w.use(Altered{K: 1})
	if err != nil {
		return f, err
	}
	m3, days := 0.0, 0.0
	columns := [][]float64{w.days, make([]float64, len(w.fitted))}
	for k, i := range w.fitted {
		columns[1][k] = use[i]
		if use[i] == 0 {
			m3 += w.y[k]
			days += w.days[k]
		}
	}
	constant := w.start()
	if days > 0 {
		constant = min(max(m3/days, w.Bounds.constant.Low), w.Bounds.constant.High)
	}
	f.coef = [most]float64{constant, 1}
	f.sse, f.ok = residual(w.y, columns, f.coef[:]), true
	f.ebic = w.ebic(&f)
	return f, nil
}

// find adds a finding.
func (w *work) find(f Finding) {
	if !slices.Contains(w.res.Findings, f) {
		w.res.Findings = append(w.res.Findings, f)
	}
}

// model returns what a fitting gives the meter in every period [m³], NaN for those
// outside the weather.
func (w *work) model(f *fitting) ([]float64, error) {
	use, err := w.use(Altered{Off: f.off, K: f.k})
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(w.Periods))
	for i := range out {
		p := &w.Periods[i]
		if p.From < w.plain.Start || p.To > w.plain.end() {
			out[i] = math.NaN()
			continue
		}
		level := f.scale()
		for c := range f.n {
			if p.From >= w.Periods[w.fitted[f.changes[c]]].From {
				level = f.scale() * f.factor(c)
			}
		}
		out[i] = float64(f.constantOf()*float64(p.Days())) + w.leaks[i] + float64(level*use[i])
	}
	return out, nil
}

func (w *work) fill(f *fitting, into func(*Row) *float64) error {
	model, err := w.model(f)
	for i := range w.res.Rows {
		if err == nil {
			*into(&w.res.Rows[i]) = model[i]
		}
	}
	return err
}
