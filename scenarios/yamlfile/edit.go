package yamlfile

import (
	"errors"
	"fmt"
	"io"
	"sort"
	"strings"

	"loamledger/scenarios"
)

// errNoEdit is returned for text in which a value cannot be set, since it is written in
// a form that is not known here, or not there at all.
var errNoEdit = errors.New("the value cannot be set in this text")

// A Step is one step of the way to a value: a key of a group or, if Key is empty, an
// item of a list, from 0.
type Step struct {
	Key  string
	Item int
}

// A Change is a value to set at the end of a way: a number with its unit, or a plain word.
type Change struct {
	Way   []Step
	Value string
}

// Items are items to add at the end of a list at the top level, written with dashes or in
// brackets. Each line of an item but the first begins with the spaces by which it is deeper
// than the dash with which it begins.
type Items struct {
	Key   string // of the list
	Items [][]string
}

// A Doc is a text in YAML that has been read, without errors, so that values can be changed
// without reading it again. It does not change.
type Doc struct {
	name, text string
	root       *scenarios.Node
}

// NewDoc reads a text. name is the file name for messages. Errors are those of [Read] in
// the text itself.
func NewDoc(r io.Reader, name string) (*Doc, error) {
	text, err := slurp(r, name)
	if err != nil {
		return nil, err
	}
	root, err := parse(text, name)
	if err != nil {
		return nil, err
	}
	return &Doc{name, text, root}, nil
}

// Text returns the text.
func (d *Doc) Text() string { return d.text }

// Tree returns the text as a tree, which is the caller's.
func (d *Doc) Tree() *scenarios.Node { return d.root.Clone() }

// Scenario reads the scenario in the text; open and more are those of [Read], as are errors.
func (d *Doc) Scenario(open func(string) (io.ReadCloser, error), more ...scenarios.ZoneParam) (*scenarios.Scenario, error) {
	build := func(root *scenarios.Node, name string) (*scenarios.Scenario, error) {
		return scenarios.Build(root, name, more...)
	}
	return readTree(build, d.Tree(), nil, d.name, open, more)
}

// Edit returns the text with other values and more items, in which everything else keeps its
// place and its comments. A value that is not there is added to its group. The result is
// read again: the error is errNoEdit if it does not have the values and the items.
func (d *Doc) Edit(changes []Change, items []Items) (*Doc, error) {
	text := strings.TrimSuffix(d.text, "\n") + "\n"
	var cuts []cut
	for i := range items {
		one, err := d.append(text, &items[i])
		if err != nil {
			return nil, err
		}
		cuts = append(cuts, one) // before others at its place, so that it comes after them
	}
	for i := range changes {
		one, ok := cutOf(text, d.root, &changes[i])
		if !ok {
			return nil, fmt.Errorf("%w: %v", errNoEdit, changes[i].Way)
		}
		cuts = append(cuts, one)
	}
	sort.SliceStable(cuts, func(a, b int) bool { return cuts[a].at > cuts[b].at }) // the last place first, so that places stay
	out := text
	for _, c := range cuts {
		if c.at+c.length > len(out) {
			return nil, errNoEdit // two changes of one place
		}
		out = out[:c.at] + c.text + out[c.at+c.length:]
	}
	root, err := parse(out, d.name)
	for i := range changes {
		if c := &changes[i]; err != nil || textAt(root, c.Way) != c.Value {
			return nil, fmt.Errorf("%w: %v", errNoEdit, c.Way)
		}
	}
	for i := range items {
		of := &items[i]
		if more := root.Get(of.Key); err != nil || more == nil || len(more.Items) != len(d.root.Get(of.Key).Items)+len(of.Items) {
			return nil, fmt.Errorf("%w: %s", errNoEdit, of.Key)
		}
	}
	return &Doc{d.name, out, root}, nil
}

// A cut is a part of a text with what replaces it.
type cut struct {
	at, length int
	text       string
}

// cutOf finds what to replace for a change; false if there is no such place.
func cutOf(text string, root *scenarios.Node, c *Change) (cut, bool) {
	at, group := root, root
	for _, s := range c.Way {
		if at == nil {
			return cut{}, false
		}
		group = at
		switch {
		case s.Key != "":
			at = at.Get(s.Key)
		case s.Item < len(at.Items):
			at = at.Items[s.Item]
		default:
			return cut{}, false
		}
	}
	switch {
	case at == nil && group.Kind == scenarios.Map:
		return insertion(text, group, c.Way[len(c.Way)-1].Key+": "+c.Value)
	case at != nil && at.Kind == scenarios.Scalar:
		return replacement(text, at, c.Value)
	}
	return cut{}, false
}

