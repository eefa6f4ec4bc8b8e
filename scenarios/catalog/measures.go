package catalog

import "slices"

// A Measure is something that saves water, as a definition: settings that a strategy or
// a change can be given. A name alone decides nothing: the same word stands for
// settings that differ threefold in what they save.
type Measure struct {
	Name string
	What string // in one sentence
	// YAML is what a strategy has besides its name: lines under it. <lawns>,
	// <spray lawns>, <beds> and <zone> are to be replaced by names of zones.
	YAML []string
	// Before is what the sample site is given before the measure, in the form of YAML, and
	// Against says so; empty for the site as found.
	Before, Against string
	// Alone is set if the strategy waters by itself, and is not like what ran.
	Alone    bool
	Settings []Setting
	Found    []Finding `json:"-"` // what was found in the field
}

// A Setting is one value of a measure, and why it is that.
type Setting struct {
	Key, Value string
	Grade      Grade
	Source     string
}

// A Finding is what one study or source says of a measure.
type Finding struct {
	What   string
	Source string
	Seen   Seen
}

// A Seen is how much of a source was read.
type Seen uint8

// The ways.
const (
	abstract  Seen = iota // the abstract or summary
	page                  // the page that has the figure
	secondary             // another source that quotes it
	claim                 // an agency's statement or estimate, without a measurement behind it that was seen
)

// String returns the words for s.
func (s Seen) String() string {
	return [...]string{"abstract read", "page read", "as quoted elsewhere", "a claim or estimate, not a measurement"}[s]
}

// Measures returns the measures. The slice is the caller's; what it holds is shared.
func Measures() []Measure { return slices.Clone(measures[:]) }
