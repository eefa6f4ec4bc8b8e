package accounts

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// keyValues are the values of a zone that decide most of its water. The imputed share
// counts them, and the as-found run times of the account. The choice is ours.
var keyValues = [...][]string{{"area"}, {"plant", "k"}, {"soil", "awc"}, {"sprinkler"}, {"rate", "flow", "emitters"}, {"uniformity"}}

// A plan is an account as a scenario, before it is built.
type plan struct {
	tree    *scenarios.Node
	left    []string // strategies that lost a part, since the account lacks its zones
	missing int      // key values that were not given
	values  int      // key values
	timed   bool     // every zone has its as-found run time
}

// treeOf makes the scenario of an account at station i.
func (p *Program) treeOf(a *Account, i int, d *drawer) (*plan, error) {
	out := &plan{}
	zones := a.Zones
	if len(zones) == 0 {
		names, err := p.templateOf(a)
		if err != nil {
			return nil, err
		}
		for _, name := range names {
			zones = append(zones, Zone{Name: name, Like: name, Pos: a.Pos})
		}
	}
	list := p.Root.Get("zones")
	models := make([]*scenarios.Node, len(zones))
	var faults diag.List
	for z := range zones {
		if models[z] = p.zone(list, zones[z].Like); models[z] == nil {
			faults.Add(diag.UnknownName, zones[z].Pos, "write the name of one of its zones in the column like: "+strings.Join(p.zoneNames(), ", "),
				"the program has no zone %s", quoted(zones[z].Like))
		}
	}
	areas, err := p.shareArea(a, zones, models)
	if err != nil {
		return nil, err
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	root := p.StationTree(i)
	place(root.Get("site"), a)
	nodes := &scenarios.Node{Pos: a.Pos, Kind: scenarios.List}
	like := map[string][]string{}
	out.timed = true
	for z := range zones {
		values := slices.Clone(zones[z].Values)
		for _, v := range a.Values {
			if v.Column != columnArea && values.get(v.Column) == nil {
				values = append(values, v)
			}
		}
		if areas != nil {
			values = append(values, Value{columnArea, "area", areas[z]})
		}
		out.count(values)
		out.timed = out.timed && values.get(ColumnMinutes) != nil
		nodes.Items = append(nodes.Items, p.zoneTree(a, &zones[z], models[z], values, d))
		model := models[z].Get("name").Text
		like[model] = append(like[model], zones[z].Name)
	}
	replaceEntry(root, "zones", nodes)
	e := expander{names: like, known: p.zoneNames()}
	e.root(root)
	out.left = e.left
	for z := range zones {
		if v := zones[z].Values.get(ColumnMinutes); v != nil {
			p.runTime(root, zones[z].Name, v.Node)
		} else if v := a.Values.get(ColumnMinutes); v != nil {
			p.runTime(root, zones[z].Name, v.Node)
		}
	}
	out.tree = root
	return out, nil
}

// count counts the key values of a zone.
func (out *plan) count(values Values) {
	for _, any := range keyValues {
		out.values++
		if !slices.ContainsFunc(any, func(c string) bool { return values.get(c) != nil }) {
			out.missing++
		}
	}
}

func (p *Program) zoneNames() (names []string) {
	for _, n := range p.Root.Get("zones").Items {
		names = append(names, n.Get("name").Text)
	}
	return names
}

// zone finds a zone of the program.
func (p *Program) zone(list *scenarios.Node, name string) *scenarios.Node {
	for _, n := range list.Items {
		if same(n.Get("name").Text, name) {
			return n
		}
	}
	return nil
}

// templateOf lists the zones of an account without zones of its own.
func (p *Program) templateOf(a *Account) ([]string, error) {
	if a.Template == "" {
		return p.zoneNames(), nil
	}
	var known []string
	for i := range p.Templates {
		if same(p.Templates[i].Name, a.Template) {
			return p.Templates[i].Zones, nil
		}
		known = append(known, p.Templates[i].Name)
	}
	fix := "the program has none: leave the column empty"
	if len(known) > 0 {
		fix = "write one of: " + strings.Join(known, ", ")
	}
	return nil, &diag.Error{Code: diag.UnknownName, Pos: a.Pos, Msg: "the program has no template " + quoted(a.Template), Fix: fix}
}

// place puts the location of the account over that of its station.
func place(site *scenarios.Node, a *Account) {
	for _, v := range []struct {
		key  string
		node *scenarios.Node
	}{{"latitude", number(a.LatDeg, "", a.Pos)}, {"longitude", number(a.LonDeg, "", a.Pos)}, {"elevation", number(a.ElevM, "m", a.Pos)}} {
		if v.node != nil {
			replaceEntry(site, v.key, v.node)
		}
	}
}

// number writes a number; nil for NaN.
func number(v float64, unit string, at diag.Pos) *scenarios.Node {
	if v != v {
		return nil
	}
	return &scenarios.Node{Pos: at, Kind: scenarios.Scalar, Text: strings.TrimSpace(writeRange([]float64{v}, 1, unit))}
}

// shareArea divides the area of an account among its zones, as the program's zones share
// theirs; nil if the account states none.
func (p *Program) shareArea(a *Account, zones []Zone, models []*scenarios.Node) ([]*scenarios.Node, error) {
	all := a.Values.get(columnArea)
	if all == nil {
		return nil, nil
	}
	if len(a.Zones) > 0 {
		return nil, &diag.Error{Code: diag.Conflict, Pos: all.Node.Pos, Msg: "the account has zones of its own and an area for all zones",
			Fix: "write the area of each zone on its row"}
	}
	values, err := ParseRange(all.Node.Text, quantity.Area)
	if err != nil {
		msg, fix := err.Error(), "write an area with its unit, such as 2400 ft2"
		var f *quantity.Fault
		if errors.As(err, &f) {
			msg, fix = f.Msg, f.Fix
		}
		return nil, &diag.Error{Code: diag.BadQuantity, Pos: all.Node.Pos, Msg: "area: " + msg, Fix: fix}
	}
	if r, ok := RangeOf(values); ok && r.High > mostAreaM2 {
		return nil, &diag.Error{Code: diag.OutOfRange, Pos: all.Node.Pos, Fix: "check the value and its unit",
			Msg: "area " + quoted(all.Node.Text) + " is more than 10,000,000 m2, which is 107,639,104 ft2"}
	}
	if values[0] <= 0 { // said of the area as written, not of a zone's share of it
		return nil, &diag.Error{Code: diag.OutOfRange, Pos: all.Node.Pos, Msg: fmt.Sprintf("area %s is not above 0", all.Node.Text),
			Fix: "write the watered area of the account, or leave it empty to have it drawn"}
	}
	sum := 0.0
	shares := make([]float64, len(zones))
	for z := range zones {
		if models[z] == nil {
			return nil, nil // reported
		}
		if n := models[z].Get("area"); n != nil && n.Kind == scenarios.Scalar {
			own, err := ParseRange(n.Text, quantity.Area)
			if r, ok := RangeOf(own); err == nil && ok {
				shares[z] = r.Mode
			}
		}
		sum += shares[z]
	}
	if sum <= 0 {
		return nil, &diag.Error{Code: diag.MissingKey, Pos: all.Node.Pos, Msg: "the zones of the program have no area, so that of the account " +
			"cannot be divided", Fix: "add area to the zones of the program: its shares count"}
	}
	out := make([]*scenarios.Node, len(zones))
	for z := range out {
		out[z] = &scenarios.Node{Pos: all.Node.Pos, Kind: scenarios.Scalar, Text: writeRange(values, shares[z]/sum, "m2")}
	}
	return out, nil
}

// mostAreaM2 is the largest area of an account, and of a zone.
const mostAreaM2 = 1e7

// alternatives are the columns that a value replaces in a zone of the program: what says the
// same in another way, or follows from it.
func alternatives(column string) []string {
	switch column {
	case "rate", "flow", "emitters", "emitter_flow":
		return []string{"sprinkler.rate", "sprinkler.flow", "sprinkler.emitters", "sprinkler.emitter_flow"}
	case "uniformity":
		return []string{"sprinkler.uniformity", "sprinkler.catch_cans"}
	case "sprinkler":
		return []string{"sprinkler"}
	case "plant":
		return []string{"plant", "root_depth", "density"}
	case "soil":
		return []string{"soil"}
	}
	return nil
}

// order is the order in which values are put in: what replaces a group comes before what is
// in it.
func order(column string) int {
	switch column {
	case "plant", "soil", "sprinkler":
		return 0
	}
	return 1
}

// zoneTree makes one zone of an account from a zone of the program.
func (p *Program) zoneTree(a *Account, z *Zone, model *scenarios.Node, values Values, d *drawer) *scenarios.Node {
	out := model.Clone()
	for _, group := range []struct{ key, word string }{{"plant", "name"}, {"soil", "name"}, {"sprinkler", "kind"}} {
		if n := out.Get(group.key); n != nil && n.Kind == scenarios.Scalar {
			replaceEntry(out, group.key, &scenarios.Node{Pos: n.Pos, Kind: scenarios.Map,
				Entries: []scenarios.Entry{{Key: group.word, Pos: n.Pos, Value: n}}})
		}
	}
	replaceEntry(out, "name", &scenarios.Node{Pos: z.Pos, Kind: scenarios.Scalar, Text: z.Name})
	donor := d.donor(a.Class, z.Like)
	if donor != nil {
		for _, v := range donor.Values {
			if !stated(values, v.Column) {
				values = append(values, v)
				d.note(v.Column)
			}
		}
	}
	for i := range p.Choices {
		if c := &p.Choices[i]; !stated(values, c.Column) {
			values = append(values, Value{c.Column, c.Key, d.choose(c, z.Name)})
			d.note(c.Column)
		}
	}
	slices.SortStableFunc(values, func(a, b Value) int { return order(a.Column) - order(b.Column) })
	dropped := map[string]bool{}
	for _, v := range values {
		if v.Key == "" {
			continue
		}
		for _, path := range alternatives(v.Column) {
			if !dropped[path] {
				dropped[path] = true
				drop(out, path)
			}
		}
		drop(out, v.Key)
		n := *v.Node
		out.Put(v.Key, &n)
	}
	return out
}

// stated reports whether values have a column, or what says the same in another way.
func stated(values Values, column string) bool {
	if values.get(column) != nil {
		return true
	}
	for i := range keyValues {
		if slices.Contains(keyValues[i], column) {
			return slices.ContainsFunc(keyValues[i], func(c string) bool { return values.get(c) != nil })
		}
	}
	return false
}

// runTime sets the as-found run time of a zone in every program of the baseline that has it.
func (p *Program) runTime(root *scenarios.Node, zone string, minutes *scenarios.Node) {
	programs := root.Get("programs")
	if programs == nil {
		return
	}
	for _, prog := range programs.Items {
		name, times := prog.Get("name"), prog.Get("minutes")
		if name == nil || times == nil || !slices.Contains(p.programs, strings.TrimSpace(name.Text)) {
			continue
		}
		for i := range times.Entries {
			if times.Entries[i].Key == zone {
				n := *minutes
				times.Entries[i].Value = &n
			}
		}
	}
}

// replaceEntry replaces the value of a key, or adds it.
func replaceEntry(n *scenarios.Node, key string, v *scenarios.Node) {
	for i := range n.Entries {
		if n.Entries[i].Key == key {
			n.Entries[i].Value = v
			return
		}
	}
	n.Entries = append(n.Entries, scenarios.Entry{Key: key, Pos: v.Pos, Value: v})
}

// drop removes what is at a path, if anything.
func drop(n *scenarios.Node, path string) {
	outer, rest, nested := strings.Cut(path, ".")
	for i := range n.Entries {
		if n.Entries[i].Key != outer {
			continue
		}
		if nested {
			drop(n.Entries[i].Value, rest)
			return
		}
		n.Entries = slices.Delete(n.Entries, i, i+1)
		return
	}
}
