package sim

import "slices"

// Same reports whether two zones have the same numbers throughout.
func (z *Zone) Same(o *Zone) bool {
	a, b := *z, *o
	a.Season, a.Overseed, b.Season, b.Overseed = nil, nil, nil, nil
	return a == b && z.Season.same(o.Season) && z.Overseed.same(o.Overseed)
}

func (s *Season) same(o *Season) bool {
	if s == nil || o == nil {
		return s == o
	}
	return *s == *o
}

func (s *Overseed) same(o *Overseed) bool {
	if s == nil || o == nil {
		return s == o
	}
	a, b := *s, *o
	a.Season, b.Season = nil, nil
	return a == b && s.Season.same(o.Season)
}

// A SoilStep is the depletion that a change of the root zone adds on the morning of
// a day, mean over the zone [mm]; below 0 if it removes some.
type SoilStep struct {
	Day int // of the record
	MM  float64
}

// Change makes z the zone whose water the balance follows from now on, and returns
// by how much mean depletion changes with it [mm]. roots is the root depth as a
// multiple of that before, above 0. The rules, which are ours:
//
//   - roots that grow reach soil at field capacity: depletion stays as it is [mm];
//   - roots that shrink leave their share of the depletion behind;
//   - soil that holds more or less per depth keeps the water it has, and what it
//     cannot hold drains;
//   - of another number of strips, each takes the mean of the area it covers.
//
// Water is neither made nor lost by uniformity, rate, plants or losses. anew starts
// the record of stress afresh, as for plants that were not there yesterday.
func (b *Balance) Change(z *Zone, roots float64, anew bool) (addedMM float64) {
	before := mean(b.DepletionMM)
	if n := z.Strips; n != len(b.DepletionMM) {
		b.DepletionMM = spread(b.DepletionMM, n)
	}
	for i, d := range b.DepletionMM {
		b.DepletionMM[i] = Rerooted(d, b.tawMM, z.TAWMM, roots)
	}
	b.tawMM, b.quarter, b.working = z.TAWMM, max(z.Strips/4, 1), z.WorkingStorage
	for i, d := range b.DepletionMM {
		b.DepletionMM[i] = b.within(d)
	}
	if anew {
		b.forget()
	}
	return mean(b.DepletionMM) - before
}

// Rerooted returns the depletion of a root zone whose TAW changes from was to is, with
// roots that are a multiple of those before, above 0: the rules of [Balance.Change] for
// soil and roots [mm].
func Rerooted(depletionMM, was, is, roots float64) float64 {
	reached := float64(was * roots)
	if roots < 1 {
		depletionMM *= roots
	}
	if reached != is {
		depletionMM = positive(is - (reached - depletionMM))
	}
	return depletionMM
}

// Clone returns a balance that goes on from the same state and shares no memory.
func (b *Balance) Clone() Balance {
	out := *b
	out.DepletionMM, out.moved = slices.Clone(b.DepletionMM), slices.Clone(b.moved)
	out.short, out.phases = slices.Clone(b.short), slices.Clone(b.phases)
	return out
}

// spread returns n values, each the mean of the part of the old ones that it covers
// when both fill the same line. The mean of all stays.
func spread(old []float64, n int) []float64 {
	out := make([]float64, n)
	m := len(old)
	for i := range out { // in units of 1/(n m) of the line
		from, to := i*m, (i+1)*m
		for k, v := range old {
			if covered := min(to, (k+1)*n) - max(from, k*n); covered > 0 {
				out[i] += float64(v * float64(covered))
			}
		}
		out[i] /= float64(m)
	}
	return out
}

// Joins reports whether a plan of the same zone can follow in this one: both have the
// same gate, and a watcher with as many levels, or neither has any.
func (p *Plan) Joins(o *Plan) bool {
	if p.Gate != nil && o.Gate != nil {
		if p.Gate.PermitAtMM != o.Gate.PermitAtMM || !slices.Equal(p.Gate.Weights, o.Gate.Weights) ||
			!slices.Equal(p.Gate.ErrorMM, o.Gate.ErrorMM) {
			return false
		}
	} else if p.Gate != o.Gate {
		return false
	}
	if p.Watcher == nil || o.Watcher == nil {
		return p.Watcher == o.Watcher
	}
	return len(p.Watcher.Levels) == len(o.Watcher.Levels)
}

// Splice makes day from of the plan and every later one those of another plan of the
// same zone, which has the same gate and levels of a watcher.
func (p *Plan) Splice(other *Plan, from, strips int) {
	base := int32(len(p.Doses)) - 1
	p.Doses = append(p.Doses, other.Doses[1:]...)
	p.In = append(p.In, other.In[strips:]...)
	if len(other.Runs) > 0 {
		p.Runs = append(p.Runs, other.Runs[1:]...)
	}
	splice := func(dst, src []int32) {
		for i := from; i < len(dst); i++ {
			if dst[i] = src[i]; dst[i] != 0 {
				dst[i] += base
			}
		}
	}
	splice(p.Dose, other.Dose)
	copy(p.Reason[from:], other.Reason[from:])
	if p.Watcher != nil && other.Watcher != nil {
		for k := range p.Watcher.Levels {
			splice(p.Watcher.Levels[k], other.Watcher.Levels[k])
		}
	}
}

// Scale multiplies every depth of the sums by f: means over part of an area become
// means over all of it. Days, counts and minutes stay.
func (a *Sums) Scale(f float64) {
	for _, v := range []*float64{
		&a.EToMM, &a.ETcMM, &a.ETaMM, &a.RainMM, &a.RainRunoffMM, &a.RainEvapMM, &a.GrossMM, &a.SprayLossMM, &a.OversprayMM, &a.BrokenMM,
		&a.FillDrainMM, &a.LeakMM, &a.IrrRunoffMM, &a.PercIrrMM, &a.PercRainMM, &a.StorageMM,
	} {
		*v *= f
	}
}
