package strategy

import (
	"math"

	"loamledger/sim"
)

// A raiser is a part that multiplies run times.
type raiser interface {
	// most returns the highest factor on the run times of zone z that the part can
	// reach, 0 or more.
	most(z int) float64
}

func (e ETPercent) most(int) float64 { return e.Max }

func (m Monthly) most(int) float64 { return greatest(m.Auto, &m.Share) }

func (p ZonePercent) most(z int) float64 {
	if math.IsNaN(p.Share[z]) {
		return 1
	}
	return p.Share[z]
}

func (h Habit) most(int) float64 {
	f := 1.0
	if h.Edits > 0 {
		f = greatest(h.Target == nil, h.Target)
	}
	if h.RaiseBy > 0 {
		f *= 1 + float64(float64(h.Steps)*h.RaiseBy)
	}
	return f
}

// greatest returns the highest of twelve shares; of those from the record, it is 1.
func greatest(auto bool, share *[12]float64) float64 {
	if auto {
		return 1
	}
	f := 0.0
	for _, s := range share {
		f = max(f, s)
	}
	return f
}

// A Longest is the run of a zone with the most cycles that a strategy can reach in
// one start.
type Longest struct {
	Zone    int
	Program string  // "" for a refill
	Refill  *Refill // nil for a program
	Run     sim.Run
}

// Longest returns the run with the most cycles in one start that the strategy can
// reach on the given zones, with every percentage at its highest, refills of the
// whole TAW, and each of its changes. It bounds the work of a replay. The zero
// Longest has no run.
func (st *Strategy) Longest(zones []sim.Zone) (out Longest) {
	if len(st.Stretches) == 0 {
		return st.longest(zones)
	}
	for k := range st.Stretches {
		then := st.In(k)
		if l := then.longest(st.Stretches[k].Zones); l.Run.Cycles() > out.Run.Cycles() {
			out = l
		}
	}
	return out
}

func (st *Strategy) longest(zones []sim.Zone) (out Longest) {
	keep := func(l Longest) {
		for _, p := range st.Parts {
			if p, ok := p.(raiser); ok {
				l.Run.Minutes *= p.most(l.Zone)
			}
		}
		if l.Run.CycleMin > 0 && l.Run.Cycles() > out.Run.Cycles() {
			out = l
		}
	}
	for _, p := range st.Parts {
		switch p := p.(type) {
		case Programs:
			for i := range p.List {
				for z := range zones {
					l := Longest{Zone: z, Program: p.List[i].Name, Run: p.List[i].run(z)}
					l.Run.Minutes *= max(p.List[i].RampTo, 1)
					keep(l)
				}
			}
		case *Refill:
			for z, is := range p.Zones {
				if is && zones[z].AreaM2 > 0 {
					keep(Longest{Zone: z, Refill: p, Run: sim.Run{Minutes: p.FullMinutes(&zones[z]) / p.MAD, CycleMin: p.CycleMin, SoakMin: p.SoakMin}})
				}
			}
		}
	}
	return out
}
