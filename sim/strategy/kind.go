package strategy

import (
	"slices"

	"loamledger/weather/quantity"
)

// A Param describes one parameter of a kind of part, to the reader of
// scenarios, to the help and to the report.
type Param struct {
	Field    // where the value goes; its form and dimension come with it
	Key      string
	Required bool
	Default  float64 // in base units, or 0 and 1 for a Flag; for Quantity, Number, Flag and ClockTime
	Word     string  // default of a Choice; for others, how the default is described if it is not a number
	Choices  []string
	Min, Max float64 // inclusive range in base units, for Quantity and Number
	Doc      string
	Grade    quantity.Grade // how far the default can be trusted; Given only when Required
	Source   string         // where the default is from; empty only when Required
	Off      bool           // the default leaves a feature out and assumes nothing about the site
	Always   bool           // written to a scenario even at its default
}

// A Kind describes one kind of part and says what its parts are to everyone who
// handles strategies; see [Spec], from which it is made. Key is its place in a
// strategy of a scenario; a dot means nesting, so that "hold.rain" is the key
// rain under skip. A kind whose only parameter has the empty Key takes its value
// directly, as in "monthly: [0, 0, 40, ...]".
type Kind struct {
	Key     string
	Doc     string // one sentence
	Example string // YAML that can be pasted into a strategy
	Params  []Param
	Many    bool // the value may be a list, each entry of which makes a part

	yaml     YAMLForm
	blank    func() *Blank
	values   func(Part) []Param
	sheet    func(Part, *Site) SheetEntry
	copied   func(Part) CopyEntry
	lines    func(Part, []string, quantity.System) []string
	warnings func(Part, []string) Warnings
	record   func(Part, *Site) string
	unsaid   []string
}

// A Spec is all there is to say of a kind whose parts are kept in an S; the part
// itself is an S or a *S. A field left empty is an [UnsaidError] at the place
// that asks for it. Where a question does not apply, a named value says so.
type Spec[S any] struct {
	Key, Doc, Example string // as in Kind
	Many              bool
	Params            func(p *S) []Param // bound to the fields of p

	// Sheet says what the part is on a settings sheet; OnController.
	Sheet func(p *S, site *Site) SheetEntry
	// Copy says what becomes of it on a sheet that follows what was applied; Kept
	// or Replaced.
	Copy func(p *S) CopyEntry
	// Lines puts the part in words, at least one line.
	Lines func(p *S, zones []string, sys quantity.System) []string
	// YAML says how it is written to a scenario.
	YAML YAMLForm
	// Conflicts are contradictions in itself and with other parts; NoConflicts.
	Conflicts func(p *S, given Given) Conflicts
	// Warnings are what can be warned of before the weather is known; NoWarnings.
	Warnings func(p *S, zones []string) Warnings
	// Record is what it has to report of a weather record, "" for nothing;
	// NothingOfRecord.
	Record func(p *S, site *Site) string
}

// Kind makes the kind. It panics where parameters contradict themselves, which
// a test over all kinds would find.
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
		{s.Sheet == nil, onSheet}, {s.Copy == nil, onCopy}, {s.Lines == nil, inWords}, {s.YAML == YAMLUnsaid, inYAML},
		{s.Conflicts == nil, ofConflicts}, {s.Warnings == nil, ofWarnings}, {s.Record == nil, ofRecord},
	} {
		if q.missing {
			k.unsaid = append(k.unsaid, q.what)
		}
	}
	return k
}

// Unsaid lists the questions that the kind leaves open; a test asks it of all.
func (k Kind) Unsaid() []string { return slices.Clone(k.unsaid) }

// asPart returns what p holds as a part: by value where the value is one.
func asPart[S any](p *S) Part {
	if part, ok := any(*p).(Part); ok {
		return part
	}
	return any(p).(Part)
}

// held returns what a part holds.
func held[S any](p Part) *S {
	switch p := any(p).(type) {
	case S:
		return &p
	case *S:
		return p
	}
	panic("strategy: a part gives the kind of another as its own")
}

func checkParams(params []Param) {
	keys, fields := map[string]bool{}, map[any]bool{}
	for _, p := range params {
		switch {
		case p.set == nil || p.get == nil || p.at == nil:
			panic("strategy: a parameter is bound to no field")
		case fields[p.at]:
			panic("strategy: two parameters are bound to one field")
		case keys[p.Key] || p.Key == "" && len(params) > 1:
			panic("strategy: a parameter has no key of its own")
		case p.Type == Choice && (len(p.Choices) == 0 || !p.Required && !slices.Contains(p.Choices, p.Word)):
			panic("strategy: the default of a parameter is not among its choices")
		}
		keys[p.Key], fields[p.at] = true, true
	}
}

// A Blank is a part whose parameters are being filled in.
type Blank struct {
	Key    string // of the kind
	Params []Param

	given     map[any]bool
	part      func() Part
	conflicts func(Given) Conflicts // nil if unsaid
}

// Blank returns an empty part of the kind.
func (k Kind) Blank() *Blank { return k.blank() }

// Set fills in parameter i of Params.
func (b *Blank) Set(i int, v Value) {
	b.Params[i].set(v)
	b.given[b.Params[i].at] = v.Given
}

// Part returns the part, once all parameters are set.
func (b *Blank) Part() Part { return b.part() }

// Conflicts asks the part, all parameters set, for its contradictions.
func (b *Blank) Conflicts() (Conflicts, error) {
	if b.conflicts != nil {
		c := b.conflicts(func(field any) bool {
			given, ok := b.given[field]
			if !ok {
				panic("strategy: a part asks for a field that no parameter is bound to")
			}
			return given
		})
		if c.Checked {
			return c, nil
		}
	}
	return Conflicts{}, &UnsaidError{b.Key, ofConflicts}
}

// Kinds returns every kind of part, in the order help lists them. This is the
// one place where a new part is registered.
func Kinds() []Kind {
	return []Kind{
		programsKind(),
		monthlyKind(),
		roundKind(),
		etPercentKind(),
		zonePercentKind(),
		habitKind(),
		rainHoldKind(),
		frostHoldKind(),
		windHoldKind(),
		forecastHoldKind(),
		seasonKind(),
		suspendKind(),
		manualKind(),
		refillKind(),
		sensorKind(),
	}
}
