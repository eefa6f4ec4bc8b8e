package scenarios

import (
	"strings"

	"loamledger/weather/diag"
)

// An Accepted is the code of a finding in the weather with which a study goes on.
type Accepted struct {
	Code string
	Pos  diag.Pos // without a line if a flag gave it
}

// accepted reads the codes that a scenario accepts. What they stand for is not
// known here.
func (g group) accepted() (out []Accepted) {
	n := g.has("accept")
	if n == nil {
		return nil
	}
	seen := map[string]bool{}
	for _, item := range g.items(n) {
		code := strings.TrimSpace(item.Text)
		switch {
		case item.Kind != Scalar || code == "":
			g.fault(diag.WrongShape, item.Pos, "write the code of a finding, or a list of them", "%s: accept is %s, not a code", g.where,
				item.what())
		case seen[code]:
			g.fault(diag.Duplicate, item.Pos, "name each code once", "%s: accept: duplicate code %s", g.where, quoted(code))
		default:
			seen[code] = true
			out = append(out, Accepted{code, item.Pos})
		}
	}
	g.givenList(g.path("accept"), n, g.items(n))
	return out
}

// PutAccepted adds codes of findings to those that a scenario not yet built
// accepts. It does nothing if the scenario has no weather.
func PutAccepted(root *Node, codes []string) {
	w := root.Get("weather")
	if w == nil || w.Kind != Map || len(codes) == 0 {
		return
	}
	list := &Node{Kind: List, Pos: diag.Pos{File: w.Pos.File}}
	has := map[string]bool{}
	old := w.Get("accept")
	switch {
	case old == nil:
		w.Entries = append(w.Entries, Entry{Key: "accept", Pos: list.Pos, Value: list})
	case old.Kind == List:
		list = old
	default:
		list.Pos, list.Items = old.Pos, []*Node{old}
		for i := range w.Entries {
			if w.Entries[i].Key == "accept" {
				w.Entries[i].Value = list
			}
		}
	}
	for _, item := range list.Items {
		has[strings.TrimSpace(item.Text)] = true
	}
	for _, code := range codes {
		if code = strings.TrimSpace(code); !has[code] {
			has[code] = true
			list.Items = append(list.Items, &Node{Kind: Scalar, Text: code, Pos: diag.Pos{File: w.Pos.File}})
		}
	}
}
