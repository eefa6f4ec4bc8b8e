package calibrate

import (
	"math"
)

// clearGain is the share by which the error of the held-out periods must fall for the
// values to be worth using. A choice of ours, as in comparisons with measured soil water.
const clearGain = 0.05

// clearlyMore is the share by which metered use must exceed the constant part to say
// that water ran while the replay is off. A choice of ours.
const clearlyMore = 0.25

// finish lists the parameters, their intervals and the findings.
func (w *work) finish(f *fitting) error {
	r := w.res
	if r.P = f.params(); w.flat && !w.Dedicated {
		r.P--
	}
	r.Altered = Altered{Off: f.off, K: f.k}
	if err := w.fill(f, func(r *Row) *float64 { return &r.After }); err != nil {
		return err
	}
	for i, use := range w.cache[r.Altered] {
		if part := r.Rows[i].Part; part != Left {
			r.Rows[i].Irrigated = r.Rows[i].After - float64(f.constantOf()*float64(w.Periods[i].Days())) - w.leaks[i]
		}
		if use == 0 {
			r.Rows[i].Irrigated = 0
		}
	}
	w.list(f)
	if w.Draws > 0 {
		if err := w.intervals(f); err != nil {
			return err
		}
	}
	if err := w.otherPart(); err != nil {
		return err
	}
	w.findings(f)
	return nil
}

// list lists the parameters in the order they are tuned.
func (w *work) list(f *fitting) {
	nan := math.NaN()
	none := [2]float64{nan, nan}
	add := func(p Param) {
		p.Interval = none
		if !(p.Support >= 0) {
			p.Support = nan
		}
		if p.Tuned {
			width := float64(1e-9 * (1 + math.Abs(p.High-p.Low)))
			p.AtBound = p.Key != Off && (p.Value <= p.Low+width || p.Value >= p.High-width)
		}
		w.res.Params = append(w.res.Params, p)
	}
	if !w.Dedicated {
		add(Param{Key: Base, Start: w.start(), Value: f.constantOf(), Range: w.Bounds.constant, Tuned: !w.flat, Support: nan})
	}
	add(Param{Key: Scale, Start: 1, Value: f.scale(), Range: w.Bounds.Scale, Tuned: true, Support: nan})
	for _, m := range f.off.List() {
		add(Param{Key: Off, Month: m, Start: 1, Value: 0, Range: Range{Low: 0, High: 1}, Tuned: true, Support: nan})
	}
	for c := range f.n {
		add(Param{Key: Change, From: w.Periods[w.fitted[f.changes[c]]].From, Start: 1, Value: f.factor(c), Range: w.Bounds.Factor, Tuned: true,
			Support: nan})
	}
	if w.Dedicated {
		add(Param{Key: Leak, Value: f.constantOf(), Range: w.Bounds.constant, Tuned: f.constant, Support: nan})
	}
	add(Param{Key: K, Start: 1, Value: f.k, Range: w.Bounds.K, Tuned: f.k != 1, Support: nan})
}

// otherPart fits the constant and the flow to the held-out periods alone, with the
// schedule as found.
func (w *work) otherPart() error {
	var held []int
	for i := range w.res.Rows {
		if w.res.Rows[i].Part == Held {
			held = append(held, i)
		}
	}
	if len(held) < leastPeriods {
		return nil
	}
	o := *w
	o.fitted, o.y, o.days, o.weight, o.offs, o.dates = held, nil, nil, nil, nil, nil
	o.sums = moments{}
	for _, i := range held {
		o.y = append(o.y, w.Periods[i].M3-w.leaks[i])
		o.days, o.weight = append(o.days, float64(w.Periods[i].Days())), append(o.weight, 1)
	}
	f, err := o.weighted(shape{constant: !w.Dedicated, off: w.res.Altered.Off, k: w.res.Altered.K})
	if err == nil && f.ok {
		w.res.Other = Pair{f.constantOf(), f.scale()}
	}
	return err
}

// findings says what the meter cannot teach and what is odd.
func (w *work) findings(f *fitting) {
	r := w.res
	if !w.Dedicated {
		w.find(baseOrLeak)
	}
	w.find(flowOrMinutes)
	if !r.Plants {
		w.find(lossesUnseen)
		w.find(plantsUnseen)
	}
	n := len(w.fitted)
	if n < EnoughPeriods {
		w.find(FewPeriods)
	}
	if !r.Searched {
		w.find(ScheduleUntold)
	}
	use := w.cache[r.Altered]
	quiet, beyond := 0, 0
	rms := w.rms(f)
	for _, i := range w.fitted {
		if use[i] > 0 {
			continue
		}
		quiet++
		if over := w.Periods[i].M3 - r.Rows[i].After; over > 2*rms && over > clearlyMore*r.Rows[i].After {
			beyond++
		}
	}
	if quiet == 0 {
		w.find(noQuiet)
	}
	if beyond > 0 {
		w.find(UseWhileOff)
	}
	for i := range r.Params {
		if r.Params[i].AtBound {
			w.find(AtBound)
		}
	}
	before, after, held := 0.0, 0.0, 0
	for i := range r.Rows {
		if row := &r.Rows[i]; row.Part == Held {
			held++
			before += float64((row.M3 - row.Before) * (row.M3 - row.Before))
			after += float64((row.M3 - row.After) * (row.M3 - row.After))
		}
	}
	switch {
	case held == 0:
		w.find(noHeldOut)
	case !(math.Sqrt(after) <= (1-clearGain)*math.Sqrt(before)):
		w.find(heldOutWorse)
	}
}

// Better reports whether the values are worth using: something is tuned, and periods that
// were held out fit clearly better, if there are any.
func (r *Result) Better() bool {
	if r.Stopped != "" {
		return false
	}
	for _, f := range r.Findings {
		if f == heldOutWorse {
			return false
		}
	}
	return true
}
