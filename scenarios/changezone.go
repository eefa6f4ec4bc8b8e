package scenarios

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A changer works out the zones of one strategy with any of its changes made. A
// change starts from the zone as understood, so that a record with every parameter
// gives the same zones as the scenario it was made from.
type changer struct {
	*builder
	name    string // of the strategy
	where   string
	changes []Change
	terms   []strategy.Term         // of the parts
	made    map[string]*changedZone // by zone and the changes made
	listed  map[string]string       // inputs of the changes so far, without their zones
}

// A changedZone is a zone with some changes made.
type changedZone struct {
	Zone
	values []ZoneValue
	ok     bool
}

// zone returns zone z with the given changes made, in their order. Changes of other
// zones are left out.
func (c *changer) zone(z int, made []int) *changedZone {
	made = slices.DeleteFunc(slices.Clone(made), func(i int) bool { return !c.changes[i].Zones[z] })
	key := fmt.Sprint(z, made)
	if known := c.made[key]; known != nil {
		return known
	}
	out := &changedZone{Zone: c.sc.Zones[z], values: c.sc.ZoneValues[z], ok: true}
	if n := len(made); n > 0 {
		before := c.zone(z, made[:n-1])
		out = &changedZone{}
		if before.ok {
			*out = c.change(z, before, made[n-1])
		}
	}
	c.made[key] = out
	return out
}

// change makes change i to zone z.
func (c *changer) change(z int, before *changedZone, i int) changedZone {
	change := &c.changes[i]
	if len(change.entries) == 0 && !change.Taken {
		return *before
	}
	out := *before
	if len(change.entries) > 0 {
		tree := c.tree(before, change)
		name := c.zones[z]
		number := quantity.Number(float64(i+1), 0)
		own := c.group().path(changesKey + "." + number)
		faults, mark, warned := c.faults.Len(), len(c.sc.Inputs), len(c.sc.Warnings)
		out.Zone, out.values = c.zoneOf(tree, name, fmt.Sprintf("%s: change %s: zone %q", c.where, number, name), own+"."+name)
		read := slices.Clone(c.sc.Inputs[mark:])
		c.sc.Inputs = c.sc.Inputs[:mark]
		c.keepInputs(read, own, name, change)
		out.ok = c.faults.Len() == faults
		c.sc.Warnings = append(c.sc.Warnings[:warned], fresh(c.sc.Warnings[:warned], c.sc.Warnings[warned:])...)
	}
	if change.Taken {
		out.take()
	}
	return out
}

// fresh returns the warnings of a changed zone that are not those of the zone before.
func fresh(before, all []Warning) (out []Warning) {
	for _, w := range all {
		same := func(o Warning) bool {
			return o.Code == w.Code && o.Zone == w.Zone && o.Key == w.Key && o.Value == w.Value
		}
		if !slices.ContainsFunc(before, same) {
			out = append(out, w)
		}
	}
	return out
}

// take takes a zone out of irrigation: no area is left to water, and nothing grows
// that is judged.
func (z *changedZone) take() {
	z.AreaM2, z.LeakMMDay = 0, 0
	z.K, z.Season, z.Overseed = [12]float64{}, nil, nil
}

func (c *changer) group() group { return group{c.builder, nil, c.where, "strategies." + c.name} }

// keepInputs lists those inputs of a changed zone that are due to the change: what it
// gives, once for all zones, and the defaults of what it does not.
func (c *changer) keepInputs(read []Input, own, zone string, change *Change) {
	for _, in := range read {
		if !in.Defaulted && in.Pos == change.pos {
			continue // as it was
		}
		key := strings.TrimPrefix(in.Key, own+"."+zone+".")
		text, ok := c.listed[own+"."+key]
		if ok && text == in.Text {
			continue
		}
		if in.Key = own + "." + key; ok {
			in.Key = own + "." + zone + "." + key
		} else {
			c.listed[in.Key] = in.Text
		}
		c.sc.Inputs = append(c.sc.Inputs, in)
	}
}

// tree returns the keys of a zone with those of a change put in. What rests on a
// changed key, such as the roots of other plants, is left to its default unless the
// change gives it.
func (c *changer) tree(before *changedZone, change *Change) *Node {
	tree := placed(treeOf(before.values), change.pos)
	gives := func(key string) bool {
		return slices.ContainsFunc(change.entries, func(e Entry) bool { return e.Key == key })
	}
	for _, e := range change.inOrder() {
		switch e.Key {
		case "plant":
			if change.putPlant(tree, e.Value, before) {
				tree.drop("root_depth", "density", "cover", "overseed")
				if before.Group != 0 {
					tree.drop("soil.curve_number")
				}
			}
		case "sprinkler":
			putSprinkler(tree, e.Value)
		case "soil":
			putNamed(tree, "soil", "name", e.Value)
		case "cover":
			if tree.set(e.Key, e.Value); before.Group != 0 {
				tree.drop("soil.curve_number")
			}
		case "slope":
			if tree.set(e.Key, e.Value); before.Soil != Custom {
				tree.drop("soil.surface_storage")
			}
		case "area":
			if tree.set(e.Key, e.Value); !gives("sprinkler") { // heads are taken out with the area
				tree.drop("sprinkler.rate", "sprinkler.flow", "sprinkler.emitters", "sprinkler.emitter_flow")
				rate := scalar(exact(before.PRMMH, shape{dim: quantity.Rate}))
				rate.Pos = change.pos
				tree.Get("sprinkler").set("rate", rate)
			}
		default:
			tree.set(e.Key, e.Value)
		}
	}
	return tree
}

