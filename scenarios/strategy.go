package scenarios

import (
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

func (b *builder) readStrategies(top group, kinds []strategy.Kind) {
	taken := map[string]diag.Pos{}
	for i, item := range top.entries("strategies", mostLists, "add at least one strategy: a name and what it is made of") {
		n, where := b.name(item, "strategy", i)
		if n == nil {
			continue
		}
		if b.reserved(n) {
			b.unique(taken, "strategy", n)
		}
		b.readStrategy(item, n.Text, where, kinds)
	}
}

// readStrategy makes a strategy of the parts whose keys it holds. Which keys
// there are, and what they take, the kinds say.
func (b *builder) readStrategy(node *Node, name, where string, kinds []strategy.Kind) {
	known := []string{"name"}
	var under []string // keys that hold nested kinds, such as skip
	for _, k := range kinds {
		first, _, nested := strings.Cut(k.Key, ".")
		if !slices.Contains(known, first) {
			known = append(known, first)
			if nested {
				under = append(under, first)
			}
		}
	}
	g := b.open(node, where, "strategies."+name, known...)
	nests := map[string]group{}
	for _, key := range under {
		n := g.has(key)
		if n == nil {
			continue
		}
		var inner []string
		for _, k := range kinds {
			if rest, ok := strings.CutPrefix(k.Key, key+"."); ok {
				inner = append(inner, rest)
			}
		}
		nests[key] = b.open(n, where+": "+key, g.path(key), inner...)
	}
	st := strategy.Strategy{Name: name}
	before, waters := b.faults.Len(), false
	taken := claims{group: g, by: map[string][]bool{}}
	for _, k := range kinds {
		holder, key := g, k.Key
		if first, rest, nested := strings.Cut(k.Key, "."); nested {
			nest, ok := nests[first]
			if !ok {
				continue
			}
			holder, key = nest, rest
		}
		n := holder.has(key)
		if n == nil {
			continue
		}
		items := []*Node{n}
		if k.Many && n.Kind == List {
			items = n.Items
		}
		for _, item := range items {
			blank, ok := holder.args(k, item, key)
			if !ok {
				waters = true // it cannot be told
				continue
			}
			part := blank.Part()
			waters = waters || part.Stage() == strategy.Water
			taken.claim(blank, item)
			g.warnOf(part, name, item)
			st.Parts = append(st.Parts, part)
		}
	}
	if !waters && b.faults.Len() == before {
		b.fault(diag.NeverWaters, node.Pos, "add programs or refill; a strategy without water is in every replay", "%s: nothing in it waters", where)
	}
	b.sc.Strategies = append(b.sc.Strategies, st)
}
