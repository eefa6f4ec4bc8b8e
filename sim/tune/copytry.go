package tune

import (
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// options lists the patterns of days and cycles, and the zones that may use each.
// A zone needs at least as many days as the strategy watered on in its peak month,
// and uses the cycles of the strategy if own is set, or else the given ones.
func (c *copier) options(cycles []Cycle, own bool) (options []option, allowed [][]bool, err error) {
	days := slices.DeleteFunc(slices.Clone(c.space.Days), func(r strategy.DayRule) bool {
		return r.Kind != strategy.AnyDay && r.Kind != strategy.Weekdays
	})
	if len(days) == 0 {
		days = c.space.Days
	}
	cycles = slices.Clone(cycles)
	told := make([]Cycle, len(c.zones)) // set by the strategy
	for _, p := range c.st.Parts {
		entry, err := strategy.OnCopy(p)
		if err != nil {
			return nil, nil, err
		}
		if own && entry.CycleMin > 0 {
			cycle := Cycle{max(math.Floor(entry.CycleMin), 1), math.Ceil(entry.SoakMin)}
			if !slices.Contains(cycles, cycle) {
				cycles = append(cycles, cycle)
			}
			for z, is := range entry.Zones {
				if is {
					told[z] = cycle
				}
			}
		}
	}
	mostDays := 0.0
	for _, d := range days {
		mostDays = max(mostDays, c.perWeekOf(d))
	}
	for _, d := range days {
		n := c.perWeekOf(d)
		for _, cycle := range cycles {
			may := make([]bool, len(c.zones))
			for z := range may {
				// Up to a quarter of a day less counts as equal, in whole days a week.
				may[z] = n >= min(c.often[z]-0.25, mostDays-1e-9) && (told[z] == Cycle{} || told[z] == cycle)
			}
			options, allowed = append(options, option{days: d, cycle: cycle}), append(allowed, may)
		}
	}
	return options, allowed, nil
}

// copyRaises returns the factors on run times to try.
func copyRaises() (list []float64) {
	for f := 100; f <= int(100*CopyMost); f += 5 {
		list = append(list, float64(f)/100)
	}
	return list
}

// tryAll replays every option with every factor on run times, each zone by
// itself. For each option and zone it returns the run time that uses the least
// water among those that do no worse than the strategy, or come closest to it,
// and its cost: first with runoff counted, then without.
func (c *copier) tryAll(options []option, allowed [][]bool) (found [2]tries, err error) {
	raises := copyRaises()
	minutesOf := func(o, z int, raise float64) int {
		if c.weekly[z] <= 0 {
			return 0
		}
		mean := c.weekly[z] / c.perWeekOf(options[o].days)
		minutes := int(math.Ceil(float64(raise*mean) - 1e-9))
		minutes = min(minutes, max(int(float64(CopyMost*mean)+1e-9), int(math.Ceil(mean-1e-9))))
		return min(max(minutes, 1), c.mostMinutes(z, options[o].cycle))
	}
	var list []strategy.Strategy
	minutes := make([][]int, 0, len(options)*len(raises))
	for o := range options {
		of := slices.Repeat([]int{o}, len(c.zones))
		for _, raise := range raises {
			row := make([]int, len(c.zones))
			for z := range row {
				row[z] = minutesOf(o, z, raise)
			}
			minutes = append(minutes, row)
			list = append(list, c.build("", options, of, row, c.parts))
		}
	}
	for k := range found {
		for range options {
			found[k].costs = append(found[k].costs, slices.Repeat([]cost{{math.Inf(1), 0}}, len(c.zones)))
			found[k].minutes = append(found[k].minutes, make([]int, len(c.zones)))
		}
	}
	err = c.replay(c.job.Limits, c.job.Zones, list, func(i int, t *tally.Table, k int) {
		o := i / len(raises)
		for z, s := range shorts(t, k, c.median, c.dry) {
			sum := t.Total(k, z)
			now := cost{s.beyond(c.own[z]), sum.GrossMM / 1000 * t.Zones[z].AreaM2}
			if !allowed[o][z] {
				now.over += 1e6 // only if nothing else is left
			}
			for f := range found {
				if f == 1 {
					now.over -= s.runoffBeyond(c.own[z])
				}
				if now.less(found[f].costs[o][z]) {
					found[f].costs[o][z], found[f].minutes[o][z] = now, minutes[i][z]
				}
			}
		}
	})
	return found, err
}

// tries are the best run times by option and zone, and their costs.
type tries struct {
	costs   [][]cost
	minutes [][]int
}

// grouped splits the zones of each option into groups that water on separate
// days, as many as have no day in common: shifts of the same pattern. Zones are
// dealt to the groups in order of run time, longest first.
func (c *copier) grouped(options []option, of []int, minutes [][]int, groups int) (all []option, in, at []int) {
	in, at = make([]int, len(of)), make([]int, len(of))
	order := make([]int, len(of))
	for z, o := range of {
		order[z], at[z] = z, minutes[o][z]
	}
	slices.SortStableFunc(order, func(a, b int) int { return at[b] - at[a] })
	calendar := c.calendar()
	shifted := map[int][]int{} // by option: its groups, as indices into all
	next := map[int]int{}
	for _, z := range order {
		o := of[z]
		if shifted[o] == nil {
			var taken []strategy.DayRule
			for _, days := range legalDays(c.search, shifts(options[o].days)) {
				if len(taken) < groups && !slices.ContainsFunc(taken, func(r strategy.DayRule) bool { return shareDay(calendar, r, days) }) {
					taken = append(taken, days)
					shifted[o] = append(shifted[o], len(all))
					all = append(all, option{days: days, cycle: options[o].cycle})
				}
			}
		}
		in[z] = shifted[o][next[o]%len(shifted[o])]
		next[o]++
	}
	return all, in, at
}

// shareDay reports whether two rules have a day of the calendar in common.
func shareDay(calendar *sim.Calendar, a, b strategy.DayRule) bool {
	for i := range calendar.Days() {
		if a.Runs(calendar, i) && b.Runs(calendar, i) {
			return true
		}
	}
	return false
}