// inOrder returns the keys of the change: first those on which others rest, so that
// what rests on them and is given stays. Groups are copies; their values are not.
func (c *Change) inOrder() []Entry {
	out := slices.Clone(c.entries)
	rank := func(e Entry) int {
		if i := slices.Index([]string{"plant", "cover", "slope", "soil"}, e.Key); i >= 0 {
			return i
		}
		return 9
	}
	sort.SliceStable(out, func(a, b int) bool { return rank(out[a]) < rank(out[b]) })
	for i := range out {
		out[i].Value = withOwnGroups(out[i].Value)
	}
	return out
}

func withOwnGroups(n *Node) *Node {
	if n.Kind != Map {
		return n
	}
	out := *n
	out.Entries = slices.Clone(n.Entries)
	for i := range out.Entries {
		out.Entries[i].Value = withOwnGroups(out.Entries[i].Value)
	}
	return &out
}

// putPlant puts a planting into a zone and reports whether other plants are planted.
func (c *Change) putPlant(tree, value *Node, before *changedZone) (planted bool) {
	value = named(value, "name")
	if value.Kind == Map && value.Get("name") == nil && value.Get("k") == nil {
		tree.Get("plant").setAll(value)
		return false
	}
	if n := value.Get("name"); n != nil && c.Establish == nil && sameName(n, before.Plant) {
		tree.Get("plant").setAll(value)
		return false
	}
	c.planting = true
	tree.set("plant", value)
	return true
}

// putSprinkler puts sprinkler keys into a zone. Another kind brings all its own values.
func putSprinkler(tree, value *Node) {
	if value = named(value, "kind"); value.Kind != Map {
		tree.set("sprinkler", value)
		return
	}
	given := func(keys ...string) bool {
		return slices.ContainsFunc(keys, func(key string) bool { return value.Get(key) != nil })
	}
	if given("rate", "flow", "emitters", "emitter_flow") {
		tree.drop("sprinkler.rate", "sprinkler.flow")
		if given("rate", "flow") || given("emitters") && given("emitter_flow") {
			tree.drop("sprinkler.emitters", "sprinkler.emitter_flow")
		}
	}
	if given("catch_cans") {
		tree.drop("sprinkler.uniformity")
	}
	putNamed(tree, "sprinkler", "kind", value)
}

// putNamed puts a group of keys into a zone. Another name replaces all that is there.
func putNamed(tree *Node, key, naming string, value *Node) {
	value = named(value, naming)
	old := tree.Get(key)
	if n := value.Get(naming); value.Kind != Map || old == nil || n != nil && (old.Get(naming) == nil || !sameName(n, old.Get(naming).Text)) {
		tree.set(key, value)
		return
	}
	old.setAll(value)
}

// named returns a group of keys with the name that stands for it.
func named(value *Node, key string) *Node {
	if value.Kind != Scalar {
		return value
	}
	return &Node{Pos: value.Pos, Kind: Map, Entries: []Entry{{key, value.Pos, value}}}
}

func sameName(n *Node, name string) bool {
	return n.Kind == Scalar && strings.EqualFold(strings.TrimSpace(n.Text), name)
}

// placed returns a copy of a tree, all of it at one position.
func placed(n *Node, at diag.Pos) *Node {
	out := &Node{Pos: at, Kind: n.Kind, Text: n.Text}
	for _, item := range n.Items {
		out.Items = append(out.Items, placed(item, at))
	}
	for _, e := range n.Entries {
		out.Entries = append(out.Entries, Entry{Key: e.Key, Pos: at, Value: placed(e.Value, at)})
	}
	return out
}

// set replaces or adds the value of a key of a Map.
func (n *Node) set(key string, v *Node) {
	for i := range n.Entries {
		if n.Entries[i].Key == key {
			n.Entries[i].Value = v
			return
		}
	}
	n.Entries = append(n.Entries, Entry{Key: key, Pos: v.Pos, Value: v})
}

// setAll sets every key of another Map.
func (n *Node) setAll(other *Node) {
	for _, e := range other.Entries {
		n.set(e.Key, e.Value)
	}
}

// drop removes values at paths.
func (n *Node) drop(paths ...string) {
	for _, path := range paths {
		at, own := n, path
		if outer, rest, nested := strings.Cut(path, "."); nested {
			at, own = n.Get(outer), rest
		}
		if at != nil {
			at.Entries = slices.DeleteFunc(at.Entries, func(e Entry) bool { return e.Key == own })
		}
	}
}
