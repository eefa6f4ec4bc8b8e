// Package clock calculates when valves open and close on one day. On one controller,
// the zones of a program run one after another, cycles of one zone run while other zones
// soak, and programs queue. Controllers run beside each other.
//
// Times are minutes after the midnight at the start of the day. They exceed 1440
// if a run continues past the next midnight. The day of a run is the day on which
// its program starts.
package clock

import (
	"cmp"
	"math"
	"slices"

	"loamledger/sim"
)

// Day is the length of a day [min].
const Day = 24 * 60

// A ZoneRun is the run of one zone in a program start.
type ZoneRun struct {
	Zone     int // index of the zone
	Run      sim.Run
	FlowLMin float64 // flow while the zone runs [L/min]
}

// A Start is one start of one program.
type Start struct {
	AtMin float64 // set start time; the start is delayed while another program runs
	Runs  []ZoneRun
}

// An Opening is one opening of a valve: from FromMin up to ToMin.
type Opening struct {
	Start, Zone    int // index of the start, index of the zone
	FromMin, ToMin float64
}

// A Timetable lays out days. The zero Timetable is ready to use and runs one zone
// at a time. It reuses its memory and is not safe for concurrent use.
type Timetable struct {
	// Wiring has the controllers and meters of the zones. A zone that exceeds the flow
	// of its meter runs alone.
	Wiring *Wiring
	// BusyUntilMin is the finish time of the last run of the day before [min
	// after midnight], or 0 if it finished before midnight, by controller; nil for
	// all 0. No start begins earlier.
	BusyUntilMin []float64

	Openings []Opening // in time order; the result of Lay
	order    []int
	pending  []pending
	active   []Opening
	onMeter  []onMeter // of the zones of one controller that are active
}

// onMeter is what one controller draws from a meter at a moment.
type onMeter struct {
	zones int
	lMin  float64
}

// pending is a zone run that is not finished.
type pending struct {
	run     *ZoneRun
	left    float64 // minutes
	cycles  int
	readyAt float64
}

// Lay lays out the openings of one day. On each controller, starts run in order of
// their set times, each once it is due and the one before has finished; a start with zones
// of several controllers is a start of each. Within a start, the zone
// that has been ready longest after its soak runs next; if several are equally
// ready, the first in the list runs.
func (t *Timetable) Lay(starts []Start) {
	t.Openings, t.order = t.Openings[:0], t.order[:0]
	for i := range starts {
		t.order = append(t.order, i)
	}
	slices.SortStableFunc(t.order, func(a, b int) int { return cmp.Compare(starts[a].AtMin, starts[b].AtMin) })
	n := t.Wiring.Controllers()
	for c := range n {
		free := 0.0
		if c < len(t.BusyUntilMin) {
			free = t.BusyUntilMin[c]
		}
		for _, i := range t.order {
			free = t.start(i, &starts[i], c, free)
		}
	}
	if n > 1 {
		slices.SortStableFunc(t.Openings, func(a, b Opening) int { return cmp.Compare(a.FromMin, b.FromMin) })
	}
}

// start lays out the runs of one controller in a start, from time free on, and returns
// its finish time; free if it has none.
func (t *Timetable) start(index int, s *Start, controller int, free float64) float64 {
	t.pending, t.active = t.pending[:0], t.active[:0]
	now, most := max(free, s.AtMin), t.Wiring.atOnce(controller)
	for i := range s.Runs {
		if r := &s.Runs[i]; r.Run.Minutes > 0 && t.Wiring.ControllerOf(r.Zone) == controller {
			t.pending = append(t.pending, pending{r, r.Run.Minutes, r.Run.Cycles(), now})
		}
	}
	if len(t.pending) == 0 {
		return free
	}
	t.count(s)
	for len(t.pending) > 0 || len(t.active) > 0 {
		for {
			k := t.next(now, most)
			if k < 0 {
				break
			}
			p := &t.pending[k]
			minutes := p.left
			if p.cycles > 1 {
				minutes = p.run.Run.CycleMin
			}
			o := Opening{index, p.run.Zone, now, now + minutes}
			t.Openings = append(t.Openings, o)
			t.active = append(t.active, o)
			t.draw(p.run.Zone, p.run.FlowLMin)
			p.left -= minutes
			p.cycles--
			p.readyAt = o.ToMin + p.run.Run.SoakMin
			if p.cycles <= 0 {
				t.pending = slices.Delete(t.pending, k, k+1)
			}
		}
		// Advance to the next moment at which anything changes.
		then := math.Inf(1)
		for i := range t.active {
			then = min(then, t.active[i].ToMin)
		}
		switch {
		case len(t.active) == 0:
			for i := range t.pending {
				then = min(then, t.pending[i].readyAt)
			}
		case most != 1: // else no valve opens before the open one closes
			for i := range t.pending {
				if t.pending[i].readyAt > now {
					then = min(then, t.pending[i].readyAt)
				}
			}
		}
		now = then
		kept := t.active[:0]
		for _, o := range t.active {
			if o.ToMin > now {
				kept = append(kept, o)
			}
		}
		t.active = kept
		t.count(s)
	}
	return now
}

