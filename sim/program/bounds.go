package program

import (
	"math"
	"math/rand/v2"
	"slices"

	"loamledger/sim/draw"
)

// Replicates is how often accounts are drawn again for the bounds. No source: a choice,
// large enough for the 5th and 95th of a hundred.
const Replicates = 1000

// confidence is the share of replicates between the bounds.
const confidence = 0.90

// A Bound is a central value and the two values between which [confidence] of the
// replicates lie, a twentieth below and a twentieth above.
type Bound struct{ Low, mid, High float64 }

// A Group is what the rule judges: all accounts, or the first of a ranking.
type Group struct {
	Share float64 // of all accounts, as ranked; 1 for all
	Means Means
	Mid   Result // at the middle of every number
	// The bounds with accounts drawn again and every number at its middle.
	SavingM3, Levelized, trc Bound
	// The same with every number drawn from its range as well.
	LevelizedAll, TRCAll Bound
	// Chance is the share of those draws in which the levelized cost is below the
	// avoided cost and the total resource ratio is 1 or more.
	Chance float64
}

// Groups works out the bounds of measure m for the first share of accounts, for each of
// shares, ascending. savedM3 and bills, unless nil, are the savings of the accounts in the
// order of the ranking, without a ranking in any order.
//
// Accounts are drawn again with replacement, all at once, so that the shares are compared
// on the same draws; numbers in doubt are drawn from the triangle of their low, middle and
// high value. Equal seeds give equal bounds. What all accounts have in common, such as an
// error of the plant coefficients, is in none of these bounds.
func (c *Costs) Groups(m *Measure, savedM3, bills []float64, shares []float64, seed uint64) []Group {
	n := len(savedM3)
	part, _ := m.Share(m.Rebate)
	ends := make([]int, len(shares))
	out := make([]Group, len(shares))
	for i, share := range shares {
		ends[i] = min(max(int(math.Round(share*float64(n))), 1), n)
		var ofBills []float64
		if bills != nil {
			ofBills = bills[:ends[i]]
		}
		g := &out[i]
		g.Share, g.Means = share, meansOf(savedM3[:ends[i]], ofBills)
		g.Means.ParticipatingShare = part
		mid := m.mid()
		g.Mid = c.evaluate(m, m.Rebate, &mid, g.Means)
	}
	bucket := make([]uint16, n) // the first group that has the account
	for a, i := 0, 0; a < n; a++ {
		for i < len(ends) && a >= ends[i] {
			i++
		}
		bucket[a] = uint16(i)
	}
	r := rand.New(rand.NewPCG(seed, 0x6c6f616d))
	samples := make([]sample, len(shares))
	sums := make([]Means, len(shares)+1)
	for range Replicates {
		clear(sums)
		for range n {
			a := r.IntN(n)
			s := &sums[bucket[a]]
			s.Accounts++
			if v := savedM3[a]; v > 0 {
				s.savedM3 += v
			} else {
				s.risenM3 -= v
			}
		}
		drawn := m.drawn(r)
		mid := m.mid()
		var total Means
		for i := range shares {
			total.Accounts += sums[i].Accounts
			total.savedM3 += sums[i].savedM3
			total.risenM3 += sums[i].risenM3
			if total.Accounts == 0 {
				continue // a group of few accounts of which none was drawn
			}
			k := float64(total.Accounts)
			of := Means{savedM3: total.savedM3 / k, risenM3: total.risenM3 / k, Accounts: out[i].Means.Accounts, ParticipatingShare: part}
			fixed, all := c.evaluate(m, m.Rebate, &mid, of), c.evaluate(m, m.Rebate, &drawn, of)
			samples[i].add(of.savedM3-of.risenM3, &fixed, &all)
		}
	}
	for i := range out {
		samples[i].bounds(&out[i])
	}
	return out
}

// drawn draws every number in doubt; a life is a whole number of years.
func (m *Measure) drawn(r *rand.Rand) (s state) {
	for k, v := range m.Values {
		s[k] = draw.Around(v.Low, v.Mid, v.High).At(r.Float64())
	}
	s[Life] = math.Round(s[Life])
	return s
}

// A sample has the replicates of one group.
type sample struct {
	saving, levelized, trc, levelizedAll, trcAll []float64
	holds                                        int
}

func (p *sample) add(saving float64, fixed, all *Result) {
	p.saving = append(p.saving, saving)
	p.levelized, p.trc = append(p.levelized, fixed.Levelized()), append(p.trc, fixed.Tests[TotalResource].Ratio())
	p.levelizedAll, p.trcAll = append(p.levelizedAll, all.Levelized()), append(p.trcAll, all.Tests[TotalResource].Ratio())
	if all.Levelized() < all.AvoidedPerM3 && all.Tests[TotalResource].Ratio() >= 1 {
		p.holds++
	}
}

func (p *sample) bounds(g *Group) {
	g.SavingM3 = between(p.saving, g.Means.savedM3-g.Means.risenM3)
	g.Levelized, g.LevelizedAll = between(p.levelized, g.Mid.Levelized()), between(p.levelizedAll, g.Mid.Levelized())
	trc := g.Mid.Tests[TotalResource].Ratio()
	g.trc, g.TRCAll = between(p.trc, trc), between(p.trcAll, trc)
	g.Chance = float64(p.holds) / float64(len(p.saving))
}

// between returns the bounds of values around a central one. Values may be +Inf, so no
// line is drawn between two of them: the bounds are values themselves.
func between(values []float64, mid float64) Bound {
	slices.Sort(values)
	n := len(values)
	if n == 0 {
		return Bound{math.NaN(), mid, math.NaN()}
	}
	tail := int(math.Round((1 - confidence) / 2 * float64(n)))
	return Bound{values[min(tail, n-1)], mid, values[max(n-1-tail, 0)]}
}
