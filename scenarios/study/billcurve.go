package study

import (
	"math"
	"slices"
	"sync"
)

// A billCurve is a bill as a function of an amount of water from 0 up: whole bills at as
// many amounts as straight lines between them need to be right. It is worked out where it
// is asked for, in pieces that each end at twice the water of the one before, so what it
// says does not depend on the order of the questions.
type billCurve struct {
	// bill returns the whole bill for an amount of water and, with rates, by how much it
	// grows with each number of the rates that is in doubt.
	bill func(x float64, rates bool) (total float64, growth []float64)
	unit float64 // the end of the first piece, above 0
	near float64 // by how much straight lines may be off [money]
	deep int     // how often a piece is halved at most

	mu     sync.Mutex
	pieces map[int]*billPiece // by the power of two of its end
}

// A billPiece is the part of a curve between two amounts.
type billPiece struct {
	at     []float64 // amounts, rising
	total  []float64
	growth [][]float64 // by amount, then number in doubt
}

// mostPieces bounds the amounts that are asked for: beyond the last piece, its straight
// line goes on.
const mostPieces = 24

// piece returns the piece that contains x.
func (c *billCurve) piece(x float64) *billPiece {
	k := 0
	for k < mostPieces && x > math.Ldexp(c.unit, k) {
		k++
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if p := c.pieces[k]; p != nil {
		return p
	}
	from, to := 0.0, math.Ldexp(c.unit, k)
	if k > 0 {
		from = to / 2
	}
	p := &billPiece{}
	low, _ := c.bill(from, false)
	high, _ := c.bill(to, false)
	p.at, p.total = append(p.at, from), append(p.total, low)
	c.refine(p, from, low, to, high, 0)
	for _, x := range p.at {
		_, growth := c.bill(x, true)
		p.growth = append(p.growth, growth)
	}
	if c.pieces == nil {
		c.pieces = map[int]*billPiece{}
	}
	c.pieces[k] = p
	return p
}

// refine adds the amounts above from, up to to, that straight lines need.
func (c *billCurve) refine(p *billPiece, from, low, to, high float64, depth int) {
	mid := from + float64((to-from)/2)
	total, _ := c.bill(mid, false)
	off := math.Abs(total - float64((low+high)/2))
	if depth < c.deep && (off > c.near || depth < 2) {
		c.refine(p, from, low, mid, total, depth+1)
		c.refine(p, mid, total, to, high, depth+1)
		return
	}
	p.at, p.total = append(p.at, mid, to), append(p.total, total, high)
}

// of returns the bill for an amount of water if the numbers in doubt are off by so much.
func (c *billCurve) of(x float64, off []float64) float64 {
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
