package bill

import (
	"math"
	"slices"
	"sync"
)

// A Curve is a bill as a function of an amount of water from 0 up: whole bills at as
// many amounts as straight lines between them need to be right. It is worked out where it
// is asked for, in pieces that each end at twice the water of the one before, so what it
// says does not depend on the order of the questions. It is safe for concurrent use.
type Curve struct {
	// Bill returns the whole bill for an amount of water.
	Bill func(x float64) float64
	// Growth returns by how much it grows with each number of the rates that is in doubt;
	// nil if none is.
	Growth func(x float64) []float64
	Unit   float64 // the end of the first piece, above 0
	Near   float64 // by how much straight lines may be off [money]
	Deep   int     // how often a piece is halved at most
	// Knots are the amounts at which the price changes, rising and above 0; none if they are not known. Whole bills are worked out
	// there, so that changes of the price cannot hide from the halving. With Straight, nothing changes beyond the last one: the
	// curve is then one piece, which needs few whole bills.
	Knots    []float64
	Straight bool

	mu     sync.Mutex
	pieces map[int]*curvePiece // by the power of two of its end
}

// A curvePiece is the part of a curve between two amounts.
type curvePiece struct {
	at     []float64 // amounts, rising
	total  []float64
	growth [][]float64 // by amount, then number in doubt
}

// leastDeep is how often a piece without knots is halved at least.
const leastDeep = 2

// mostPieces bounds the amounts that are asked for: beyond the last piece, its straight
// line goes on.
const mostPieces = 24

// piece returns the piece that contains x.
func (c *Curve) piece(x float64) *curvePiece {
	k := 0
	one := c.Straight && len(c.Knots) > 0
	for !one && k < mostPieces && x > math.Ldexp(c.Unit, k) {
		k++
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if p := c.pieces[k]; p != nil {
		return p
	}
	ends, depth := []float64{0}, 0
	top := math.Ldexp(c.Unit, k)
	switch n := len(c.Knots); {
	case one:
		// The last part is long: bills are rounded to cents, which a short one would carry far beyond its end.
		top = max(2*c.Knots[n-1], math.Ldexp(c.Unit, mostPieces))
		depth = leastDeep // a bill in the middle of each part checks that it is straight
	case k > 0:
		ends[0] = top / 2
	}
	for _, x := range c.Knots {
		if x > ends[0] && x < top {
			ends = append(ends, x)
		}
	}
	ends = append(ends, top)
	p := &curvePiece{}
	low := c.Bill(ends[0])
	p.at, p.total = append(p.at, ends[0]), append(p.total, low)
	for i, to := range ends[1:] {
		high := c.Bill(to)
		c.refine(p, ends[i], low, to, high, depth)
		low = high
	}
	if c.Growth != nil {
		for _, x := range p.at {
			p.growth = append(p.growth, c.Growth(x))
		}
	}
	if c.pieces == nil {
		c.pieces = map[int]*curvePiece{}
	}
	c.pieces[k] = p
	return p
}

// refine adds the amounts above from, up to to, that straight lines need.
func (c *Curve) refine(p *curvePiece, from, low, to, high float64, depth int) {
	mid := from + float64((to-from)/2)
	total := c.Bill(mid)
	off := math.Abs(total - float64((low+high)/2))
	if depth < c.Deep && (off > c.Near || depth < leastDeep) {
		c.refine(p, from, low, mid, total, depth+1)
		c.refine(p, mid, total, to, high, depth+1)
		return
	}
	p.at, p.total = append(p.at, mid, to), append(p.total, total, high)
}

// Of returns the bill for an amount of water if the numbers in doubt are off by so much.
func (c *Curve) Of(x float64, off []float64) float64 {
	p := c.piece(x)
	k, _ := slices.BinarySearch(p.at, x)
	k = min(max(k, 1), len(p.at)-1)
	t := (x - p.at[k-1]) / (p.at[k] - p.at[k-1])
	sum := p.total[k-1] + float64(t*(p.total[k]-p.total[k-1]))
	for i, o := range off {
		if o != 0 {
			a, b := p.growth[k-1][i], p.growth[k][i]
			sum += float64(o * (a + float64(t*(b-a))))
		}
	}
	return sum
}

// OnlyTiers reports whether the bill of a period is straight between the ends of tiers: no charge has a cap, and there is no
// minimum.
func (r *Rates) OnlyTiers() bool {
	return !slices.ContainsFunc(r.Charges, func(c Charge) bool { return c.Basis.Cap != nil || c.Minimum != nil })
}

// Knots returns the amounts at which the price of water changes in bill b, of more than all its tiers, rising: the ends of the
// tiers, and caps, in billing units of the period.
func (r *Rates) Knots(b *Bill) (out []float64) {
	for _, l := range b.Lines {
		if l.To != nil && l.Days > 0 {
			out = append(out, l.To.Float64()*float64(b.Days())/float64(l.Days))
		}
	}
	for i := range r.Charges {
		if limit := r.Charges[i].Basis.Cap; limit != nil {
			out = append(out, limit.Float64()*r.PerPeriod(b.Days()))
		}
	}
	slices.Sort(out)
	return slices.DeleteFunc(slices.Compact(out), func(x float64) bool { return !(x > 0) })
}
