package clock

import (
	"cmp"
	"slices"
)

// An Overdraw is a time at which zones of several controllers together draw more from a
// meter than it allows. No controller sees it: pressure falls, and every zone gets less
// than is replayed.
type Overdraw struct {
	Meter    int
	AtMin    float64 // when the most is drawn for the first time [min after midnight]
	WantLMin float64 // drawn then, if pressure held [L/min]
	Minutes  float64 // length of all such times of the day [min]
}

// overSlackLMin is the flow above a meter's that counts as rounding [L/min].
const overSlackLMin = 1e-6

// Before is the Start of an opening of the day before, which lasts past midnight.
const Before = -1

// Overdraws returns the overdraws of a day's openings, at most one for each meter. Those of
// the day before have Start [Before]; by themselves, they count for that day. flow returns
// the flow of a zone [L/min].
func (w *Wiring) Overdraws(openings []Opening, flow func(zone int) float64) (out []Overdraw) {
	if w.Controllers() < 2 {
		return nil
	}
	for m, allowed := range w.MeterLMin {
		if allowed > 0 {
			out = append(out, w.overdraw(m, openings, flow)...)
		}
	}
	return out
}

// overdraw returns the overdraw of one meter, if any.
func (w *Wiring) overdraw(meter int, openings []Opening, flow func(zone int) float64) []Overdraw {
	var of []Opening
	var times []float64
	for _, o := range openings {
		if w.meterOf(o.Zone) == meter && o.ToMin > o.FromMin {
			of, times = append(of, o), append(times, o.FromMin, o.ToMin)
		}
	}
	slices.Sort(times)
	times = slices.Compact(times)
	slices.SortStableFunc(of, func(a, b Opening) int { return cmp.Compare(a.FromMin, b.FromMin) })
	out := Overdraw{Meter: meter}
	var open []Opening
	for k := 0; k+1 < len(times); k++ {
		for len(of) > 0 && of[0].FromMin <= times[k] {
			open, of = append(open, of[0]), of[1:]
		}
		open = slices.DeleteFunc(open, func(o Opening) bool { return o.ToMin <= times[k] })
		sum, several, today := 0.0, false, false
		for _, o := range open {
			sum += flow(o.Zone)
			today = today || o.Start != Before
			several = several || w.ControllerOf(o.Zone) != w.ControllerOf(open[0].Zone)
		}
		if !several || !today || sum <= w.MeterLMin[meter]+overSlackLMin {
			continue
		}
		out.Minutes += times[k+1] - times[k]
		if sum > out.WantLMin {
			out.WantLMin, out.AtMin = sum, times[k]
		}
	}
	if out.Minutes <= 0 {
		return nil
	}
	return []Overdraw{out}
}

// ClipAll returns the parts of an opening inside all the sets of windows at the same time.
func ClipAll(o Opening, sets [][]Window) (parts []Opening) {
	left := []stretch{{o.FromMin, o.ToMin}}
	for _, windows := range sets {
		left = clip(left, windows)
	}
	for _, s := range left {
		part := o
		part.FromMin, part.ToMin = s.from, s.to
		parts = append(parts, part)
	}
	return parts
}
