package settings

import (
	"math"
	"slices"
	"strings"

	"loamledger/sim"
	"loamledger/sim/clock"
	"loamledger/sim/strategy"
	"loamledger/weather/portable"
)

// fit changes programs to what the timer can be set to: first it merges programs,
// then it replaces cycles by start times, then it drops start times. Run times are
// scaled so that every zone keeps its water, except for rounding.
func (b *maker) fit() {
	s := b.sheet
	for i := range s.Programs { // so that a merge sees what is entered
		for z := range s.Programs[i].Minutes {
			s.Programs[i].Minutes[z] *= b.share[z]
		}
	}
	for z := range b.share {
		b.share[z] = 1
	}
	s.Programs = slices.DeleteFunc(s.Programs, func(p strategy.Program) bool { return !waters(&p) || len(p.Starts) == 0 })
	for len(s.Programs) > b.timer.Programs {
		b.mergeNearest()
	}
	for i := range s.Programs {
		p := &s.Programs[i]
		slices.Sort(p.Starts)
		if len(p.Starts) > b.timer.Starts {
			b.fewerStarts(p)
		}
		if p.Cycle > 0 && !b.timer.Cycle {
			b.cycleByStarts(p)
		}
	}
}

// A Merge is a program that takes the place of several, because the timer has too
// few.
type Merge struct {
	Into string
	Of   []string
}

// mergeNearest merges the two programs whose merger changes least: the water of a
// zone times the logarithm of the change in its runs per week, and the water that
// rounding adds or drops. Programs on other days count a little more than programs
// on the same days.
func (b *maker) mergeNearest() {
	s := b.sheet
	least, into, from := math.Inf(1), 0, 1
	var best strategy.Program
	for i := range s.Programs {
		for j := i + 1; j < len(s.Programs); j++ {
			x, y := &s.Programs[i], &s.Programs[j]
			for _, days := range []strategy.DayRule{x.Days, y.Days} {
				for _, starts := range [][]int{x.Starts, y.Starts} {
					if p, cost := b.merged(x, y, days, starts); cost < least {
						least, into, from, best = cost, i, j, p
					}
				}
			}
		}
	}
	names := append(b.originals(s.Programs[into].Name), b.originals(s.Programs[from].Name)...)
	s.Merged = slices.DeleteFunc(s.Merged, func(m Merge) bool { return m.Into == s.Programs[into].Name || m.Into == s.Programs[from].Name })
	s.Merged = append(s.Merged, Merge{Into: best.Name, Of: names})
	s.Programs[into] = best
	s.Programs = slices.Delete(s.Programs, from, from+1)
}

// originals lists the programs of the strategy in a program of the sheet.
func (b *maker) originals(name string) []string {
	for _, m := range b.sheet.Merged {
		if m.Into == name {
			return slices.Clone(m.Of)
		}
	}
	return []string{name}
}

// merged merges two programs on the given days at the given starts, and returns
// what the merger changes. Cycles are the shorter ones and soaks the longer ones,
// which never adds runoff.
func (b *maker) merged(x, y *strategy.Program, days strategy.DayRule, starts []int) (p strategy.Program, cost float64) {
	p = strategy.Program{Name: x.Name + " + " + y.Name, Days: days, Starts: slices.Clone(starts), Minutes: make([]float64, len(x.Minutes)),
		Cycle: x.Cycle, Soak: max(x.Soak, y.Soak)}
	if p.Cycle == 0 || y.Cycle > 0 && y.Cycle < p.Cycle {
		p.Cycle = y.Cycle
	}
	runs := b.perWeek(days) * float64(len(starts))
	if runs == 0 {
		return p, math.Inf(1)
	}
	for _, of := range []*strategy.Program{x, y} {
		was := b.perWeek(of.Days) * float64(len(of.Starts))
		for z, m := range of.Minutes {
			if m <= 0 || was == 0 {
				continue
			}
			p.Minutes[z] += m * was / runs
			water := m * was * b.site.Zones[z].FlowLMin()
			cost += float64(water * math.Abs(portable.Log(runs/was)))
			if of.Days != days {
				cost += float64(0.01 * water)
			}
		}
	}
	for z, m := range p.Minutes {
		if m > 0 {
			cost += float64(math.Abs(b.entered(m)-m) * runs * b.site.Zones[z].FlowLMin())
		}
	}
	return p, cost
}

// entered returns a run time as it can be entered.
func (b *maker) entered(m float64) float64 {
	if m <= 0 {
		return 0
	}
	least := 1.0
	if b.timer != nil {
		least = b.timer.MinMinutes
	}
	return max(sim.RoundHalfUp(m, 1), least)
}

