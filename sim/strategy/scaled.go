package strategy

import "slices"

// WithProgramTimes returns the strategy with all run times of the named programs
// multiplied by a factor, 0 or more, as if they had been set so; other programs, runs by
// hand and everything else stay. Unlike [Strategy.WithRunTimes] it rounds nothing.
func (st *Strategy) WithProgramTimes(names []string, factor float64) Strategy {
	out := *st
	out.Parts = slices.Clone(st.Parts)
	for i, part := range out.Parts {
		p, ok := part.(Programs)
		if !ok {
			continue
		}
		list := slices.Clone(p.List)
		for k := range list {
			if list[k].ByHand || !slices.Contains(names, list[k].Name) {
				continue
			}
			list[k].Minutes = slices.Clone(list[k].Minutes)
			for z := range list[k].Minutes {
				list[k].Minutes[z] *= factor
			}
		}
		out.Parts[i] = Programs{List: list}
	}
	return out
}

// ProgramNames lists the programs that the strategy runs, without those by hand.
func (st *Strategy) ProgramNames() (names []string) {
	for _, part := range st.Parts {
		if p, ok := part.(Programs); ok {
			for i := range p.List {
				if !p.List[i].ByHand {
					names = append(names, p.List[i].Name)
				}
			}
		}
	}
	return names
}
