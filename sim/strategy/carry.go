package strategy

import (
	"slices"

	"loamledger/sim"
)

// A Carry takes what a strategy keeps in mind from one stretch to the next, as a
// controller does that stays on the wall while the zone changes: its own balances, the
// soil in which a sensor of the site lies, and the valves that are still open after
// midnight. Each stretch is compiled as if it had lasted throughout; on its first day the
// state of the stretch before takes the place of what it would have been. A part that
// comes into force on that day has no state before it, and begins as if it had always
// been in force.
type Carry struct {
	from, to int       // first day of the stretch under way, and of the next, in days of a plan
	roots    []float64 // of the stretch; nil for 1
	anew     []bool    // of the stretch; nil for none
	track    []bool    // by zone: the soil is read by a sensor of the site in some stretch
	in, out  state
}

// A state is what is carried.
type state struct {
	beliefs  map[beliefAt]belief
	soil     map[int]sim.Balance // by zone
	busyMin  []float64           // by controller: when the previous day's valves close [min after midnight]
	schedule bool                // busyMin is known
}

// A beliefAt is a zone, at a factor on run times by someone who raises them.
type beliefAt struct {
	zone  int
	level float64
}

// NewCarry returns a carry for a strategy on a number of zones.
func NewCarry(st *Strategy, zones int) *Carry {
	c := &Carry{}
	for _, p := range st.Parts {
		s, is := p.(Sensor)
		if !is || s.ReadZone == 0 {
			continue
		}
		if c.track == nil {
			c.track = make([]bool, zones)
		}
		c.track[s.ReadZone-1] = true
	}
	return c
}

// Next begins a stretch that covers days from to to of a plan, to excluded.
func (c *Carry) Next(s *Stretch, from, to int) {
	c.from, c.to, c.roots, c.anew = from, to, s.Roots, s.Anew
	c.in, c.out = c.out, state{beliefs: map[beliefAt]belief{}, soil: map[int]sim.Balance{}}
}

// reads reports whether the soil of zones is followed; false for nil.
func (c *Carry) reads() bool { return c != nil && c.track != nil }

// rootsOf returns the root depth of a zone as a multiple of that of the stretch before.
func (c *Carry) rootsOf(z int) float64 {
	if c.roots == nil {
		return 1
	}
	return c.roots[z]
}

// belief carries the own balance of zone z, on the morning of day i.
func (c *Carry) belief(b *belief, z int, level float64, i int) {
	if c == nil {
		return
	}
	at := beliefAt{z, level}
	if was, known := c.in.beliefs[at]; known && i == c.from && was.r == b.r {
		b.dr = min(max(sim.Rerooted(was.dr, was.taw, b.taw, c.rootsOf(z)), 0), b.taw)
	}
	if i == c.to {
		c.out.beliefs[at] = *b
	}
}

// ground carries the soil of zone z, on the morning of day i.
func (c *Carry) ground(b *sim.Balance, zone *sim.Zone, z, i int) {
	if c == nil {
		return
	}
	if was, known := c.in.soil[z]; known && i == c.from {
		*b = was.Clone()
		b.Change(zone, c.rootsOf(z), c.anew != nil && c.anew[z])
	}
	if i == c.to {
		c.out.soil[z] = b.Clone()
	}
}

// clock carries when the valves of the day before close, by controller.
func (c *Carry) clock(busyMin []float64, i int) {
	if c == nil {
		return
	}
	if i == c.from && c.in.schedule {
		copy(busyMin, c.in.busyMin)
	}
	if i == c.to {
		c.out.busyMin, c.out.schedule = slices.Clone(busyMin), true
	}
}
