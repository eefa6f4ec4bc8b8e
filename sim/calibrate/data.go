package calibrate

import (
	"context"
	"slices"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// A work is a calibration under way.
type work struct {
	*Job
	ctx     context.Context
	res     *Result
	quiet   float64 // use per day of the quietest fitted periods [m³/d]
	memory  bool
	watered int  // fitted periods in which the replay waters
	flat    bool // the replay uses nearly the same every day, so the constant part is not tuned
	plain   *Use // unaltered
	// cache has the volume through open valves in every period, by alteration.
	cache map[Altered][]float64
	// months has that of the unaltered replay by month, for replays without memory; by k.
	months map[float64]*[12][]float64

	sums moments

	fitted []int // periods, in order
	y      []float64
	days   []float64
	weight []float64 // of each fitted period: see [work.weigh]
	leaks  []float64 // of every period
	floor2 float64   // square of the smallest error taken seriously [m⁶]
	offs   []int     // months that may be off, 0 to 11
	dates  []int     // fitted periods before which run times may change
}

// registration is the share by which a meter in order may be off, the smallest error of a
// period that is taken seriously. Source: tolerance of 1.5% at test flows other than
// the smallest, Code of Maryland Regulations 20.70.06.04.
const registration = 0.015

// use returns the unaltered or altered replay's volume through open valves in every
// period [m³].
func (w *work) use(a Altered) ([]float64, error) {
	if got, ok := w.cache[a]; ok {
		return got, nil
	}
	out := make([]float64, len(w.Periods))
	if !w.memory && a.Off != (Months{}) {
		byMonth, err := w.byMonth(a.K)
		if err != nil {
			return nil, err
		}
		for m := range byMonth {
			if !a.Off[m] {
				for i, v := range byMonth[m] {
					out[i] += v
				}
			}
		}
	} else {
		u, err := w.replay(a)
		if err != nil {
			return nil, err
		}
		for i := range w.Periods {
			out[i] = sum(u, u.RunM3, &w.Periods[i])
		}
	}
	w.cache[a] = out
	return out, nil
}

func (w *work) replay(a Altered) (*Use, error) {
	if a == (Altered{K: 1}) && w.plain != nil {
		return w.plain, nil
	}
	return w.Replay(w.ctx, a)
}

// byMonth returns the volume of every period by calendar month.
func (w *work) byMonth(k float64) (*[12][]float64, error) {
	if got := w.months[k]; got != nil {
		return got, nil
	}
	u, err := w.replay(Altered{K: k})
	if err != nil {
		return nil, err
	}
	out := new([12][]float64)
	for m := range out {
		out[m] = make([]float64, len(w.Periods))
	}
	for i := range w.Periods {
		p := &w.Periods[i]
		for d := max(p.From, u.Start); d < min(p.To, u.end()); d++ {
			out[d.Month()-1][i] += u.RunM3[d-u.Start]
		}
	}
	w.months[k] = out
	return out, nil
}

// sum adds up the days of a period that the replay has.
func sum(u *Use, by []float64, p *meter.Period) (m3 float64) {
	for d := max(p.From, u.Start); d < min(p.To, u.end()); d++ {
		m3 += by[d-u.Start]
	}
	return m3
}

// probe finds out what the metered water depends on, by replays: on plants, and on the
// days before.
func (w *work) probe() (err error) {
	if w.plain, err = w.Replay(w.ctx, Altered{K: 1}); err != nil {
		return err
	}
	other, err := w.Replay(w.ctx, Altered{K: 1.1})
	if err != nil {
		return err
	}
	w.res.Plants = !slices.Equal(other.RunM3, w.plain.RunM3)
	var byMonth [12]float64
	for i, v := range w.plain.RunM3 {
		byMonth[dayOf(w.plain, i).Month()-1] += v
	}
	// Without the water of its busiest month, a replay with a memory waters otherwise in
	// the months after it.
	busy := 0
	for m := range byMonth {
		if byMonth[m] > byMonth[busy] {
			busy = m
		}
	}
	var off Months
	off[busy] = true
	if other, err = w.Replay(w.ctx, Altered{Off: off, K: 1}); err != nil {
		return err
	}
	for i, v := range w.plain.RunM3 {
		if want := v; dayOf(w.plain, i).Month()-1 == busy {
			if other.RunM3[i] != 0 {
				w.memory = true
			}
		} else if other.RunM3[i] != want {
			w.memory = true
		}
	}
	w.res.Memory = w.memory
	return nil
}

// gather collects the fitted periods.
func (w *work) gather() {
	mean := 0.0
	for _, i := range w.fitted {
		p := &w.Periods[i]
		w.y = append(w.y, p.M3)
		w.days, w.weight = append(w.days, float64(p.Days())), append(w.weight, 1)
		mean += p.M3 / float64(len(w.fitted))
	}
	for _, i := range w.fitted {
		if w.cache[Altered{K: 1}][i] > 0 {
			w.watered++
		}
	}
	w.leaks = make([]float64, len(w.Periods))
	for i := range w.Periods {
		if w.plain.LeakM3 != nil {
			w.leaks[i] = sum(w.plain, w.plain.LeakM3, &w.Periods[i])
		}
	}
	for k, i := range w.fitted {
		w.y[k] -= w.leaks[i]
	}
	w.floor2 = registration * mean * registration * mean
	w.quiet = w.quietest()
}

// even is the share of the mean use that is added to the use of a period for its error, so
// that periods of next to no use do not decide everything. A choice of ours.
const even = 0.25

// weigh sets the weight of every fitted period, 1 on average use: errors are taken to grow
// with the use, as those of schedules, flows and people do.
func (w *work) weigh(model []float64) {
	mean := 0.0
	for _, v := range model {
		mean += max(v, 0) / float64(len(model))
	}
	w.weight = w.weight[:0]
	for _, v := range model {
		w.weight = append(w.weight, (1+even)*mean/(max(v, 0)+float64(even*mean)))
	}
}

// quietest returns the use per day of the quarter of the fitted periods with the least
// use per day.
func (w *work) quietest() float64 {
	order := slices.Clone(w.fitted)
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := w.Periods[a].PerDay(), w.Periods[b].PerDay()
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	m3, days := 0.0, 0
	for _, i := range order[:(len(order)+3)/4] {
		m3 += w.Periods[i].M3
		days += w.Periods[i].Days()
	}
	return max(m3/float64(max(days, 1)), 0)
}

// candidates lists the months that may be off and the dates on which run times may
// change. A month must make up enough of some fitted period to show in it, and a date
// must have watered periods on either side.
func (w *work) candidates() error {
	if len(w.fitted) < EnoughPeriods {
		return nil
	}
	byMonth, err := w.byMonth(1)
	if err != nil {
		return err
	}
	all, err := w.use(Altered{K: 1})
	if err != nil {
		return err
	}
	const shows, side = 0.3, 3
	for m := range byMonth {
		for _, i := range w.fitted {
			if byMonth[m][i] > 0 && byMonth[m][i] >= shows*all[i] {
				w.offs = append(w.offs, m)
				break
			}
		}
	}
	if w.memory {
		return nil
	}
	watered := 0
	for k, i := range w.fitted {
		if watered >= side && w.watered-watered >= side {
			w.dates = append(w.dates, k)
		}
		if all[i] > 0 {
			watered++
		}
	}
	return nil
}

// dayOf returns the date of day i of a replay.
func dayOf(u *Use, i int) cal.Date { return u.Start + cal.Date(i) }
