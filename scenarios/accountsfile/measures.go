package accountsfile

import (
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/scenarios/yamlfile"
	"loamledger/weather/diag"
)

// measureKey names a measure of the catalog in a strategy of a program.
const measureKey = "measure"

// measures puts the lines of a measure of the catalog in place of its name, wherever a strategy
// names one. What the strategy says itself counts.
func (r *programReader) measures(root *scenarios.Node) {
	list := root.Get("strategies")
	if list == nil {
		return
	}
	for _, st := range list.Items {
		at := slices.IndexFunc(st.Entries, func(e scenarios.Entry) bool { return e.Key == measureKey })
		if at < 0 {
			continue
		}
		name := st.Entries[at].Value
		st.Entries = slices.Delete(st.Entries, at, at+1)
		m := r.measure(name)
		if m == nil {
			continue
		}
		for _, e := range m.Entries {
			if st.Get(e.Key) == nil {
				st.Entries = append(st.Entries, e)
			}
		}
	}
}

// measure finds the lines of a measure; nil after an error.
func (r *programReader) measure(name *scenarios.Node) *scenarios.Node {
	var known []string
	for _, m := range catalog.Measures() {
		known = append(known, m.Name)
		if names.Key(m.Name) != names.Key(name.Text) {
			continue
		}
		text := strings.Join(m.YAML, "\n")
		if strings.Contains(text, "<") {
			r.Faults.Add(diag.Ambiguous, name.Pos, "copy its lines from loamledger catalog --measures, and name the zones",
				"measure %s is for certain zones, which it does not know", quoted(m.Name))
			return nil
		}
		tree, err := yamlfile.Tree(strings.NewReader(text), r.Name)
		if err != nil || tree == nil {
			r.Faults.Add(diag.BadSyntax, name.Pos, "copy its lines from loamledger catalog --measures", "measure %s cannot be used by name",
				quoted(m.Name))
			return nil
		}
		move(tree, name.Pos)
		return tree
	}
	fix := "loamledger catalog --measures lists them"
	if near := diag.Nearest(name.Text, known); near != "" {
		fix = "did you mean " + quoted(near) + "?"
	}
	r.Faults.Add(diag.UnknownName, name.Pos, fix, "the catalog has no measure %s", quoted(name.Text))
	return nil
}

// move gives every node of a tree the place of the name that stands for it.
func move(n *scenarios.Node, to diag.Pos) {
	n.Pos = to
	for _, item := range n.Items {
		move(item, to)
	}
	for i := range n.Entries {
		n.Entries[i].Pos = to
		if v := n.Entries[i].Value; v != nil {
			move(v, to)
		}
	}
}
