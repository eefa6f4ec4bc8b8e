package scenarios

import (
	"strings"

	"loamledger/weather/diag"
)

// A NodeKind is what stands at a place of a scenario file.
type NodeKind uint8

// The kinds of node.
const (
	Empty  NodeKind = iota // nothing, or a written null
	Scalar                 // a text, a number, a word
	List
	Map
	Broken // a fault that has been reported already; it reads as not there
)

// A Node is a value of a scenario as its file gives it, before anything is
// known of its meaning. Readers of file formats make nodes; [Build] gives them
// meaning. Every node knows its place.
type Node struct {
	Pos     diag.Pos
	Kind    NodeKind
	Text    string  // of a Scalar, as written, quotes removed
	Items   []*Node // of a List
	Entries []Entry // of a Map, in order; keys are unique
}

// An Entry is a key of a Map and its value.
type Entry struct {
	Key   string
	Pos   diag.Pos // of the key
	Value *Node
}

// Get returns the value of the given key of a Map, or nil.
func (n *Node) Get(key string) *Node {
	if n == nil {
		return nil
	}
	for _, e := range n.Entries {
		if e.Key == key {
			return e.Value
		}
	}
	return nil
}

// Put sets the value at a path of one or more keys, parted by dots, of a
// Map. It does not look whether the key is there.
func (n *Node) Put(path string, v *Node) {
	outer, rest, nested := strings.Cut(path, ".")
	if !nested {
		n.Entries = append(n.Entries, Entry{Key: outer, Pos: v.Pos, Value: v})
		return
	}
	group := n.Get(outer)
	if group == nil {
		group = &Node{Pos: v.Pos, Kind: Map}
		n.Entries = append(n.Entries, Entry{Key: outer, Pos: v.Pos, Value: group})
	}
	group.Put(rest, v)
}

// what says in words what stands at the node.
func (n *Node) what() string {
	switch n.Kind {
	case Scalar:
		return "the value " + quoted(n.Text)
	case List:
		return "a list"
	case Map:
		return "a group of keys"
	}
	return "nothing"
}
