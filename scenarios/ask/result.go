package ask

import (
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Result is a scenario made of answers.
type Result struct {
	YAML     []byte       `json:"-"` // the scenario, with comments
	Assumed  []Assumption `json:"assumed"`
	Warnings []Warning    `json:"warnings"`
	Files    []NamedFile  `json:"files"` // that the scenario names, in order
}

// An Assumption is what answered a "don't know".
type Assumption struct {
	At
	ZoneName string         `json:"zone_name,omitempty"`
	Text     string         `json:"text"` // what was used
	Source   string         `json:"source"`
	Grade    quantity.Grade `json:"grade"`
	Derived  bool           `json:"derived,omitempty"` // it is not the default that [Answers.Default] gives beside the question
}

// A NamedFile is a file that the scenario names. Text is its content if it is made
// here; it is nil for a file of the person's own.
type NamedFile struct {
	Name string   `json:"name"`
	Kind FileKind `json:"kind"`
	Text []byte   `json:"-"`
}

// A FileKind says what a file is for.
type FileKind string

// The kinds. Figures is the file of monthly figures from which the weather is
// generated; the scenario names the weather made of them.
const (
	Figures FileKind = "monthly-figures"
	Weather FileKind = "weather"
	Rates   FileKind = "rates"
)

// A Fault is an answer that cannot be used: what was found and what to type instead.
type Fault struct {
	At
	Code diag.Code `json:"code"`
	Msg  string    `json:"message"`
	Fix  string    `json:"fix"`
}

// A Warning is an answer that is read but probably a mistake.
type Warning struct {
	At
	Text string `json:"text"`
}
