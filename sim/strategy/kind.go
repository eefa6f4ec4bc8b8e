package strategy

import (
	"slices"

	"loamledger/weather/quantity"
)

// A Param describes one parameter of a kind of part. The scenario reader, the
// help and the report all use it.
type Param struct {
	Field    // where the value goes; it also sets the form and the dimension
	Key      string
	Required bool
	Default  float64  // in base units, or 0 and 1 for a Flag; for Quantity, Number, Flag and ClockTime
	Word     string   // default of a Choice; for other types, a description of a default that is not a number
	Choices  []string // words that a Choice takes, or that may stand for a Quantity or for TwelveShares
	Min, Max float64  // inclusive range in base units, for Quantity and Number
	Doc      string
	Grade    quantity.Grade // how reliable the default is; Given only if Required
	Source   string         // source of the default; empty only if Required
	Off      bool           // the default turns a feature off and assumes nothing about the site
	Always   bool           // written to a scenario even if it is the default
}

// A Kind describes one kind of part for all code that handles strategies. It is
// made from a [Spec]. Key is its place in a strategy of a scenario; a dot means
// nesting, so "hold.rain" is the key rain under hold. If the only parameter has
// an empty Key, the kind takes its value directly, as in
// "monthly: [0, 0, 40, ...]".
type Kind struct {
	Key     string
	Doc     string // one sentence
	Example string // YAML that can be pasted into a strategy
	Params  []Param
	Many    bool // the value may be a list with one part per entry

	yaml     YAMLForm
	blank    func() *Blank
	values   func(Part) []Param
	sheet    func(Part, *Site) SheetEntry
	copied   func(Part) CopyEntry
	lines    func(Part, []string, quantity.System) []string
	plain    func(Part) Plain
	warnings func(Part, []string) Warnings
	record   func(Part, *Site) string
	unsaid   []string
}

// A Spec defines a kind whose parts are stored in an S; the part itself is an S
// or a *S. An empty field causes an [UnsaidError] wherever it is needed. If a
// question does not apply, use the named value that says so.
type Spec[S any] struct {
	Key, Doc, Example string // as in Kind
	Many              bool
	Params            func(p *S) []Param // bound to the fields of p

	// Sheet returns the part's entry on a settings sheet, such as onController.
	Sheet func(p *S, site *Site) SheetEntry
	// Copy returns what happens to the part on a sheet derived from applied water:
	// Kept or Replaced.
	Copy func(p *S) CopyEntry
	// Lines describes the part in at least one line.
	Lines func(p *S, zones []string, sys quantity.System) []string
	// Plain describes the part to readers without any background, or noMention.
	Plain func(p *S) Plain
	// YAML is how the part is written to a scenario.
	YAML YAMLForm
	// Conflicts returns conflicts within the part and with others, or noConflicts.
	Conflicts func(p *S, given Given) Conflicts
	// Warnings returns warnings that need no weather, or noWarnings.
	Warnings func(p *S, zones []string) Warnings
	// Record returns what the part reports about a weather record, "" for nothing;
	// or nothingOfRecord.
	Record func(p *S, site *Site) string
}

