package tune

import "loamledger/sim/strategy"

// A variant is a way to water all zones; its run times are to be found.
type variant struct {
	build func(minutes []int) strategy.Strategy
	most  []int // by zone
	hint  []int // by zone, where to begin; nil for half of most
}

// A found is the shortest run time of each zone under one variant.
type found struct {
	minutes []int
	got     []measured
	cost    cost // of all zones
}

// A probe is the search for the run time of one zone under one variant: lo is too
// short, hi is enough, and at is tried next.
type probe struct {
	floor, lo, hi, at, step int      // floor is the most that is never tried
	best                    measured // at hi, or at most if nothing is enough
	done                    bool
}

// fewest finds the shortest run time of each variant and zone that keeps stress
// within the goal. It searches them all in step, since one replay tries one value
// for every zone of every variant.
func (s *search) fewest(variants []variant) ([]found, error) {
	zones := len(s.job.Zones)
	probes := make([][]probe, len(variants))
	for v := range variants {
		probes[v] = make([]probe, zones)
		for z := range probes[v] {
			p := &probes[v][z]
			most := variants[v].most[z]
			floor := min(int(s.space.Timer.MinMinutes), most) - 1
			*p = probe{floor: floor, lo: floor, hi: most + 1, at: max((most+1)/2, floor+1), step: max(most/4, 1)}
			if hint := variants[v].hint; hint != nil {
				p.at, p.step = min(max(hint[z], floor+1), most), 1
			}
			if s.dryness(s.dryOnly[z]) {
				*p = probe{done: true, best: s.dryOnly[z]}
			}
		}
	}
	for {
		var list []strategy.Strategy
		var which []int
		for v := range variants {
			open := false
			minutes := make([]int, zones)
			for z := range minutes {
				p := &probes[v][z]
				minutes[z] = p.at
				open = open || !p.done
			}
			if open {
				list, which = append(list, variants[v].build(minutes)), append(which, v)
			}
		}
		if len(list) == 0 {
			break
		}
		got, err := s.measure(list)
		if err = s.halted(err); err != nil {
			return nil, err
		}
		if s.stopped {
			for v := range probes {
				for z := range probes[v] {
					probes[v][z].stop(variants[v].most[z])
				}
			}
			break
		}
		for i, v := range which {
			for z := range probes[v] {
				probes[v][z].take(got[i][z], s.dryness(got[i][z]), variants[v].most[z])
			}
		}
	}
	out := make([]found, len(variants))
	for v := range out {
		f := &out[v]
		for z := range probes[v] {
			p := &probes[v][z]
			f.minutes, f.got = append(f.minutes, p.at), append(f.got, p.best)
			f.cost = f.cost.plus(s.cost(z, p.best))
		}
	}
	return out, nil
}

// take records the result for the minutes tried and chooses the next.
func (p *probe) take(m measured, ok bool, most int) {
	if p.done {
		return
	}
	if ok {
		p.hi, p.best = p.at, m
	} else {
		p.lo = p.at
		if p.at == most {
			p.best = m
		}
	}
	switch {
	case p.lo == most: // nothing is enough
		p.at, p.done = most, true
	case p.hi-p.lo == 1 && p.hi <= most:
		p.at, p.done = p.hi, true
	case p.hi > most:
		p.at = min(p.at+p.step, most)
		p.step *= 2
	case p.lo == p.floor:
		p.at = max(p.at-p.step, p.floor+1)
		p.step *= 2
	default:
		p.at = (p.lo + p.hi) / 2
	}
}

// stop ends the search of a probe at the shortest run time known to be enough.
func (p *probe) stop(most int) {
	switch {
	case p.done:
	case p.hi <= most:
		p.at = p.hi
	default:
		p.at, p.best = most, measured{unknown: true}
	}
	p.done = true
}
