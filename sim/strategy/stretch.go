package strategy

import (
	"math"
	"slices"

	"loamledger/sim"
	"loamledger/weather/cal"
)

// A Stretch is what the changes of a strategy leave from a date on: its zones, and
// what becomes of the run times that were set before.
type Stretch struct {
	// From is the first day. The first stretch of a strategy also covers all days
	// before it.
	From  cal.Date
	Zones []sim.Zone // all zones of the site; an area of 0 takes a zone out of irrigation
	// Roots is, by zone, the root depth as a multiple of that of the stretch before;
	// nil for 1.
	Roots []float64
	// Anew marks, by zone, plants that were not there in the stretch before; nil for
	// none.
	Anew []bool
	// Run is, by zone, the factor on run times of programs and manual runs, and
	// Percent the part of it that a refill follows, too: it works out its run times
	// from the rate. nil for 1.
	Run, Percent []float64
	// Establishing marks, by zone, days on which new plants are established; nil for
	// none.
	Establishing []bool
	// Without marks, by index, the parts that are not in force; nil for none.
	Without []bool
}

// A scaled is a part with run times of its own that a change of the hardware scales.
type scaled interface {
	// scaled returns the part with the run times of each zone multiplied.
	scaled(run []float64) Part
}

// In returns the strategy as it is in stretch k: its parts with the run times that
// the changes leave, and no stretches.
func (st *Strategy) In(k int) Strategy {
	out := *st
	s := &st.Stretches[k]
	out.Stretches = nil
	if !neutral(s.Run) {
		out.Parts = slices.Clone(st.Parts)
		for i, p := range out.Parts {
			if p, ok := p.(scaled); ok {
				out.Parts[i] = p.scaled(s.Run)
			}
		}
	}
	if slices.Contains(s.Without, true) {
		var parts []Part
		for i, p := range out.Parts {
			if !s.Without[i] {
				parts = append(parts, p)
			}
		}
		out.Parts = parts
	}
	out.Terms = nil
	if share := st.refillShares(s.Percent); !neutral(share) {
		out.Parts = append(slices.Clone(out.Parts), ZonePercent{Share: share})
	}
	return out
}

// Settled returns the strategy as it is after its last change, and its zones then;
// the strategy itself and the given zones if it changes nothing.
func (st *Strategy) Settled(zones []sim.Zone) (Strategy, []sim.Zone) {
	n := len(st.Stretches)
	if n == 0 {
		return *st, zones
	}
	return st.In(n - 1), st.Stretches[n-1].Zones
}

// Unchanged returns the strategy without its changes.
func (st *Strategy) Unchanged() Strategy {
	out := *st
	out.Stretches = nil
	return out
}

// refillShares is Percent of the zones that a refill waters, NaN for the others.
func (st *Strategy) refillShares(percent []float64) []float64 {
	if neutral(percent) {
		return nil
	}
	var out []float64
	for _, p := range st.Parts {
		r, ok := p.(*Refill)
		if !ok {
			continue
		}
		if out == nil {
			out = make([]float64, len(percent))
			for z := range out {
				out[z] = math.NaN()
			}
		}
		for z, v := range percent {
			if z < len(r.Zones) && r.Zones[z] {
				out[z] = v
			}
		}
	}
	return out
}

// neutral reports whether every factor is 1 or left open.
func neutral(factors []float64) bool {
	return !slices.ContainsFunc(factors, func(f float64) bool { return f != 1 && !math.IsNaN(f) })
}

// scaled returns the programs with the run times of each zone multiplied.
func (p Programs) scaled(run []float64) Part {
	list := slices.Clone(p.List)
	for i := range list {
		list[i].Minutes = slices.Clone(list[i].Minutes)
		for z := range list[i].Minutes {
			list[i].Minutes[z] *= run[z]
		}
	}
	return Programs{List: list}
}

// scaled returns the manual run with its run time multiplied.
func (m Manual) scaled(run []float64) Part {
	m.Minutes *= run[m.Zone]
	return m
}
