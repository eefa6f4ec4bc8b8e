package tune

import (
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// An Interval is the shortest and the longest interval between two waterings of a
// zone [d]. 0 sets no limit.
type Interval struct{ Shortest, Longest int }

// allows reports whether a pattern with the given gaps is within the interval.
func (v Interval) allows(g gaps) bool {
	return (v.Shortest == 0 || g.least >= v.Shortest) && (v.Longest == 0 || g.most <= v.Longest)
}

// gaps are the shortest and longest gap between days of a pattern [d].
type gaps struct{ least, most int }

// gapsOf returns the gaps of a rule. Odd and even dates count as every second day,
// though the 31st and the 1st are adjacent.
func gapsOf(r strategy.DayRule) gaps {
	switch r.Kind {
	case strategy.Interval:
		return gaps{r.Every, r.Every}
	case strategy.OddDays, strategy.EvenDays:
		return gaps{2, 2}
	case strategy.Weekdays:
		g, last := gaps{least: math.MaxInt}, -1
		for d := range 15 { // from one week into the third, to close the circle
			if !r.Weekdays[d%7] {
				continue
			}
			if last >= 0 {
				g.least, g.most = min(g.least, d-last), max(g.most, d-last)
			}
			last = d
		}
		if g.most > 0 {
			return g
		}
		return gaps{7, 7}
	}
	return gaps{1, 1}
}

// longIntervals are the intervals tried for plants that are watered rarely [d].
var longIntervals = [...]int{5, 7, 10, 14, 21, 28}

// patterns lists the patterns of days to try and, for each zone, which it may use:
// those that the permanent rule of the site allows, or any if the zone is exempt.
func (s *search) patterns(own []strategy.DayRule) {
	list := slices.Clone(s.space.Days)
	add := func(r strategy.DayRule) {
		if !slices.Contains(list, r) {
			list = append(list, r)
		}
	}
	if s.freeDays {
		rare := slices.ContainsFunc(s.intervals, func(v Interval) bool { return v.Shortest > 1 })
		for _, n := range longIntervals {
			for k := 0; rare && k < 7; k++ {
				r := strategy.DayRule{Kind: strategy.Interval, Every: n, From: s.job.Weather.Start + cal.Date(k)}
				if len(legalDays(s, []strategy.DayRule{r})) > 0 {
					add(r)
					break
				}
			}
		}
		for z := range s.zones {
			if s.exempt(z) {
				for _, r := range basicDays(s.job.Weather.Start) {
					add(r)
				}
				break
			}
		}
		for _, r := range own {
			add(r)
		}
	}
	for _, r := range list {
		legal := len(legalDays(s, []strategy.DayRule{r})) > 0
		may, within := make([]bool, len(s.zones)), make([]bool, len(s.zones))
		some := false
		for z := range may {
			may[z] = legal || s.exempt(z)
			within[z] = may[z] && (z >= len(s.intervals) || s.intervals[z].allows(gapsOf(r)))
			some = some || within[z]
		}
		if some || legal && slices.Contains(s.space.Days, r) {
			s.days, s.may, s.within = append(s.days, r), append(s.may, may), append(s.within, within)
		}
	}
}

// exempt reports whether the permanent rule does not bind zone z.
func (s *search) exempt(z int) bool {
	l := s.limits
	return l == nil || z < len(l.Exempt) && l.Exempt[z] || z < len(l.Always.Exempt) && l.Always.Exempt[z]
}

// fitting returns costs[option][zone] in which each zone is kept to the options it
// may use: those within the interval of its plants if any of them meets the goal
// or no other does, else any that the site allows. dayOf gives the pattern of an option.
func (s *search) fitting(costs [][]cost, dayOf func(o int) int) [][]cost {
	out := make([][]cost, len(costs))
	for o := range costs {
		out[o] = slices.Clone(costs[o])
	}
	for z := range s.zones {
		met := func(list [][]bool) bool {
			for o := range costs {
				if list[dayOf(o)][z] && costs[o][z].over <= 1e-9 {
					return true
				}
			}
			return false
		}
		any := slices.ContainsFunc(s.within, func(w []bool) bool { return w[z] })
		use := s.within
		if !any || !met(s.within) && met(s.may) {
			use = s.may
		}
		for o := range out {
			if !use[dayOf(o)][z] {
				out[o][z].over += barred
			}
		}
	}
	return out
}

// everyOf returns the shortest interval of the days on which programs water zone
// z, 0 if none does, and whether it is outside the interval of its plants. A water
// balance decides its own days; the days on which it may water then count.
func (s *search) everyOf(st *strategy.Strategy, z int) (every float64, outside bool) {
	note := func(r strategy.DayRule) {
		g := gapsOf(r)
		if every == 0 || float64(g.least) < every {
			every = float64(g.least)
		}
		outside = outside || z < len(s.intervals) && !s.intervals[z].allows(g)
	}
	for _, p := range st.Parts {
		switch p := p.(type) {
		case strategy.Programs:
			for i := range p.List {
				if z < len(p.List[i].Minutes) && p.List[i].Minutes[z] > 0 {
					note(p.List[i].Days)
				}
			}
		case *strategy.Refill:
			if z < len(p.Zones) && p.Zones[z] {
				g := gapsOf(p.Days)
				every = float64(g.least)
				outside = z < len(s.intervals) && g.least < s.intervals[z].Shortest
			}
		}
	}
	return every, outside
}

// fillMinutes is the run time that fills the driest strip of a zone twice [min].
func fillMinutes(zone *sim.Zone) float64 {
	shares := sim.Shares(zone.Strips, zone.DULQ)
	return math.Ceil(60 * 2 * zone.TAWMM / (zone.PRMMH * (1 - zone.LossShare) * max(shares[0], 0.2)))
}
