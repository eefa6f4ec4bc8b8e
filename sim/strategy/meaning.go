package strategy

import (
	"fmt"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// An UnsaidError is that of a kind of part which does not say what it is to one
// of those who handle strategies: a mistake of this program, not of a scenario.
type UnsaidError struct{ Key, What string }

func (e *UnsaidError) Error() string {
	return fmt.Sprintf("part %q of a strategy does not say %s (an error in loamledger, not in the scenario)", e.Key, e.What)
}

// What a kind can leave unsaid.
const (
	onSheet     = "what it is on a settings sheet"
	onCopy      = "what becomes of it on a sheet that follows what was applied"
	inWords     = "how it is put in words"
	inYAML      = "how it is written to a scenario"
	ofConflicts = "what it conflicts with"
	ofWarnings  = "what to warn of"
	ofRecord    = "what it has to tell of a record"
)

// A SheetUse is what a part is on a settings sheet.
type SheetUse uint8

// The uses. The zero SheetUse says nothing and is an error.
const (
	SheetUnsaid SheetUse = iota
	Entered              // its programs and percentages are entered
	ByItself             // controller or sensor do it; the sheet tells it in the part's lines
	NotEntered           // not on the sheet; Note says why
	NoSheet              // no sheet can be made: there are no minutes to enter
)

// A SheetEntry is what a part brings to a settings sheet.
type SheetEntry struct {
	Use      SheetUse
	Programs []Program    // to enter
	Months   *[12]float64 // factors on all minutes by calendar month, January first; nil for none
	Zones    []float64    // factors by zone, NaN for none; nil for none at all
	Most     float64      // highest factor that the weather may put on minutes; 0 for none
	Note     string       // a sentence, for NotEntered
}

// OnController is the Sheet of a part that controller or sensor do by themselves.
func OnController[S any](*S, *Site) SheetEntry { return SheetEntry{Use: ByItself} }

// OnSheet asks a part what it brings to a settings sheet of a site, of which
// Zones, Weather and Calendar are used. The error is an [*UnsaidError].
func OnSheet(p Part, site *Site) (SheetEntry, error) {
	k := p.Kind()
	if k.sheet != nil {
		e := k.sheet(p, site)
		if e.Use != SheetUnsaid && (e.Use != NotEntered || e.Note != "") {
			return e, nil
		}
	}
	return SheetEntry{}, &UnsaidError{k.Key, onSheet}
}

// A CopyUse is what becomes of a part when a sheet is drawn from what its
// strategy applied on average.
type CopyUse uint8

// The uses. The zero CopyUse says nothing and is an error.
const (
	CopyUnsaid  CopyUse = iota
	ReplacedUse         // what it did is in what was applied, which the sheet follows
	KeptUse             // the controller still does it, under the sheet
)

// A CopyEntry is what a part brings to such a sheet.
type CopyEntry struct {
	Use               CopyUse
	CycleMin, SoakMin float64 // cycles that the zones of Zones are to have; CycleMin 0 for none [min]
	Zones             []bool  // by zone
}

// Replaced is the Copy of a part whose doing is in what was applied.
func Replaced[S any](*S) CopyEntry { return CopyEntry{Use: ReplacedUse} }

// Kept is the Copy of a part that the controller still does under the sheet.
func Kept[S any](*S) CopyEntry { return CopyEntry{Use: KeptUse} }

// OnCopy asks a part what becomes of it on a sheet that follows what was
// applied. The error is an [*UnsaidError].
func OnCopy(p Part) (CopyEntry, error) {
	k := p.Kind()
	if k.copied != nil {
		if e := k.copied(p); e.Use != CopyUnsaid {
			return e, nil
		}
	}
	return CopyEntry{}, &UnsaidError{k.Key, onCopy}
}

// Lines puts a part in words, a line or more; zones are the names of the zones.
// The error is an [*UnsaidError].
func Lines(p Part, zones []string, sys quantity.System) ([]string, error) {
	k := p.Kind()
	if k.lines != nil {
		if lines := k.lines(p, zones, sys); len(lines) > 0 && lines[0] != "" {
			return lines, nil
		}
	}
	return nil, &UnsaidError{k.Key, inWords}
}

// A YAMLForm is how a part is written to a scenario.
type YAMLForm uint8

// The forms. The zero YAMLForm says nothing and is an error.
const (
	YAMLUnsaid YAMLForm = iota
	FromParams          // its parameters by key: those required, those with Always, those not at their default
)

// Written returns the kind of a part and its parameters with their values, to be
// written to a scenario. The error is an [*UnsaidError].
func Written(p Part) (Kind, []Param, error) {
	k := p.Kind()
	if k.yaml != FromParams {
		return k, nil, &UnsaidError{k.Key, inYAML}
	}
	return k, k.values(p), nil
}

// Given reports whether the parameter bound to a field, told by a pointer to
// it, was given, so that the default does not hold. It panics where no
// parameter is bound to it.
type Given func(field any) bool

// Conflicts are what speaks against a part.
type Conflicts struct {
	Checked bool // false says nothing and is an error
	Claim   *Claim
	Faults  []Contradiction
}

// A Claim is zones that a part takes for itself. Parts are asked in the order of
// [Kinds].
type Claim struct {
	Zones   []bool     // by zone
	Twice   *Collision // with another part of the same kind; nil if zones may be taken twice
	Against []Collision
}

// A Collision is two parts that take the same zone.
type Collision struct {
	Key  string // of the other kind
	Text string // such as "two refills water", before "zone" and its name
	Fix  string // what to do, for the person who wrote the scenario
}

// A Contradiction is parameters that contradict each other or do nothing.
type Contradiction struct {
	Code      diag.Code // of the fault, such as [diag.NoEffect]
	Text, Fix string
}

// NoConflicts is the Conflicts of a part that gets along with all others.
func NoConflicts[S any](*S, Given) Conflicts { return Conflicts{Checked: true} }

// contradiction returns conflicts of the one fault, or none where there is none.
func contradiction(is bool, code diag.Code, fix, format string, args ...any) Conflicts {
	c := Conflicts{Checked: true}
	if is {
		c.Faults = []Contradiction{{code, fmt.Sprintf(format, args...), fix}}
	}
	return c
}

// Warnings are what is read without a fault and may not be meant, and what the
// scenario as a whole must know of a part to warn of.
type Warnings struct {
	Checked      bool     // false says nothing and is an error
	Texts        []string // each a sentence without capital and full stop
	Waters       []bool   // by zone: those that the part waters; nil for none
	SiteForecast bool     // the part acts on the forecast of the site
}

// NoWarnings is the Warnings of a part that waters nothing, asks for no forecast
// and has nothing to warn of.
func NoWarnings[S any](*S, []string) Warnings { return Warnings{Checked: true} }

// WarningsOf asks a part what to warn of; zones are the names of the zones. The
// error is an [*UnsaidError].
func WarningsOf(p Part, zones []string) (Warnings, error) {
	k := p.Kind()
	if k.warnings != nil {
		if w := k.warnings(p, zones); w.Checked {
			return w, nil
		}
	}
	return Warnings{}, &UnsaidError{k.Key, ofWarnings}
}

// NothingOfRecord is the Record of a part that has nothing to tell of any record.
func NothingOfRecord[S any](*S, *Site) string { return "" }

// Describe returns what the parts of the strategy have to tell once the weather
// of a site is known, such as percentages as they came out, one sentence each.
// The error is an [*UnsaidError].
func (st *Strategy) Describe(site *Site) ([]string, error) {
	var out []string
	for _, p := range st.Parts {
		k := p.Kind()
		if k.record == nil {
			return nil, &UnsaidError{k.Key, ofRecord}
		}
		if text := k.record(p, site); text != "" {
			out = append(out, text)
		}
	}
	return out, nil
}
