package tune

import (
	"loamledger/sim/strategy"
)

// A refilling is the refill settings of one zone, as indices into the space.
type refilling struct{ mad, days, cycle, share int }

// refill searches triggers, days and cycles one at a time from several starting
// points, or tries all combinations if there are few. It tries every share of the
// run time with each, since under a water balance longer runs may mean fewer
// days. Every zone has its own balance and its own best setting.
func (s *search) refill(r *Result) error {
	sp := &s.space
	size := [3]int{len(sp.MAD), len(s.days), len(sp.Cycles)}
	known := map[refilling][]measured{}
	zones := len(s.job.Zones)
	at := make([]refilling, zones)
	var begin []refilling
	if size[0]*size[1]*size[2] <= 100 {
		var all []refilling
		for m := range size[0] {
			for d := range size[1] {
				for c := range size[2] {
					all = append(all, refilling{mad: m, days: d, cycle: c})
				}
			}
		}
		if err := s.try(all, known); err != nil {
			return err
		}
		for z := range at {
			at[z] = s.best(all, known, z, all[0])
		}
	} else {
		begin = []refilling{{mad: size[0] / 3}, {mad: size[0] / 2, days: size[1] / 2, cycle: size[2] - 1}}
	}
	for i, from := range begin {
		for z, found := range s.refillFrom(from, size, known) {
			if s.err != nil {
				return s.err
			}
			if i == 0 || s.refillCost(z, found, known).less(s.refillCost(z, at[z], known)) {
				at[z] = found
			}
		}
	}
	for z := range at {
		if err := s.none(s.refillCost(z, at[z], known)); err != nil {
			return err
		}
	}
	if err := s.halted(s.settle(at, size)); err != nil {
		return err
	}
	s.told = 0
	r.Strategy = s.refillOf("tuned: "+Refill.Words(), at)
	return nil
}

// settle improves one zone after another, with the others unchanged, under all
// site limits, if zones share a window.
func (s *search) settle(at []refilling, size [3]int) error {
	if l := s.limits; l == nil || len(l.Always.Windows) == 0 && len(l.Stages) == 0 || len(at) > 50 {
		return nil
	}
	now, err := s.measureUnder(s.limits, s.job.Zones, []strategy.Strategy{s.refillOf("", at)})
	if err != nil {
		return err
	}
	total := s.total(now[0])
	for z := range at {
		if total.over == 0 {
			return nil
		}
		var tries []refilling
		for k, n := range []int{size[0], size[1], size[2], len(s.space.Shares)} {
			for i := range n {
				f := at[z]
				*[]*int{&f.mad, &f.days, &f.cycle, &f.share}[k] = i
				if s.may[f.days][z] && s.splits(z, s.space.Cycles[f.cycle]) {
					tries = append(tries, f)
				}
			}
		}
		var list []strategy.Strategy
		was := at[z]
		for _, f := range tries {
			at[z] = f
			list = append(list, s.refillOf("", at))
		}
		at[z] = was
		got, err := s.measureUnder(s.limits, s.job.Zones, list)
		if err != nil {
			return err
		}
		for i, f := range tries {
			if c := s.total(got[i]); c.less(total) {
				at[z], total = f, c
			}
		}
	}
	return nil
}

// total returns the cost of the measures of all zones.
func (s *search) total(got []measured) (sum cost) {
	for z, m := range got {
		sum = sum.plus(s.cost(z, m))
	}
	return sum
}

// refillFrom improves one coordinate after another for every zone. It stores an
// error in s.err.
func (s *search) refillFrom(from refilling, size [3]int, known map[refilling][]measured) []refilling {
	at := make([]refilling, len(s.job.Zones))
	for z := range at {
		at[z] = from
	}
	for changed := true; changed && !s.stopped; {
		changed = false
		for k := range size {
			lists := make([][]refilling, len(at))
			var all []refilling
			for z := range at {
				for i := range size[k] {
					f := at[z]
					*[]*int{&f.mad, &f.days, &f.cycle}[k] = i
					f.share = 0
					lists[z] = append(lists[z], f)
				}
				all = append(all, lists[z]...)
			}
			if s.err = s.try(all, known); s.err != nil {
				return at
			}
			for z := range at {
				if f := s.best(lists[z], known, z, at[z]); f != at[z] {
					at[z], changed = f, true
				}
			}
		}
	}
	return at
}

// best returns the cheapest of a list for zone z, with any share, or now if none
// is better.
func (s *search) best(list []refilling, known map[refilling][]measured, z int, now refilling) refilling {
	for _, f := range list {
		for f.share = range s.space.Shares {
			if s.refillCost(z, f, known).less(s.refillCost(z, now, known)) {
				now = f
			}
		}
	}
	return now
}

// refillCost returns the cost of a setting on zone z. A setting on days that the
// site does not allow is barred. One that may water more often than suits the plants
// counts as half a day over the goal, so that it is taken only to meet the goal.
func (s *search) refillCost(z int, f refilling, known map[refilling][]measured) cost {
	got := known[f]
	if got == nil {
		return cost{over: 2e9}
	}
	c := s.cost(z, got[z])
	if !s.may[f.days][z] || !s.splits(z, s.space.Cycles[f.cycle]) {
		c.over += 1e6
	}
	if z < len(s.intervals) && gapsOf(s.days[f.days]).least < s.intervals[z].Shortest {
		c.over += 0.5
	}
	return c
}

// try measures the unknown entries of a list, with every share of the run time,
// on every zone.
func (s *search) try(list []refilling, known map[refilling][]measured) error {
	var fresh []refilling
	var all []strategy.Strategy
	for _, f := range list {
		f.share = 0
		if _, ok := known[f]; ok {
			continue
		}
		for f.share = range s.space.Shares {
			known[f] = nil
			fresh = append(fresh, f)
			same := make([]refilling, len(s.job.Zones))
			for z := range same {
				same[z] = f
			}
			all = append(all, s.refillOf("", same))
		}
	}
	got, err := s.measure(all)
	if err = s.halted(err); err != nil {
		return err
	}
	if s.stopped {
		for _, f := range fresh {
			delete(known, f)
		}
		return nil
	}
	for i, f := range fresh {
		known[f] = got[i]
	}
	return nil
}

// refillOf makes the strategy that refills zones as given. Zones that differ only
// in their share of the run time share a part.
func (s *search) refillOf(name string, of []refilling) strategy.Strategy {
	sp := &s.space
	st := strategy.Strategy{Name: name}
	share := make([]float64, len(of))
	done := make([]bool, len(of))
	for z, f := range of {
		share[z] = sp.Shares[f.share]
		if done[z] {
			continue
		}
		zones := make([]bool, len(of))
		for y, g := range of {
			if g.share = f.share; g == f && s.open[y].at == s.open[z].at {
				zones[y], done[y] = true, true
			}
		}
		c := sp.Cycles[f.cycle]
		st.Parts = append(st.Parts, &strategy.Refill{Zones: zones, MAD: sp.MAD[f.mad], Days: s.days[f.days], CycleMin: c.CycleMin,
			SoakMin: c.SoakMin, StartMin: float64(s.open[z].at),
			// The balance must not include the margin added to plant water needs.
			Assumed: strategy.Assumed{K: s.told, Seed: 1}})
	}
	st.Parts = append(st.Parts, strategy.ZonePercent{Share: share})
	st.Parts = append(st.Parts, s.season...)
	return st
}
