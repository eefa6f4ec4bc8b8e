package scenarios

import (
	"slices"
	"testing"
)

// Codes of flags join those of the scenario, in any form that it has, each once.
func TestPutAccepted(t *testing.T) {
	word := func(text string) *Node { return &Node{Kind: Scalar, Text: text} }
	for _, tt := range []struct {
		name string
		old  *Node
		want []string
	}{
		{"none", nil, []string{"b", "c"}},
		{"one word", word("a"), []string{"a", "b", "c"}},
		{"a list", &Node{Kind: List, Items: []*Node{word("a"), word("b")}}, []string{"a", "b", "c"}},
	} {
		w := &Node{Kind: Map}
		if tt.old != nil {
			w.Put("accept", tt.old)
		}
		root := &Node{Kind: Map}
		root.Put("weather", w)
		PutAccepted(root, []string{"b", "c", "b"})
		var got []string
		for _, n := range w.Get("accept").Items {
			got = append(got, n.Text)
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
	root := &Node{Kind: Map}
	if PutAccepted(root, []string{"a"}); len(root.Entries) > 0 {
		t.Error("a scenario without weather got some")
	}
}
