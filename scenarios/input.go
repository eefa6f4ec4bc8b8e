package scenarios

import (
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// An Input is one value that a replay uses, with the position where it was
// given or the source of its default. The report lists all inputs and counts
// the defaults.
type Input struct {
	Key       string  // such as "zones.front lawn.root_depth"
	Value     float64 // in the base unit; 0 where Numeric is not set
	Numeric   bool    // the input is a number; otherwise only Text is set
	Text      string  // as written, or the default in the scenario's units
	ReadAs    string  // what Text was understood as, if it was written in other words; else empty
	Unit      string  // base unit of Value, or ""
	Pos       diag.Pos
	Defaulted bool
	Off       bool   // the default turns a feature off and assumes nothing about the site
	Range     string // usual range, in the scenario's units; empty if unknown
	Source    string // of a default: its publication
	Grade     catalog.Grade
}

// Defaults returns the inputs that were not given, except those that only turn
// a feature off.
func (sc *Scenario) Defaults() []Input {
	var out []Input
	for _, in := range sc.Inputs {
		if in.Defaulted && !in.Off {
			out = append(out, in)
		}
	}
	return out
}

// Readings returns the inputs that were understood in other words than written.
func (sc *Scenario) Readings() []Input {
	var out []Input
	for _, in := range sc.Inputs {
		if in.ReadAs != "" {
			out = append(out, in)
		}
	}
	return out
}

// A shape says how a number is written: with a unit of a dimension, or bare.
type shape struct {
	dim  quantity.Dimension
	bare bool
}

func (s shape) unit() string {
	if s.bare {
		return ""
	}
	return s.dim.BaseUnit()
}

// label returns the unit of numbers in the base unit as tables and records print it.
func (s shape) label() string {
	if s.bare || s.dim == quantity.Fraction {
		return s.unit()
	}
	return quantity.Label(s.dim, quantity.SI)
}

func (s shape) format(v float64, sys quantity.System) string {
	if s.bare {
		return quantity.Number(v, 4)
	}
	return quantity.Format(v, s.dim, sys)
}

func (b *builder) given(key string, v float64, s shape, n *Node) {
	b.exact[n] = exact(v, s)
	b.sc.Inputs = append(b.sc.Inputs, Input{Key: key, Value: v, Numeric: true, Text: n.Text, ReadAs: b.readAs[n], Unit: s.unit(), Pos: n.Pos})
}

func (b *builder) givenWord(key string, n *Node) {
	b.sc.Inputs = append(b.sc.Inputs, Input{Key: key, Text: n.Text, ReadAs: b.readAs[n], Pos: n.Pos})
}

func (b *builder) defaulted(key string, s shape, f catalog.Figure) {
	in := Input{Key: key, Value: f.Value, Numeric: true, Text: s.format(f.Value, b.sc.Units), Unit: s.unit(), Defaulted: true,
		Source: f.Source, Grade: f.Grade}
	if f.Low != 0 || f.High != 0 {
		in.Range = s.format(f.Low, b.sc.Units) + " to " + s.format(f.High, b.sc.Units)
	}
	b.sc.Inputs = append(b.sc.Inputs, in)
}

func (b *builder) defaultedWord(key, word string, g catalog.Grade, source string) {
	b.sc.Inputs = append(b.sc.Inputs, Input{Key: key, Text: word, Defaulted: true, Source: source, Grade: g})
}

// givenList records a list as one input, with its texts joined.
func (b *builder) givenList(key string, n *Node, items []*Node) {
	texts, as, other := make([]string, len(items)), make([]string, len(items)), false
	for i, item := range items {
		texts[i] = strings.TrimSpace(item.Text)
		as[i] = texts[i]
		if read := b.readAs[item]; read != "" {
			as[i], other = read, true
		}
	}
	in := Input{Key: key, Text: strings.Join(texts, ", "), Pos: n.Pos}
	if other {
		in.ReadAs = strings.Join(as, ", ")
	}
	b.sc.Inputs = append(b.sc.Inputs, in)
}
