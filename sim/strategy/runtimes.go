package strategy

import (
	"math"
	"slices"
)

// A RunTime is the run time of a zone in a program [min].
type RunTime struct {
	Program string
	Zone    int
	Minutes float64
}

// WithRunTimes returns the strategy with the run times of each zone multiplied by a
// factor of at least 1: those of programs, rounded up to whole minutes and listed; with a
// refill or without programs, by a percentage of the zone. Manual runs stay as they
// are.
func (st *Strategy) WithRunTimes(factors []float64) (out Strategy, entered []RunTime) {
	out = Strategy{Name: st.Name, Parts: slices.Clone(st.Parts), Unbound: st.Unbound}
	others := slices.ContainsFunc(out.Parts, func(p Part) bool { _, ok := p.(*Refill); return ok })
	for i, p := range out.Parts {
		p, ok := p.(Programs)
		if !ok || others {
			continue
		}
		list := slices.Clone(p.List)
		for k := range list {
			if list[k].ByHand {
				continue
			}
			list[k].Minutes = slices.Clone(list[k].Minutes)
			for z, f := range factors {
				if m := &list[k].Minutes[z]; f != 1 && *m > 0 {
					*m = math.Ceil(float64(*m*f) - 1e-9)
					entered = append(entered, RunTime{list[k].Name, z, *m})
				}
			}
		}
		out.Parts[i] = Programs{List: list}
	}
	if entered == nil {
		share := slices.Clone(factors)
		for z := range share {
			if share[z] == 1 {
				share[z] = math.NaN()
			}
		}
		out.Parts = append(out.Parts, ZonePercent{Share: share})
	}
	return out, entered
}
