package scenarios

import (
	"maps"
	"slices"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
)

// models are the strategies read so far, by name, with the parts that they copy
// from others; nil for one with an error.
type models map[string]*Node

// like returns strategy item with the parts that it copies: those of the strategy
// that its key like names, except the kinds that it has itself. Nothing else is
// copied, neither the name nor limits. complete is unset if that strategy has an
// error, which has been reported.
func (b *builder) like(item *Node, name, where string, above models, kinds []strategy.Kind) (whole *Node, complete bool) {
	g := group{b, item, where, "strategies." + name}
	n, ok := g.word("like")
	if !ok {
		return item, item.Get("like") == nil
	}
	other, all := strings.TrimSpace(n.Text), slices.Sorted(maps.Keys(above))
	if i := b.known(n, all); i >= 0 {
		other = all[i]
	}
	g.givenWord(g.path("like"), n)
	model, known := above[other]
	if !known {
		fix := "copy a strategy that is above this one"
		if len(above) > 0 {
			fix = g.didYouMean(other, all)
		}
		b.fault(diag.UnknownName, n.Pos, fix, "%s: like: no strategy above is called %s", where, quoted(other))
		return item, false
	}
	if model == nil {
		return item, false
	}
	whole = &Node{Pos: item.Pos, Kind: Map, Entries: slices.Clone(item.Entries)}
	for _, e := range model.Entries {
		if slices.ContainsFunc(kinds, func(k strategy.Kind) bool { return k.Key == e.Key }) && item.Get(e.Key) == nil {
			whole.Entries = append(whole.Entries, e)
		}
		nested := slices.ContainsFunc(kinds, func(k strategy.Kind) bool { return strings.HasPrefix(k.Key, e.Key+".") })
		if nested {
			whole.inherit(e)
		}
	}
	whole.changeAfter(model)
	return whole, true
}

// changeAfter puts the changes of the copied strategy before its own.
func (n *Node) changeAfter(model *Node) {
	first := model.Get(changesKey)
	if first == nil {
		return
	}
	list := &Node{Pos: first.Pos, Kind: List, Items: slices.Clone(group{}.items(first))}
	if own := n.Get(changesKey); own != nil && own.Kind != Empty && own.Kind != Broken {
		list.Pos = own.Pos
		list.Items = append(list.Items, group{}.items(own)...)
	}
	n.set(changesKey, list)
}

// inherit adds what the group e has and n does not.
func (n *Node) inherit(e Entry) {
	at := slices.IndexFunc(n.Entries, func(own Entry) bool { return own.Key == e.Key })
	if at < 0 {
		n.Entries = append(n.Entries, e)
		return
	}
	own := n.Entries[at].Value
	if own.Kind != Map || e.Value.Kind != Map {
		return
	}
	both := *own
	both.Entries = slices.Clone(own.Entries)
	for _, inner := range e.Value.Entries {
		if own.Get(inner.Key) == nil {
			both.Entries = append(both.Entries, inner)
		}
	}
	n.Entries[at].Value = &both
}
