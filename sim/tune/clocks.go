package tune

import (
	"math"

	"loamledger/sim/clock"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
)

// A Clock is one controller of a site with several.
type Clock struct {
	Name  string
	Timer timer.Profile // what it can be set to; without programs, any timer
}

// strictest returns what every clock can be set to, except that only some may have
// cycles: programs and starts of the smallest, runs of at least the longest minimum, and
// a step of percentages that is a multiple of all of theirs.
func strictest(clocks []Clock, p timer.Profile) timer.Profile {
	p = stated(p)
	cycle := false
	for _, c := range clocks {
		t := stated(c.Timer)
		cycle = cycle || t.Cycle
		if c.Timer.Programs == 0 {
			continue
		}
		p.Programs, p.Starts, p.MinMinutes = min(p.Programs, t.Programs), min(p.Starts, t.Starts), max(p.MinMinutes, t.MinMinutes)
		p.PercentStep = 1 / float64(divisor(steps(p.PercentStep), steps(t.PercentStep)))
	}
	p.Cycle = cycle
	return p
}

// steps returns the number of steps in 100%.
func steps(step float64) int { return max(int(math.Round(1/step)), 1) }

// divisor returns the greatest common divisor of two positive numbers.
func divisor(a, b int) int {
	for b > 0 {
		a, b = b, a%b
	}
	return a
}

// clockOf returns the controller of zone z in the clocks; false on a site with one.
func (s *search) clockOf(z int) (Clock, bool) {
	if c := s.job.Wiring.ControllerOf(z); len(s.clocks) > 1 && c < len(s.clocks) {
		return s.clocks[c], true
	}
	return Clock{}, false
}

// splits reports whether the controller of zone z can split runs into cycles c.
func (s *search) splits(z int, c Cycle) bool {
	of, several := s.clockOf(z)
	return !several || c.CycleMin == 0 || stated(of.Timer).Cycle
}

// optionCost is cost, with an option that the controller of the zone does not have barred.
func (s *search) optionCost(z int, o *option, m measured) cost {
	c := s.cost(z, m)
	if !s.splits(z, o.cycle) {
		c.over += barred
	}
	return c
}

// barred is what an option that a zone may not use counts over the goal.
const barred = 1e12

// An hours is when a zone may be watered: from when its longest window opens [min after
// midnight], and how long that is [min].
type hours struct {
	at   int
	room float64
}

// anyHours is for a zone without a window: half a day, before dawn.
func anyHours() hours { return hours{4 * 60, 720} }

// openOf returns the hours of each zone under the permanent rules: that of the site, and
// those of its controller.
func (s *search) openOf() []hours {
	out := make([]hours, len(s.zones))
	for z := range out {
		out[z] = s.openFor(z)
	}
	return out
}

func (s *search) openFor(z int) hours {
	h, l := anyHours(), s.limits
	if l == nil {
		return h
	}
	var own [][]clock.Window
	for i := range l.Stages {
		r := &l.Stages[i]
		if !temporary(*r) && len(r.Windows) > 0 && !(z < len(l.Exempt) && l.Exempt[z]) && !(z < len(r.Exempt) && r.Exempt[z]) {
			own = append(own, r.Windows)
		}
	}
	site := l.Always.Windows
	if own == nil {
		if n := longest(site); n > 0 {
			for _, w := range site {
				if longest([]clock.Window{w}) == n {
					h.at = int(w.FromMin)
					break
				}
			}
			if !s.exempt(z) {
				h.room = n
			}
		}
		return h
	}
	if len(site) > 0 && !s.exempt(z) {
		own = append(own, site)
	}
	return common(own)
}

// common returns the longest time within all sets of windows at once, through midnight if
// need be.
func common(sets [][]clock.Window) (best hours) {
	open := func(minute int) bool {
		m := float64(minute % clock.Day)
		in, _ := clock.InsideAll(clock.Opening{FromMin: m, ToMin: m + 1}, sets)
		return in > 0.5
	}
	run := 0
	for m := range 2 * clock.Day {
		if !open(m) {
			run = 0
			continue
		}
		if run = min(run+1, clock.Day); float64(run) > best.room {
			best = hours{(m + 1 - run) % clock.Day, float64(run)}
		}
	}
	return best
}

// temporary reports whether a rule is in force on some dates only, as a stage of a drought
// is; the hours of a controller are not.
func temporary(r strategy.Rule) bool { return r.From != 0 || r.To != 0 }

// timed reports whether a permanent rule limits the time of watering.
func (s *search) timed() bool {
	l := s.limits
	if l == nil {
		return false
	}
	timed := l.Always.MaxMinutes > 0 || len(l.Always.Windows) > 0
	for _, r := range l.Stages {
		timed = timed || !temporary(r) && len(r.Windows) > 0
	}
	return timed
}

// withinHours returns a rule whose windows are replaced by their length as the longest run.
func withinHours(r strategy.Rule) strategy.Rule {
	if room := longest(r.Windows); room > 0 && (r.MaxMinutes == 0 || room < r.MaxMinutes) {
		r.MaxMinutes = room
	}
	r.Windows = nil
	return r
}

// fit makes the sheet of a strategy under the site limits: that of each controller, and
// their sum, on a site with several.
func (s *search) fit(st *strategy.Strategy) (*settings.Sheet, error) {
	site := settings.NewSite(s.zones, s.job.Weather, s.limits, s.job.Wiring)
	own := settings.Options{PercentStep: s.space.Timer.PercentStep}
	if len(s.clocks) < 2 {
		return settings.Make(site, st, own)
	}
	var each []settings.Options
	for c := range s.clocks {
		own.Controller, own.Only = s.clocks[c].Name, make([]bool, len(s.zones))
		for z := range own.Only {
			own.Only[z] = s.job.Wiring.ControllerOf(z) == c
		}
		each = append(each, own)
	}
	return settings.MakeEach(site, st, each)
}
