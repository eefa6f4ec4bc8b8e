package tune

import (
	"loamledger/sim/strategy"
)

// A refilling is how one zone is refilled: indices into the space.
type refilling struct{ mad, days, cycle, share int }

// refill searches triggers, days and cycles one after the other from several
// beginnings, or all of them where they are few; every share of the minutes is
// tried with each, since with a balance behind them more minutes may well mean
// fewer days. Every zone has its own balance, and so its own best.
func (s *search) refill(r *Result) error {
	sp := &s.space
	size := [3]int{len(sp.MAD), len(sp.Days), len(sp.Cycles)}
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
			if i == 0 || s.cost(z, known[found][z]).less(s.cost(z, known[at[z]][z])) {
				at[z] = found
			}
		}
	}
	if err := s.settle(at, size); err != nil {
		return err
	}
	s.told = 0
	r.Strategy = s.refillOf("tuned: "+Refill.Words(), at)
	return nil
}

// settle changes one zone after the other for the better with all others as
// they are and under all limits of the site, where zones share a window.
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
				tries = append(tries, f)
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

// total returns what measures of all zones cost.
func (s *search) total(got []measured) (sum cost) {
	for z, m := range got {
		sum = sum.plus(s.cost(z, m))
	}
	return sum
}

// refillFrom changes for every zone one coordinate after the other for the
// better. A fault is left in s.err.
func (s *search) refillFrom(from refilling, size [3]int, known map[refilling][]measured) []refilling {
	at := make([]refilling, len(s.job.Zones))
	for z := range at {
		at[z] = from
	}
	for changed := true; changed; {
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

// best returns which of a list, with any share, costs least on zone z, or now
// where none is better than that.
func (s *search) best(list []refilling, known map[refilling][]measured, z int, now refilling) refilling {
	for _, f := range list {
		for f.share = range s.space.Shares {
			if s.cost(z, known[f][z]).less(s.cost(z, known[now][z])) {
				now = f
			}
		}
	}
	return now
}

// try measures what is not yet known of a list, with every share of the
// minutes on every zone.
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
	if err != nil {
		return err
	}
	for i, f := range fresh {
		known[f] = got[i]
	}
	return nil
}

// refillOf makes the strategy of zones under refillings. Zones that share all
// but the share of the minutes share a part.
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
			if g.share = f.share; g == f {
				zones[y], done[y] = true, true
			}
		}
		c := sp.Cycles[f.cycle]
		st.Parts = append(st.Parts, &strategy.Refill{Zones: zones, MAD: sp.MAD[f.mad], Days: sp.Days[f.days], CycleMin: c.CycleMin,
			SoakMin: c.SoakMin, StartMin: float64(s.begin()),
			// What plants are taken to need beyond what they do, the balance must not see.
			Believed: strategy.Believed{K: s.told, Seed: 1}})
	}
	st.Parts = append(st.Parts, strategy.ZonePercent{Share: share})
	return st
}
