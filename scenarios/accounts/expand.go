package accounts

import (
	"slices"
	"strings"

	"loamledger/scenarios"
)

// An expander writes the zones of an account in place of the zones of the program that they
// are like, wherever programs, strategies and limits name zones. A part that is for zones
// which the account does not have is left out.
type expander struct {
	names map[string][]string // by zone of the program
	known []string            // zones of the program
	left  []string            // strategies that lost a part
}

// root expands programs and strategies, and removes programs without zones.
func (e *expander) root(root *scenarios.Node) {
	var gone []string
	if programs := root.Get("programs"); programs != nil {
		programs.Items = slices.DeleteFunc(programs.Items, func(prog *scenarios.Node) bool {
			times := prog.Get("minutes")
			if times == nil || times.Kind != scenarios.Map {
				return false // reported by Build
			}
			if e.expandKeys(times); len(times.Entries) > 0 {
				return false
			}
			if name := prog.Get("name"); name != nil {
				gone = append(gone, strings.TrimSpace(name.Text))
			}
			return true
		})
	}
	if limits := root.Get("limits"); limits != nil {
		e.walk(limits)
	}
	strategies := root.Get("strategies")
	if strategies == nil {
		return
	}
	for _, st := range strategies.Items {
		lost := e.walk(st)
		if dropPrograms(st, gone) || lost {
			if name := st.Get("name"); name != nil {
				e.left = append(e.left, strings.TrimSpace(name.Text))
			}
		}
	}
}

// dropPrograms removes programs from a strategy and reports whether it ran one.
func dropPrograms(st *scenarios.Node, gone []string) bool {
	n := st.Get("programs")
	if n == nil || len(gone) == 0 {
		return false
	}
	is := func(n *scenarios.Node) bool {
		return slices.ContainsFunc(gone, func(name string) bool { return same(name, n.Text) })
	}
	switch n.Kind {
	case scenarios.Scalar:
		if is(n) {
			drop(st, "programs")
			return true
		}
	case scenarios.List:
		before := len(n.Items)
		if n.Items = slices.DeleteFunc(n.Items, is); len(n.Items) == 0 {
			drop(st, "programs")
		}
		return len(n.Items) < before
	}
	return false
}

// walk expands everything under a group and reports whether a part was left out.
func (e *expander) walk(n *scenarios.Node) (lost bool) {
	n.Entries = slices.DeleteFunc(n.Entries, func(entry scenarios.Entry) bool {
		v := entry.Value
		if v == nil {
			return false
		}
		empty, inner := e.entry(entry.Key, v)
		lost = lost || inner || empty
		return empty
	})
	return lost
}

// entry expands one entry. empty says that nothing is left of it.
func (e *expander) entry(key string, v *scenarios.Node) (empty, lost bool) {
	switch {
	case key == "zones" || key == "exempt":
		return e.expandList(v), false
	case key == "read_zone" && v.Kind == scenarios.Scalar:
		if to, is := e.of(v.Text); is && len(to) > 0 {
			v.Text = to[0]
		}
		return false, false
	case (key == "minutes" || key == "zone_percent") && v.Kind == scenarios.Map:
		before := len(v.Entries)
		e.expandKeys(v)
		return before > 0 && len(v.Entries) == 0, false
	case v.Kind == scenarios.Map:
		had := v.Get("zones") != nil || v.Get("minutes") != nil
		lost = e.walk(v)
		return had && lost && v.Get("zones") == nil && v.Get("minutes") == nil, lost
	case v.Kind == scenarios.List:
		before := len(v.Items)
		v.Items = slices.DeleteFunc(v.Items, func(item *scenarios.Node) bool {
			if item.Kind != scenarios.Map {
				return false
			}
			empty, inner := e.entry("", item)
			lost = lost || inner || empty
			return empty
		})
		return before > 0 && len(v.Items) == 0, lost
	}
	return false, false
}

// of returns the zones that stand for one of the program; is reports whether it is one.
func (e *expander) of(name string) (to []string, is bool) {
	for _, zone := range e.known {
		if same(zone, name) {
			return e.names[zone], true
		}
	}
	return nil, false
}

// expandList expands a name or a list of them, and reports whether nothing is left.
func (e *expander) expandList(v *scenarios.Node) (empty bool) {
	items := v.Items
	if v.Kind == scenarios.Scalar {
		if _, is := e.of(v.Text); !is {
			return false // all, or an error that Build reports
		}
		items = []*scenarios.Node{{Pos: v.Pos, Kind: scenarios.Scalar, Text: v.Text}}
	}
	var out []*scenarios.Node
	for _, item := range items {
		to, is := e.of(item.Text)
		if !is || item.Kind != scenarios.Scalar {
			out = append(out, item)
			continue
		}
		for _, name := range to {
			out = append(out, &scenarios.Node{Pos: item.Pos, Kind: scenarios.Scalar, Text: name})
		}
	}
	v.Kind, v.Text, v.Items = scenarios.List, "", out
	return len(items) > 0 && len(out) == 0
}

// expandKeys expands the keys of a group that are zones.
func (e *expander) expandKeys(v *scenarios.Node) {
	var out []scenarios.Entry
	for _, entry := range v.Entries {
		to, is := e.of(entry.Key)
		if !is {
			out = append(out, entry)
			continue
		}
		for _, name := range to {
			out = append(out, scenarios.Entry{Key: name, Pos: entry.Pos, Value: entry.Value.Clone()})
		}
	}
	v.Entries = out
}
