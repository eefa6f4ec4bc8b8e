package strategy

import "slices"

// WithCycles returns the strategy with every program and refill in cycles of at
// most cycleMin with soaks of soakMin between them; false if it has neither.
// Manual runs stay as they are.
func (st *Strategy) WithCycles(cycleMin, soakMin float64) (Strategy, bool) {
	out, found := *st, false
	out.Parts = slices.Clone(st.Parts)
	for i, p := range out.Parts {
		switch p := p.(type) {
		case Programs:
			list := slices.Clone(p.List)
			for k := range list {
				list[k].Cycle, list[k].Soak = cycleMin, soakMin
			}
			out.Parts[i], found = Programs{List: list}, true
		case *Refill:
			r := *p
			r.CycleMin, r.SoakMin = cycleMin, soakMin
			out.Parts[i], found = &r, true
		}
	}
	return out, found
}
