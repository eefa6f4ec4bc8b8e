package scenarios

import (
	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

// A TminNeed is a part of a strategy that needs minimum temperatures.
type TminNeed struct {
	Strategy string
	What     string   // what to remove if there are none
	Pos      diag.Pos // of the part
}

// NeedTmin lists the parts that need minimum temperatures, in the order of the
// strategies.
func (sc *Scenario) NeedTmin() (out []TminNeed) {
	for i := range sc.Strategies {
		st := &sc.Strategies[i]
		for k, part := range st.Parts {
			w, err := strategy.WarningsOf(part, sc.zoneNames())
			if err != nil || w.Tmin == "" {
				continue
			}
			out = append(out, TminNeed{st.Name, w.Tmin, sc.placeOfPart(st, k)})
		}
	}
	return out
}

// placeOfPart returns the place of the first parameter given for part k of a
// strategy; only the file is known if the strategy was not read.
func (sc *Scenario) placeOfPart(st *strategy.Strategy, k int) diag.Pos {
	for i := range sc.Stacks {
		if stack := &sc.Stacks[i]; stack.Name == st.Name && len(stack.Parts) == len(st.Parts) {
			for _, in := range stack.Parts[k].Inputs {
				if !in.Defaulted {
					return in.Pos
				}
			}
		}
	}
	return diag.Pos{File: sc.File}
}

func (sc *Scenario) zoneNames() []string {
	names := make([]string, len(sc.Zones))
	for i := range sc.Zones {
		names[i] = sc.Zones[i].Name
	}
	return names
}
