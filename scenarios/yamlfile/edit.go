package yamlfile

import (
	"errors"
	"fmt"
	"sort"
	"strconv"
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

// Set returns YAML with other values, in which everything else keeps its place and its
// comments. A value that is not there is added to its group. The result is read again:
// the error is errNoEdit if it does not have the values.
func Set(text string, changes ...Change) (string, error) {
	root, err := parse(text, "")
	if err != nil {
		return "", err
	}
	var cuts []cut
	for i := range changes {
		one, ok := cutOf(text, root, &changes[i])
		if !ok {
			return "", fmt.Errorf("%w: %v", errNoEdit, changes[i].Way)
		}
		cuts = append(cuts, one)
	}
	sort.SliceStable(cuts, func(a, b int) bool { return cuts[a].at > cuts[b].at }) // the last place first, so that places stay
	out := text
	for _, c := range cuts {
		if c.at+c.length > len(out) {
			return "", errNoEdit // two changes of one place
		}
		out = out[:c.at] + c.text + out[c.at+c.length:]
	}
	again, err := parse(out, "")
	for i := range changes {
		if c := &changes[i]; err != nil || textAt(again, c.Way) != c.Value {
			return "", fmt.Errorf("%w: %v", errNoEdit, c.Way)
		}
	}
	return out, nil
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
		end := strings.IndexByte(text[at:], '\n')
		if end < 0 {
			return cut{len(text), 0, indent + entry + "\n"}, true
		}
		return cut{at + end, 0, indent + entry}, true
	}
	return cut{at, 0, entry + indent}, true
}

// Append returns YAML with an item added at the end of a list at the top level, written
// with dashes or in brackets. item is written with a dash: each of its lines but the first
// begins with the spaces by which it is deeper. The error is errNoEdit if the result does not
// have one item more.
func Append(text, key string, item []string) (string, error) {
	root, err := parse(text, "")
	if err != nil {
		return "", err
	}
	list := root.Get(key)
	if list == nil || len(list.Items) == 0 {
		return "", fmt.Errorf("%w: %s is not a list", errNoEdit, key)
	}
	lines := strings.Split(text, "\n")
	first := list.Items[0].Pos.Line - 1
	if first < 0 || first >= len(lines) {
		return "", fmt.Errorf("%w: %s", errNoEdit, key)
	}
	dash := strings.TrimLeft(lines[first], " ")
	if at := offset(text, list.Pos.Line, list.Pos.Col); at >= 0 && at < len(text) && text[at] == '[' {
		return appendInBrackets(text, at, key, len(list.Items), item)
	}
	if !strings.HasPrefix(dash, "- ") {
		return "", fmt.Errorf("%w: %s is not written with dashes", errNoEdit, key)
	}
	indent := lines[first][:len(lines[first])-len(dash)]
	end := len(lines) // of the list: the line of the next key at the top level
	for i := range root.Entries {
		if line := root.Entries[i].Pos.Line - 1; line > first && line < end {
			end = line
		}
	}
	for end > first+1 && (strings.TrimSpace(lines[end-1]) == "" || strings.HasPrefix(strings.TrimSpace(lines[end-1]), "#")) {
		end--
	}
	added := make([]string, len(item))
	for i, line := range item {
		added[i] = indent + line
	}
	out := strings.Join(lines[:end], "\n") + "\n" + strings.Join(added, "\n")
	if end < len(lines) {
		out += "\n" + strings.Join(lines[end:], "\n")
	} else {
		out += "\n"
	}
	again, err := parse(out, "")
	if more := again.Get(key); err != nil || more == nil || len(more.Items) != len(list.Items)+1 {
		return "", fmt.Errorf("%w: %s", errNoEdit, key)
	}
	return out, nil
}

// appendInBrackets is Append for a list whose bracket opens at a place.
func appendInBrackets(text string, at int, key string, items int, item []string) (string, error) {
	tree, err := parse(strings.Join(item, "\n"), "")
	if err != nil || tree == nil || len(tree.Items) != 1 {
		return "", fmt.Errorf("%w: %s", errNoEdit, key)
	}
	end := closing(text, at)
	if end < 0 {
		return "", fmt.Errorf("%w: %s", errNoEdit, key)
	}
	before := strings.TrimRight(text[:end], " \n")
	comma := ",\n  "
	if strings.HasSuffix(before, ",") {
		comma = "\n  "
	}
	if last := before[strings.LastIndexByte(before, '\n')+1:]; strings.Contains(last, " #") {
		return "", fmt.Errorf("%w: a comment is in the way in %s", errNoEdit, key)
	}
	out := before + comma + inBrackets(tree.Items[0]) + text[end:]
	again, err := parse(out, "")
	if more := again.Get(key); err != nil || more == nil || len(more.Items) != items+1 {
		return "", fmt.Errorf("%w: %s", errNoEdit, key)
	}
	return out, nil
}

// closing returns where the bracket that opens at a place closes; -1 if it does not.
func closing(text string, at int) int {
	depth, quote := 0, byte(0)
	for i := at; i < len(text); i++ {
		c := text[i]
		switch {
		case quote == '"' && c == '\\':
			i++
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case (c == '"' || c == '\'') && strings.IndexByte(" [{,:", text[i-1]) >= 0:
			quote = c
		case c == '#' && strings.IndexByte(" \n", text[i-1]) >= 0:
			n := strings.IndexByte(text[i:], '\n')
			if n < 0 {
				return -1
			}
			i += n
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}':
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return -1
}

// inBrackets writes a tree on one line. Texts are quoted unless they are plain words.
func inBrackets(n *scenarios.Node) string {
	var parts []string
	switch n.Kind {
	case scenarios.Map:
		for _, e := range n.Entries {
			parts = append(parts, quotedText(e.Key)+": "+inBrackets(e.Value))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case scenarios.List:
		for _, item := range n.Items {
			parts = append(parts, inBrackets(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return quotedText(n.Text)
}

func quotedText(text string) string {
	if strings.Trim(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._") == "" && text != "" {
		return text
	}
	return strconv.Quote(text)
}
