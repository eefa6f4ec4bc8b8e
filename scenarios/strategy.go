package scenarios

import (
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

func (b *builder) readStrategies(top group, kinds []strategy.Kind) {
	taken, models := map[string]diag.Pos{}, models{}
	for i, item := range top.entries("strategies", mostLists, "add at least one strategy with a name and parts") {
		n, where := b.name(item, "strategy", i)
		if n == nil {
			continue
		}
		if b.reserved(n) {
			b.unique(taken, "strategy", n)
		}
		before := b.faults.Len()
		whole, known := b.like(item, n.Text, where, models, kinds)
		b.readStrategy(whole, n.Text, where, kinds, known)
		models[n.Text] = whole
		if b.faults.Len() > before {
			models[n.Text] = nil
		}
	}
}

// readStrategy makes a strategy from the parts whose keys it has. The kinds define
// the keys and their parameters. complete is unset if parts are missing because of
// an error elsewhere.
func (b *builder) readStrategy(node *Node, name, where string, kinds []strategy.Kind, complete bool) {
	known := []string{"name", "like", "limits", changesKey}
	var under []string // keys with nested kinds, such as hold
	for _, k := range kinds {
		first, _, nested := strings.Cut(k.Key, ".")
		if !slices.Contains(known, first) {
			known = append(known, first)
			if nested {
				under = append(under, first)
			}
		}
	}
	defer b.owning("strategies."+name, "strategy “"+name+"”")()
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
	st, stack := strategy.Strategy{Name: name}, Stack{Name: name}
	before, waters := b.faults.Len(), !complete
	if g.node.Get("limits") != nil {
		word, _ := g.choice("limits", []string{"none", "binding"})
		st.Unbound = word == "none"
	}
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
			mark := len(b.sc.Inputs)
			own, term := holder.term(k, item, key)
			blank, ok := holder.args(k, own, key)
			stack.Parts = append(stack.Parts, StackPart{Key: k.Key, Inputs: slices.Clone(b.sc.Inputs[mark:])})
			if !ok {
				waters = true // unknown
				continue
			}
			part := blank.Part()
			g.oneDevice(part, &term, item)
			waters = waters || part.Stage() == strategy.Water
			taken.claim(blank, item)
			g.warnOf(part, name, item)
			st.Parts, st.Terms = append(st.Parts, part), append(st.Terms, term)
		}
	}
	if !waters && b.faults.Len() == before {
		b.fault(diag.NeverWaters, node.Pos, "add programs or refill; every replay already includes no watering",
			"%s: never waters", where)
	}
	faults, dated, timed := b.faults.Len(), false, false
	for i := range st.Terms {
		dated = dated || len(st.Terms[i].Dates()) > 0
		timed = timed || dated || st.Terms[i].Lasts != nil
	}
	if !timed {
		st.Terms = nil
	}
	stack.Changes = b.readChanges(g, name)
	if (len(stack.Changes) > 0 || dated) && len(b.sc.Zones) == len(b.zones) && faults == before {
		b.makeChanges(&st, &stack, where)
	}
	b.sc.Strategies, b.sc.Stacks = append(b.sc.Strategies, st), append(b.sc.Stacks, stack)
}
