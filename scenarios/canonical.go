package scenarios

// canonical returns the scenario as understood, as a tree that [Build] reads
// back to the same scenario, bit for bit: what was given, its numbers written
// exactly in base units, and in place of the zones, every parameter of each.
// Defaults past the zones are not in it; they are in Inputs.
func (b *builder) canonical(root *Node) *Node {
	out := &Node{Kind: Map}
	for _, e := range root.Entries {
		v := e.Value
		switch {
		case v.Kind == Empty || v.Kind == Broken:
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
	for _, e := range n.Entries { // a key may hold a dot, as the name of a zone
		out.Entries = append(out.Entries, Entry{Key: e.Key, Value: b.copied(e.Value)})
	}
	return out
}

// zoneTree returns the zones as a list of groups of keys.
func (sc *Scenario) zoneTree() *Node {
	list := &Node{Kind: List}
	for _, values := range sc.ZoneValues {
		zone := &Node{Kind: Map}
		for _, v := range values {
			zone.Put(v.Key, v.Node)
		}
		list.Items = append(list.Items, zone)
	}
	return list
}
