package scenarios

import (
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/quantity"
)

// An owner is whose numbers are read, where they are not of a zone.
type owner struct {
	key  string // such as "programs.lawn"
	name string // such as "program “lawn”"
}

// owning says whose numbers follow, until the function that it returns is called.
func (b *builder) owning(key, name string) (done func()) {
	before := b.owner
	b.owner = owner{key, name}
	return func() { b.owner = before }
}

// ownDoubt describes the doubt about a number, written as a range at n, that is not of a
// zone: what a program or a strategy has entered, or what a project costs. What a strategy
// copies from another has its error, too, as it is the same device or habit.
func (g group) ownDoubt(input string, s shape, n *Node) Doubt {
	d := Doubt{Key: input, Input: input, Whose: WholeSite, Given: true, shape: s}
	if own, is := strings.CutPrefix(input, g.owner.key+"."); is && g.owner.key != "" {
		d.Key, d.Whose = own, g.owner.name
	}
	if _, known := g.causes[n.Pos]; !known {
		g.causes[n.Pos] = input
	}
	d.Cause = g.causes[n.Pos]
	return d
}

// spanIn reads an item of a list that is written as a range. The items of one list are
// off together: input is the path of the list.
func (g group) spanIn(n *Node, w want, input string) (v float64, ok bool) {
	r, ok := g.span(n, w)
	if !ok {
		return nan, false
	}
	return g.doubted(g.ownDoubt(input, w.shape, n), r, catalog.Figure{Value: r.Mode}), true
}

// unitIn returns the unit of a number, or of the last number of a range; empty for none.
func unitIn(n *Node) string {
	if n.Kind != Scalar {
		return ""
	}
	text := n.Text
	if i := strings.LastIndex(text, to); i >= 0 {
		text = text[i+len(to):]
	}
	_, unit := quantity.Cut(text)
	return unit
}

// BareDoubt returns d as a doubt about a number without a unit, such as a price.
func BareDoubt(d Doubt) Doubt {
	d.shape = shape{bare: true}
	return d
}