// perWeek returns the days a week of a rule over the record.
func (b *maker) perWeek(r strategy.DayRule) float64 {
	c, n := b.site.Calendar, 0
	for i := range c.Days() {
		if r.Runs(c, i) {
			n++
		}
	}
	return 7 * float64(n) / float64(max(c.Days(), 1))
}

// fewerStarts keeps as many starts as the timer has, spread over the list, with
// run times that are longer by as much.
func (b *maker) fewerStarts(p *strategy.Program) {
	n := len(p.Starts)
	kept := make([]int, 0, b.timer.Starts)
	for k := range b.timer.Starts {
		kept = append(kept, p.Starts[k*n/b.timer.Starts])
	}
	for z := range p.Minutes {
		p.Minutes[z] *= float64(n) / float64(len(kept))
	}
	p.Starts = kept
}

// shortRuns notes the run times that the percentage makes shorter than the timer's
// shortest run.
func (b *maker) shortRuns() {
	s := b.sheet
	var zones, months []string
	for _, e := range s.Entries() {
		if e.Percent <= 0 || e.Minutes >= b.timer.MinMinutes-1e-9 {
			continue
		}
		if name := s.Zones[e.Zone].Name; !slices.Contains(zones, name) {
			zones = append(zones, name)
		}
		if name := strategy.MonthNames[e.Month-1]; !slices.Contains(months, name) {
			months = append(months, name)
		}
	}
	if len(zones) > 0 {
		b.note("At the percentages of %s, runs of %s are shorter than the timer's shortest run of %s min: the timer may lengthen or omit them.",
			strings.Join(months, ", "), strings.Join(zones, ", "), MinutesText(b.timer.MinMinutes))
	}
}

// cycleByStarts replaces the cycles of a program by more start times, so that each
// start is one cycle of every zone, as far as the timer has starts and the day or
// the watering window has time. Of the numbers of starts that are possible it takes
// the one with the least water added or dropped by rounding, or run beyond the
// cycle without a soak.
func (b *maker) cycleByStarts(p *strategy.Program) {
	top := max(slices.Max(b.sheet.Percent[:]), 0)
	if top == 0 {
		top = 1
	}
	room := float64(clock.Day)
	if b.site.Limits != nil {
		if rule := windowRule(b.rules()); rule != nil && !b.free(p, rule) {
			_, room = widest(rule.Windows)
		}
	}
	had := len(p.Starts)
	best, least, gap := 1, math.Inf(1), 0.0
	for k := 1; k*had <= b.timer.Starts; k++ {
		cost, pass, longest := 0.0, 0.0, 0.0
		for z, m := range p.Minutes {
			if m <= 0 {
				continue
			}
			each, flow := b.entered(m/float64(k)), b.site.Zones[z].FlowLMin()
			cost += float64(flow * math.Abs(float64(each*float64(k))-m))
			cost += float64(flow * float64(k) * max(float64(each*top)-p.Cycle, 0))
			pass, longest = pass+float64(each*top*b.most), max(longest, each*top*b.most)
		}
		apart := 5 * math.Ceil(max(pass, longest+p.Soak)/5-1e-9)
		if k > 1 && float64(float64(had*(k-1))*apart)+pass > room {
			break // and so do more starts
		}
		if cost < least-1e-9 {
			best, least, gap = k, cost, apart
		}
	}
	p.Cycle, p.Soak = 0, 0
	if best == 1 {
		return
	}
	for z := range p.Minutes {
		p.Minutes[z] /= float64(best)
	}
	p.Starts = series(p.Starts, best, int(gap))
	b.gap[p.Name] = gap
}

// series returns n starts for each of the given ones, the given number of minutes
// apart. All end up within the day: a series that would pass midnight begins
// earlier.
func series(starts []int, n, apart int) []int {
	var out []int
	for _, at := range starts {
		at = max(min(at, clock.Day-1-(n-1)*apart), 0)
		for k := range n {
			if t := (at + k*apart) % clock.Day; !slices.Contains(out, t) {
				out = append(out, t)
			}
		}
	}
	// Starts that coincide are moved on by a minute, so that none is lost.
	for t := 0; len(out) < n*len(starts) && t < clock.Day; t++ {
		if at := (out[len(out)-1] + 1) % clock.Day; !slices.Contains(out, at) {
			out = append(out, at)
		}
	}
	slices.Sort(out)
	return out
}
