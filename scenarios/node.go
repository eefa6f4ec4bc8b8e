package scenarios

import (
	"strings"

	"loamledger/weather/diag"
)

// A NodeKind is the kind of a [Node].
type NodeKind uint8

// The kinds of node.
const (
	Empty  NodeKind = iota // nothing, or null
	Scalar                 // a text, number or word
	List
	Map
	Broken // an error reported already; treated as absent
)

// A Node is a value of a scenario as written in its file, not yet interpreted.
// Readers of file formats make nodes; [Build] interprets them. Every node has
// its position.
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

// Put adds a value to a Map at a path of one or more keys separated by dots. It
// does not check whether the key exists.
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

// what describes the node in words.
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
