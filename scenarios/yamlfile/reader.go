package yamlfile

import (
	"io"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Reader reads a small YAML file other than a scenario, key by key, and collects
// its errors. Name is the file name for messages.
type Reader struct {
	Name   string
	Faults diag.List
}

// Open parses the file and returns its top group.
func (r *Reader) Open(in io.Reader, known []string) (*scenarios.Node, error) {
	root, err := Tree(in, r.Name)
	if err != nil {
		return nil, err
	}
	if root == nil || root.Kind == scenarios.Empty {
		r.Faults.Add(diag.EmptyFile, diag.Pos{File: r.Name}, "the keys are "+strings.Join(known, ", "), "the file is empty")
		return nil, r.Faults.Err()
	}
	if !r.Group(root, "the file", known) {
		return nil, r.Faults.Err()
	}
	return root, nil
}

// Group checks that n is a group of known keys.
func (r *Reader) Group(n *scenarios.Node, what string, known []string) bool {
	if n.Kind != scenarios.Map {
		r.Faults.Add(diag.WrongShape, n.Pos, "the keys are "+strings.Join(known, ", "), "%s is not a group of keys", what)
		return false
	}
	for _, e := range n.Entries {
		if slices.Contains(known, e.Key) {
			continue
		}
		fix := "valid keys: " + strings.Join(known, ", ")
		if near := diag.Nearest(e.Key, known); near != "" {
			fix = "did you mean " + near + "?"
		}
		r.Faults.Add(diag.UnknownKey, e.Pos, fix, "unknown key %q", e.Key)
	}
	return true
}

// Text reads a single value; "" if it is missing.
func (r *Reader) Text(n *scenarios.Node, key string) string {
	v := n.Get(key)
	if v == nil {
		return ""
	}
	if v.Kind != scenarios.Scalar || v.Text == "" {
		r.Faults.Add(diag.WrongShape, v.Pos, "write a single value, or remove the key", "%s is not a single value", key)
		return ""
	}
	return v.Text
}

// Texts reads a value or a list of them.
func (r *Reader) Texts(n *scenarios.Node, key string) []string {
	v := n.Get(key)
	switch {
	case v == nil:
		return nil
	case v.Kind == scenarios.Scalar:
		return []string{v.Text}
	case v.Kind != scenarios.List:
		r.Faults.Add(diag.WrongShape, v.Pos, "write a value or a list of them", "%s is neither a value nor a list", key)
		return nil
	}
	var out []string
	for _, item := range v.Items {
		if item.Kind != scenarios.Scalar {
			r.Faults.Add(diag.WrongShape, item.Pos, "write single values in the list", "%s has an entry that is not a single value", key)
			continue
		}
		out = append(out, item.Text)
	}
	return out
}

// Flag reads true or false; false if it is missing.
func (r *Reader) Flag(n *scenarios.Node, key string) bool {
	switch text := r.Text(n, key); strings.ToLower(text) {
	case "true", "yes":
		return true
	case "", "false", "no":
	default:
		r.Faults.Add(diag.WrongShape, n.Get(key).Pos, "write true or false", "%s %q is neither true nor false", key, text)
	}
	return false
}

// Number reads a bare number between low and high; nil if it is missing.
func (r *Reader) Number(n *scenarios.Node, key string, low, high float64) *float64 {
	text := r.Text(n, key)
	if text == "" {
		return nil
	}
	v, err := quantity.ParseNumber(strings.TrimSpace(text))
	switch {
	case err != nil:
		r.Faults.Add(diag.NotANumber, n.Get(key).Pos, "write a bare number", "%s: %v", key, err)
		return nil
	case !(v >= low && v <= high):
		r.Faults.Add(diag.OutOfRange, n.Get(key).Pos, "check the value and its unit", "%s %s is outside %g to %g", key, text, low, high)
		return nil
	}
	return &v
}

// Quantity reads a value with its unit; nil if it is missing.
func (r *Reader) Quantity(n *scenarios.Node, key string, dim quantity.Dimension) *float64 {
	text := r.Text(n, key)
	if text == "" {
		return nil
	}
	v, err := quantity.Parse(text, dim)
	if err != nil {
		r.Faults.Add(diag.BadQuantity, n.Get(key).Pos, "write it with its unit: "+quantity.Names(dim), "%s: %v", key, err)
		return nil
	}
	return &v
}
