// Package clock works out when valves open and close on one day: zones of a
// program run one after another, the cycles of one zone fall into the soak
// pauses of others, and programs queue behind each other.
//
// Times are minutes after the midnight that begins the day, and pass 1440
// where a run goes on after the next midnight. The day of a run is the day on
// which its program starts.
package clock

import (
	"cmp"
	"math"
	"slices"

	"loamledger/sim"
)

// Day is the length of a day [min].
const Day = 24 * 60

// A ZoneRun is one zone's share of a program start.
type ZoneRun struct {
	Zone     int // index of the zone
	Run      sim.Run
	FlowLMin float64 // water the zone takes while it runs [L/min]
}

// A Start is one start of one program.
type Start struct {
	AtMin float64 // set start time; it begins later when another program still runs
	Runs  []ZoneRun
}

// An Opening is one opening of a valve: from FromMin up to ToMin.
type Opening struct {
	Start, Zone    int // index of the start, index of the zone
	FromMin, ToMin float64
}

// A Timetable lays out days. The zero Timetable is ready and runs one zone at
// a time. It keeps its memory, and is not for use by several goroutines.
type Timetable struct {
	// CapacityLMin lets zones run at the same time as long as their flows
	// together stay within it [L/min]; 0 means one zone at a time. A zone that
	// alone exceeds it runs alone.
	CapacityLMin float64
	// BusyUntilMin is when the last run of the day before finishes, 0 where it
	// finished before midnight [min after midnight]: no start begins earlier.
	BusyUntilMin float64

	Openings []Opening // in order of time; the result of Lay
	order    []int
	pending  []pending
	active   []Opening
}

// pending is a zone run with what is still to be done.
type pending struct {
	run     *ZoneRun
	left    float64 // minutes
	cycles  int
	readyAt float64
}

// Lay works out the openings of one day. Starts begin in order of their set
// time, each when it is due and the one before has finished. Among the zones
// of a start that have soaked, the one that has been ready longest runs next;
// of those equally ready, the one listed first.
func (t *Timetable) Lay(starts []Start) {
	t.Openings, t.order = t.Openings[:0], t.order[:0]
	for i := range starts {
		t.order = append(t.order, i)
	}
	slices.SortStableFunc(t.order, func(a, b int) int { return cmp.Compare(starts[a].AtMin, starts[b].AtMin) })
	free := t.BusyUntilMin
	for _, i := range t.order {
		free = t.start(i, &starts[i], max(free, starts[i].AtMin))
	}
}

// start lays out one start from time now and returns when it has finished.
func (t *Timetable) start(index int, s *Start, now float64) float64 {
	t.pending, t.active = t.pending[:0], t.active[:0]
	for i := range s.Runs {
		if r := &s.Runs[i]; r.Run.Minutes > 0 {
			t.pending = append(t.pending, pending{r, r.Run.Minutes, r.Run.Cycles(), now})
		}
	}
	flow := 0.0
	for len(t.pending) > 0 || len(t.active) > 0 {
		for {
			k := t.next(now, flow)
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
			flow += p.run.FlowLMin
			p.left -= minutes
			p.cycles--
			p.readyAt = o.ToMin + p.run.Run.SoakMin
			if p.cycles <= 0 {
				t.pending = slices.Delete(t.pending, k, k+1)
			}
		}
		// Go on to the next moment at which anything changes.
		then := math.Inf(1)
		for i := range t.active {
			then = min(then, t.active[i].ToMin)
		}
		switch {
		case len(t.active) == 0:
			for i := range t.pending {
				then = min(then, t.pending[i].readyAt)
			}
		case t.CapacityLMin > 0: // else none opens before the running one has closed
			for i := range t.pending {
				if t.pending[i].readyAt > now {
					then = min(then, t.pending[i].readyAt)
				}
			}
		}
		now = then
		flow = 0
		kept := t.active[:0]
		for _, o := range t.active {
			if o.ToMin > now {
				kept = append(kept, o)
				flow += s.flow(o.Zone)
			}
		}
		t.active = kept
	}
	return now
}

// next returns the pending run to open at time now, or -1 for none.
func (t *Timetable) next(now, flow float64) int {
	if len(t.active) > 0 && t.CapacityLMin <= 0 {
		return -1
	}
	best := -1
	for k := range t.pending {
		p := &t.pending[k]
		if p.readyAt > now || t.running(p.run.Zone) {
			continue
		}
		if len(t.active) > 0 && flow+p.run.FlowLMin > t.CapacityLMin {
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

// Finish returns when the last valve closes, or 0 when none opens.
func (t *Timetable) Finish() float64 {
	end := 0.0
	for i := range t.Openings {
		end = max(end, t.Openings[i].ToMin)
	}
	return end
}

// A Window is a stretch of the day in which watering may happen, from FromMin
// up to ToMin, both 0 to 1440. From 1200 to 360 runs through midnight.
type Window struct{ FromMin, ToMin float64 }

// Inside returns how many minutes of an opening fall into any of the windows,
// which must not overlap. No windows means no limit. A day's runs may use the
// windows that open on that day or opened the day before, and no later ones: a
// run that goes on into the window of the next day is outside. A window until
// 24:00 and one from 00:00 make one window that runs through midnight.
func Inside(o Opening, windows []Window) float64 {
	return length(clip([]stretch{{o.FromMin, o.ToMin}}, windows))
}

// InsideAll returns how many minutes of an opening fall into every one of the
// sets of windows at the same time, and when the last of them ends.
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

// A stretch is a stretch of time [min after midnight].
type stretch struct{ from, to float64 }

func length(all []stretch) float64 {
	sum := 0.0
	for _, s := range all {
		sum += s.to - s.from
	}
	return sum
}

// clip returns what of the stretches falls into any of the windows.
func clip(stretches []stretch, windows []Window) []stretch {
	if len(windows) == 0 {
		return stretches
	}
	var in []stretch
	for i, w := range windows {
		if w.ToMin-w.FromMin >= Day {
			return stretches // open day and night
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
				joined = true // part of the window that begins before midnight
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