// Kind makes the kind. It panics if parameters are inconsistent; a test checks
// all kinds.
func (s Spec[S]) Kind() Kind {
	k := Kind{Key: s.Key, Doc: s.Doc, Example: s.Example, Many: s.Many, yaml: s.YAML}
	k.Params = s.Params(new(S))
	checkParams(k.Params)
	k.blank = func() *Blank {
		p := new(S)
		b := &Blank{Key: s.Key, Params: s.Params(p), given: map[any]bool{}, part: func() Part { return asPart(p) }}
		if s.Conflicts != nil {
			b.conflicts = func(given Given) Conflicts { return s.Conflicts(p, given) }
		}
		return b
	}
	k.values = func(p Part) []Param { return s.Params(held[S](p)) }
	if s.Sheet != nil {
		k.sheet = func(p Part, site *Site) SheetEntry { return s.Sheet(held[S](p), site) }
	}
	if s.Copy != nil {
		k.copied = func(p Part) CopyEntry { return s.Copy(held[S](p)) }
	}
	if s.Lines != nil {
		k.lines = func(p Part, zones []string, sys quantity.System) []string { return s.Lines(held[S](p), zones, sys) }
	}
	if s.Plain != nil {
		k.plain = func(p Part) Plain { return s.Plain(held[S](p)) }
	}
	if s.Warnings != nil {
		k.warnings = func(p Part, zones []string) Warnings { return s.Warnings(held[S](p), zones) }
	}
	if s.Record != nil {
		k.record = func(p Part, site *Site) string { return s.Record(held[S](p), site) }
	}
	for _, q := range []struct {
		missing bool
		what    string
	}{
		{s.Sheet == nil, onSheet}, {s.Copy == nil, onCopy}, {s.Lines == nil, inWords}, {s.Plain == nil, inPlain},
		{s.YAML == YAMLUnsaid, inYAML},
		{s.Conflicts == nil, ofConflicts}, {s.Warnings == nil, ofWarnings}, {s.Record == nil, ofRecord},
	} {
		if q.missing {
			k.unsaid = append(k.unsaid, q.what)
		}
	}
	return k
}

// Unsaid lists the questions that the kind does not answer; a test checks all kinds.
func (k Kind) Unsaid() []string { return slices.Clone(k.unsaid) }

// asPart returns p as a part, by value if the value is a part.
func asPart[S any](p *S) Part {
	if part, ok := any(*p).(Part); ok {
		return part
	}
	return any(p).(Part)
}

// held returns the stored values of a part.
func held[S any](p Part) *S {
	switch p := any(p).(type) {
	case S:
		return &p
	case *S:
		return p
	}
	panic("strategy: a part returns another part's kind")
}

func checkParams(params []Param) {
	keys, fields := map[string]bool{}, map[any]bool{}
	for _, p := range params {
		switch {
		case p.set == nil || p.get == nil || p.at == nil:
			panic("strategy: a parameter has no field")
		case fields[p.at]:
			panic("strategy: two parameters share a field")
		case keys[p.Key] || p.Key == "" && len(params) > 1:
			panic("strategy: a parameter has no unique key")
		case p.Type == Choice && (len(p.Choices) == 0 || !p.Required && !slices.Contains(p.Choices, p.Word)):
			panic("strategy: the default of a parameter is not one of its choices")
		}
		keys[p.Key], fields[p.at] = true, true
	}
}

// A Blank is a part that is being filled in.
type Blank struct {
	Key    string // of the kind
	Params []Param

	given     map[any]bool
	part      func() Part
	conflicts func(Given) Conflicts // nil if unsaid
}

// Blank returns an empty part of the kind.
func (k Kind) Blank() *Blank { return k.blank() }

// Set sets parameter i of Params.
func (b *Blank) Set(i int, v Value) {
	b.Params[i].set(v)
	b.given[b.Params[i].at] = v.Given
}

// Part returns the part after all parameters are set.
func (b *Blank) Part() Part { return b.part() }

// Conflicts returns the part's conflicts after all parameters are set.
func (b *Blank) Conflicts() (Conflicts, error) {
	if b.conflicts != nil {
		c := b.conflicts(func(field any) bool {
			given, ok := b.given[field]
			if !ok {
				panic("strategy: a part asks about a field without a parameter")
			}
			return given
		})
		if c.Checked {
			return c, nil
		}
	}
	return Conflicts{}, &UnsaidError{b.Key, ofConflicts}
}

// Kinds returns every kind of part in the order in which most people meet them,
// which is the order of the help. New parts are registered only here.
func Kinds() []Kind {
	return []Kind{
		programsKind(),
		seasonKind(),
		monthlyKind(),
		rainHoldKind(),
		frostHoldKind(),
		windHoldKind(),
		etPercentKind(),
		zonePercentKind(),
		roundKind(),
		forecastHoldKind(),
		refillKind(),
		sensorKind(),
		suspendKind(),
		manualKind(),
		habitKind(),
	}
}
