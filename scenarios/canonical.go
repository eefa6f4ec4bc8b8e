package scenarios

import "strings"

// canonical returns the scenario as understood, as a tree that [Build] reads
// back bit for bit: the given values, with numbers written exactly in base
// units, and every parameter of every zone. Other defaults are omitted; Inputs
// has them.
func (b *builder) canonical(root *Node) *Node {
	out := &Node{Kind: Map}
	for _, e := range root.Entries {
		v := e.Value
		switch {
		case v.Kind == Empty || v.Kind == Broken, e.Key == "assumed": // Inputs say what is assumed
			continue
		case e.Key == "zones":
			v = b.sc.zoneTree()
		default:
			v = b.copied(v)
		}
		out.Entries = append(out.Entries, Entry{Key: e.Key, Value: v})
	}
	return out
}

// copied returns a copy of node n with its numbers written exactly.
func (b *builder) copied(n *Node) *Node {
	out := &Node{Kind: n.Kind, Text: n.Text}
	if text, ok := b.exact[n]; ok {
		out.Text = text
	}
	for _, item := range n.Items {
		out.Items = append(out.Items, b.copied(item))
	}
	for _, e := range n.Entries { // a key, such as a zone name, may contain a dot
		out.Entries = append(out.Entries, Entry{Key: e.Key, Value: b.copied(e.Value)})
	}
	return out
}

// zoneTree returns the zones as a list of groups of keys.
func (sc *Scenario) zoneTree() *Node {
	list := &Node{Kind: List}
	for _, values := range sc.ZoneValues {
		tree := treeOf(values)
		for _, v := range values {
			if v.rangeText != "" {
				tree.putOver(v.Key, scalar(v.rangeText))
			}
		}
		list.Items = append(list.Items, tree)
	}
	return list
}

// putOver replaces the value at a path, or adds it.
func (n *Node) putOver(path string, v *Node) {
	at, own := n, path
	if outer, rest, nested := strings.Cut(path, "."); nested {
		at, own = n.Get(outer), rest
	}
	if at == nil || at.Get(own) == nil {
		n.Put(path, v)
		return
	}
	at.set(own, v)
}

// treeOf returns the parameters of a zone as a group of keys.
func treeOf(values []ZoneValue) *Node {
	zone := &Node{Kind: Map}
	for _, v := range values {
		zone.Put(v.Key, v.Node)
	}
	return zone
}