// textAt returns the text of the value at the end of a way.
func textAt(n *scenarios.Node, way []Step) string {
	for _, s := range way {
		switch {
		case n == nil:
			return ""
		case s.Key != "":
			n = n.Get(s.Key)
		case s.Item < len(n.Items):
			n = n.Items[s.Item]
		default:
			return ""
		}
	}
	if n == nil {
		return ""
	}
	return n.Text
}

// offset returns where a line and column, from 1, are in a text; -1 if nowhere.
func offset(text string, line, col int) int {
	at := 0
	for ; line > 1; line-- {
		n := strings.IndexByte(text[at:], '\n')
		if n < 0 {
			return -1
		}
		at += n + 1
	}
	if at += col - 1; at > len(text) {
		return -1
	}
	return at
}

// replacement is another value in the place of one; false if that is not on one line.
func replacement(text string, n *scenarios.Node, value string) (cut, bool) {
	at := offset(text, n.Pos.Line, n.Pos.Col)
	if at < 0 || n.Text == "" {
		return cut{}, false
	}
	for _, quote := range []string{"", `"`, "'"} {
		if old := quote + n.Text + quote; strings.HasPrefix(text[at:], old) {
			return cut{at, len(old), value}, true
		}
	}
	return cut{}, false
}

// insertion adds a key to a group; false if there is no place.
func insertion(text string, group *scenarios.Node, entry string) (cut, bool) {
	at := offset(text, group.Pos.Line, group.Pos.Col)
	switch {
	case at < 0 || at >= len(text):
		return cut{}, false
	case text[at] == '{':
		if len(group.Entries) > 0 {
			entry += ", "
		}
		return cut{at + 1, 0, entry}, true
	case len(group.Entries) == 0:
		return cut{}, false
	}
	indent := "\n" + strings.Repeat(" ", group.Pos.Col-1)
	first := group.Entries[0]
	// After the first key, if its value is on its line: a name stays first.
	if v := first.Value; v.Kind == scenarios.Scalar && v.Pos.Line == first.Pos.Line && !strings.Contains(v.Text, "\n") {
		end := strings.IndexByte(text[at:], '\n') // there is one: see [Doc.Edit]
		return cut{at + end, 0, indent + entry}, true
	}
	return cut{at, 0, entry + indent}, true
}

// append finds where in the text, which ends with a line, items are to be added.
func (d *Doc) append(text string, of *Items) (cut, error) {
	list := d.root.Get(of.Key)
	if list == nil || len(list.Items) == 0 {
		return cut{}, fmt.Errorf("%w: %s is not a list", errNoEdit, of.Key)
	}
	lines := strings.Split(text, "\n")
	first := list.Items[0].Pos.Line - 1
	if first < 0 || first >= len(lines) {
		return cut{}, fmt.Errorf("%w: %s", errNoEdit, of.Key)
	}
	dash := strings.TrimLeft(lines[first], " ")
	if at := offset(text, list.Pos.Line, list.Pos.Col); at >= 0 && at < len(text) && text[at] == '[' {
		return appendInBrackets(text, at, of)
	}
	if !strings.HasPrefix(dash, "- ") {
		return cut{}, fmt.Errorf("%w: %s is not written with dashes", errNoEdit, of.Key)
	}
	indent := lines[first][:len(lines[first])-len(dash)]
	end := len(lines) // of the list: the line of the next key at the top level
	for i := range d.root.Entries {
		if line := d.root.Entries[i].Pos.Line - 1; line > first && line < end {
			end = line
		}
	}
	for end > first+1 && (strings.TrimSpace(lines[end-1]) == "" || strings.HasPrefix(strings.TrimSpace(lines[end-1]), "#")) {
		end--
	}
	var b strings.Builder
	for _, item := range of.Items {
		for _, line := range item {
			b.WriteString(indent + line + "\n")
		}
	}
	return cut{offset(text, end+1, 1), 0, b.String()}, nil
}