// count adds up what the active zones draw.
func (t *Timetable) count(s *Start) {
	n := 1
	if t.Wiring != nil {
		n = max(len(t.Wiring.MeterLMin), 1)
	}
	t.onMeter = slices.Grow(t.onMeter[:0], n)[:n]
	clear(t.onMeter)
	for _, o := range t.active {
		t.draw(o.Zone, s.flow(o.Zone))
	}
}

// draw adds an active zone.
func (t *Timetable) draw(zone int, lMin float64) {
	m := &t.onMeter[t.Wiring.meterOf(zone)]
	m.zones, m.lMin = m.zones+1, m.lMin+lMin
}

// next returns the pending run to open at time now, or -1. No more than most zones
// may run at the same time; 0 means any number.
func (t *Timetable) next(now float64, most int) int {
	if most > 0 && len(t.active) >= most {
		return -1
	}
	best := -1
	for k := range t.pending {
		p := &t.pending[k]
		if p.readyAt > now || t.running(p.run.Zone) {
			continue
		}
		flow, on := t.Wiring.allows(p.run.Zone), t.onMeter[t.Wiring.meterOf(p.run.Zone)]
		if flow > 0 && on.zones > 0 && on.lMin+p.run.FlowLMin > flow {
			continue
		}
		if best < 0 || p.readyAt < t.pending[best].readyAt {
			best = k
		}
	}
	return best
}

func (t *Timetable) running(zone int) bool {
	return slices.ContainsFunc(t.active, func(o Opening) bool { return o.Zone == zone })
}

func (s *Start) flow(zone int) float64 {
	for i := range s.Runs {
		if s.Runs[i].Zone == zone {
			return s.Runs[i].FlowLMin
		}
	}
	return 0
}

// Finish returns the time when the last valve closes, or 0 if none opens.
func (t *Timetable) Finish() float64 {
	end := 0.0
	for i := range t.Openings {
		end = max(end, t.Openings[i].ToMin)
	}
	return end
}

// FinishOf is like Finish, for the valves of one controller.
func (t *Timetable) FinishOf(controller int) float64 {
	end := 0.0
	for i := range t.Openings {
		if t.Wiring.ControllerOf(t.Openings[i].Zone) == controller {
			end = max(end, t.Openings[i].ToMin)
		}
	}
	return end
}

// A Window is a time of day when watering is allowed, from FromMin to ToMin, both
// 0 to 1440 [min]. A window from 1200 to 360 runs through midnight.
type Window struct{ FromMin, ToMin float64 }

// Inside returns the minutes of an opening inside any of the windows, which must
// not overlap. No windows means no limit. A day's runs may use windows that open
// on that day or opened the day before, but no later ones: a run that continues
// into the next day's window is outside. A window that ends at 24:00 and one that
// begins at 00:00 form one window through midnight.
func Inside(o Opening, windows []Window) float64 {
	return length(clip([]stretch{{o.FromMin, o.ToMin}}, windows))
}

// InsideAll returns the minutes of an opening inside all the sets of windows at
// the same time, and when the last of those minutes ends.
func InsideAll(o Opening, sets [][]Window) (minutes, lastMin float64) {
	left := []stretch{{o.FromMin, o.ToMin}}
	for _, windows := range sets {
		left = clip(left, windows)
	}
	for _, s := range left {
		lastMin = max(lastMin, s.to)
	}
	return length(left), lastMin
}

// A stretch is a period of time [min after midnight].
type stretch struct{ from, to float64 }

func length(all []stretch) float64 {
	sum := 0.0
	for _, s := range all {
		sum += s.to - s.from
	}
	return sum
}

// clip returns the parts of the stretches inside any of the windows.
func clip(stretches []stretch, windows []Window) []stretch {
	if len(windows) == 0 {
		return stretches
	}
	var in []stretch
	for i, w := range windows {
		if w.ToMin-w.FromMin >= Day {
			return stretches // open all day
		}
		to := w.ToMin
		if to <= w.FromMin {
			to += Day
		}
		joined := false
		for j, v := range windows {
			switch {
			case j == i:
			case w.ToMin == Day && v.FromMin == 0:
				to = Day + v.ToMin
			case v.ToMin == Day && w.FromMin == 0:
				joined = true // joined to the window that begins before midnight
			}
		}
		if joined {
			continue
		}
		for _, s := range stretches {
			for _, shift := range [2]float64{-Day, 0} {
				if from, to := max(s.from, w.FromMin+shift), min(s.to, to+shift); to > from {
					in = append(in, stretch{from, to})
				}
			}
		}
	}
	return in
}
