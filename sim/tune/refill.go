package tune

import (
	"math"
	"slices"

	"loamledger/sim/strategy"
)

// A refilling is what all zones share when a balance asks for water: indices
// into the space.
type refilling struct{ mad, days, cycle int }

// refill searches triggers, days and cycles one after the other from several
// beginnings, or all of them where they are few; each zone has the share of the
// minutes that serves it best.
func (s *search) refill(r *Result) error {
	sp := &s.space
	size := [3]int{len(sp.MAD), len(sp.Days), len(sp.Cycles)}
	known := map[refilling]shared{}
	try := func(list []refilling) error {
		var fresh []refilling
		for _, f := range list {
			if _, ok := known[f]; !ok {
				fresh = append(fresh, f)
			}
		}
		got, err := s.shared(fresh)
		for i := range got {
			known[fresh[i]] = got[i]
		}
		return err
	}
	best, any := refilling{}, false
	keep := func(list []refilling) (better bool) {
		for _, f := range list {
			if !any || known[f].cost.less(known[best].cost) {
				best, any, better = f, true, true
			}
		}
		return better
	}
	if size[0]*size[1]*size[2] <= 100 {
		var all []refilling
		for m := range size[0] {
			for d := range size[1] {
				for c := range size[2] {
					all = append(all, refilling{m, d, c})
				}
			}
		}
		if err := try(all); err != nil {
			return err
		}
		keep(all)
	} else {
		for _, from := range []refilling{{size[0] / 4, 0, 0}, {size[0] / 2, 0, size[2] - 1}, {size[0] / 2, size[1] / 2, size[2] / 2}} {
			if err := s.descend(from, size, known, try); err != nil {
				return err
			}
		}
		var all []refilling
		for m := range size[0] { // in a fixed order, unlike a map's
			for d := range size[1] {
				for c := range size[2] {
					if _, ok := known[refilling{m, d, c}]; ok {
						all = append(all, refilling{m, d, c})
					}
				}
			}
		}
		keep(all)
	}
	r.Strategy = s.refillOf("tuned: "+Refill.Words(), best, known[best].share)
	return nil
}

// descend changes one coordinate after the other for the better.
func (s *search) descend(at refilling, size [3]int, known map[refilling]shared, try func([]refilling) error) error {
	for {
		before := at
		for k := range size {
			var list []refilling
			for i := range size[k] {
				f := at
				*[]*int{&f.mad, &f.days, &f.cycle}[k] = i
				list = append(list, f)
			}
			if err := try(append(list, at)); err != nil {
				return err
			}
			for _, f := range list {
				if known[f].cost.less(known[at].cost) {
					at = f
				}
			}
		}
		if at == before {
			return nil
		}
	}
}

// A shared is the best share of the minutes of each zone under a refilling.
type shared struct {
	share []float64
	cost  cost
}

// shared tries every share of the minutes on every zone: with a balance behind
// them, more minutes may well mean fewer days, so that nothing can be halved.
func (s *search) shared(list []refilling) ([]shared, error) {
	zones := len(s.job.Zones)
	var all []strategy.Strategy
	for _, f := range list {
		for _, share := range s.space.Shares {
			all = append(all, s.refillOf("", f, slices.Repeat([]float64{share}, zones)))
		}
	}
	got, err := s.measure(all)
	if err != nil {
		return nil, err
	}
	out := make([]shared, len(list))
	for i := range out {
		out[i].share = make([]float64, zones)
		for z := range zones {
			least := cost{math.Inf(1), 0}
			for k, share := range s.space.Shares {
				if c := s.cost(z, got[i*len(s.space.Shares)+k][z]); c.less(least) {
					least, out[i].share[z] = c, share
				}
			}
			out[i].cost = out[i].cost.plus(least)
		}
	}
	return out, nil
}

// refillOf makes the strategy of a refilling.
func (s *search) refillOf(name string, f refilling, share []float64) strategy.Strategy {
	sp := &s.space
	zones := make([]bool, len(share))
	for z := range zones {
		zones[z] = true
	}
	c := sp.Cycles[f.cycle]
	return strategy.Strategy{Name: name, Parts: []strategy.Part{
		&strategy.Refill{Zones: zones, MAD: sp.MAD[f.mad], Days: sp.Days[f.days], CycleMin: c.CycleMin, SoakMin: c.SoakMin, StartMin: float64(s.begin())},
		strategy.ZonePercent{Share: share},
	}}
}
