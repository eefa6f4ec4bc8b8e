package strategy

import (
	"fmt"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// An UnsaidError reports a kind of part with an incomplete [Spec]: an error in
// loamledger, not in a scenario.
type UnsaidError struct{ Key, What string }

func (e *UnsaidError) Error() string {
	return fmt.Sprintf("strategy part %q does not define %s (an error in loamledger, not in the scenario)", e.Key, e.What)
}

// The questions that a kind can leave open.
const (
	onSheet     = "its entry on a settings sheet"
	onCopy      = "what happens to it on a sheet derived from applied water"
	inWords     = "its description"
	inPlain     = "its description in plain words"
	inYAML      = "its YAML form"
	ofConflicts = "its conflicts"
	ofWarnings  = "its warnings"
	ofRecord    = "what it reports about a record"
)

// A SheetUse says how a part appears on a settings sheet.
type SheetUse uint8

// The uses. The zero SheetUse is an error.
const (
	SheetUnsaid SheetUse = iota
	Entered              // its programs and percentages are on the sheet
	ByItself             // the controller or a sensor does it; the sheet prints the part's lines
	NotEntered           // not on the sheet; Note says why
	NoSheet              // no sheet is possible: there are no fixed run times
)

// A SheetEntry is what a part adds to a settings sheet.
type SheetEntry struct {
	Use      SheetUse
	Programs []Program    // to enter
	Months   *[12]float64 // factors on all run times by calendar month, January first; nil for none
	Zones    []float64    // factors by zone, NaN for none; nil if no zone has one
	Most     float64      // highest factor that the weather can apply to run times; 0 for none
	Note     string       // a sentence, for NotEntered
	Part     Part         // the part as the record settles it, for ByItself; nil for the part itself
}

// onController is the Sheet of a part that the controller or a sensor does itself.
func onController[S any](*S, *Site) SheetEntry { return SheetEntry{Use: ByItself} }

// OnSheet returns the part's entry on a settings sheet. It uses Zones, Weather and
// Calendar of the site. The error is an [*UnsaidError].
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

// A CopyUse says what happens to a part on a sheet derived from the water that its
// strategy applied on average.
type CopyUse uint8

// The uses. The zero CopyUse is an error.
const (
	CopyUnsaid  CopyUse = iota
	ReplacedUse         // its effect is already in the applied water
	KeptUse             // the controller still does it, on top of the sheet
)

// A CopyEntry is what a part adds to such a sheet.
type CopyEntry struct {
	Use               CopyUse
	CycleMin, SoakMin float64 // cycle and soak of the zones in Zones; CycleMin 0 for none [min]
	Zones             []bool  // by zone
	// MAD is the depletion at which the part waters the zones in Zones, as a share
	// of TAW, and Extra its extra run time for uneven coverage, below 0 for the
	// usual rule; MAD is 0 for a part that has none.
	MAD, Extra float64
}

// replaced is the Copy of a part whose effect is in the applied water.
func replaced[S any](*S) CopyEntry { return CopyEntry{Use: ReplacedUse} }

// Kept is the Copy of a part that the controller still does.
func Kept[S any](*S) CopyEntry { return CopyEntry{Use: KeptUse} }

// OnCopy returns what happens to the part on a sheet derived from applied water.
// The error is an [*UnsaidError].
func OnCopy(p Part) (CopyEntry, error) {
	k := p.Kind()
	if k.copied != nil {
		if e := k.copied(p); e.Use != CopyUnsaid {
			return e, nil
		}
	}
	return CopyEntry{}, &UnsaidError{k.Key, onCopy}
}

// Lines describes a part in one or more lines; zones are the names of the zones.
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

// A YAMLForm says how a part is written to a scenario.
type YAMLForm uint8

// The forms. The zero YAMLForm is an error.
const (
	YAMLUnsaid YAMLForm = iota
	FromParams          // its parameters by key: required ones, those with Always, and those that differ from the default
)

// Written returns the kind of a part and its parameters with their values, for
// writing to a scenario. The error is an [*UnsaidError].
func Written(p Part) (Kind, []Param, error) {
	k := p.Kind()
	if k.yaml != FromParams {
		return k, nil, &UnsaidError{k.Key, inYAML}
	}
	return k, k.values(p), nil
}

// Given reports whether the parameter of a field, identified by a pointer to the
// field, was given rather than defaulted. It panics if no parameter has it.
type Given func(field any) bool

// Conflicts lists the conflicts of a part.
type Conflicts struct {
	Checked bool // false is an error
	Claim   *Claim
	Faults  []Contradiction
}

// A Claim is the zones that a part needs for itself. Parts are checked in the
// order of [Kinds].
type Claim struct {
	Zones   []bool     // by zone
	Twice   *Collision // with another part of the same kind; nil if zones can be shared
	Against []Collision
}

// A Collision is a conflict of two parts over a zone.
type Collision struct {
	Key  string // of the other kind
	Text string // such as "two refills water", followed by "zone" and its name
	Fix  string // what to change in the scenario
}

// A Contradiction is a set of parameters that conflict or have no effect.
type Contradiction struct {
	Code      diag.Code // of the error, such as [diag.NoEffect]
	Text, Fix string
}

// noConflicts is the Conflicts of a part that conflicts with nothing.
func noConflicts[S any](*S, Given) Conflicts { return Conflicts{Checked: true} }

// contradiction returns one conflict if is holds, and none otherwise.
func contradiction(is bool, code diag.Code, fix, format string, args ...any) Conflicts {
	c := Conflicts{Checked: true}
	if is {
		c.Faults = []Contradiction{{code, fmt.Sprintf(format, args...), fix}}
	}
	return c
}

// Warnings lists what is valid but possibly unintended, and what the checks of the
// whole scenario need to know about a part.
type Warnings struct {
	Checked      bool     // false is an error
	Texts        []string // each a sentence without a capital and a period
	Waters       []bool   // by zone: whether the part waters it; nil for none
	SiteForecast bool     // the part uses the site's forecast
	// Rain says which of the site's forecasts count as rain; nil unless
	// SiteForecast is set.
	Rain *RainRule
	// Tmin names what to remove if the record has no minimum temperatures, such as
	// "hold: {frost: ...}"; empty if the part does not need them.
	Tmin string
}

// A RainRule says which forecasts count as rain.
type RainRule struct {
	AtLeastMM      float64
	MinProbability float64 // 0 to 1; it counts only if the forecast has one
	Days           int     // days to look ahead, including today
}

// noWarnings is the Warnings of a part that waters nothing, uses no forecast and
// has no warnings.
func noWarnings[S any](*S, []string) Warnings { return Warnings{Checked: true} }

// WarningsOf returns the warnings of a part; zones are the names of the zones. The
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

// nothingOfRecord is the Record of a part that reports nothing about records.
func nothingOfRecord[S any](*S, *Site) string { return "" }

// Describe returns what the parts of the strategy report once the weather is
// known, such as derived percentages, one sentence each. The error is an
// [*UnsaidError].
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
