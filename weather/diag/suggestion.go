package diag

import "strings"

// A Place says where the YAML of a suggestion belongs.
type Place uint8

// The places.
const (
	Value    Place = iota // instead of the value at the error's position
	Key                   // in the group of keys at the error's position
	Strategy              // a key of a strategy, instead of one of that name
	NewFile               // in a file of its own
)

var placeNames = [...]string{"value", "key", "strategy", "new-file"}

func (p Place) String() string { return placeNames[p] }

// MarshalText writes the place as JSON has it.
func (p Place) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// A Suggestion is YAML that a fix offers, ready to paste. One line is part of the
// text of the fix; more lines follow it.
type Suggestion struct {
	Place Place
	YAML  string
	Pos   Pos // where it belongs, if not at the error's position
}

// Suggest adds YAML that the fix offers for a place, and returns e.
func (e *Error) Suggest(at Place, yaml ...string) *Error {
	for _, y := range yaml {
		e.Suggestions = append(e.Suggestions, Suggestion{Place: at, YAML: y})
	}
	return e
}

// SuggestAt is like Suggest for a place at another position.
func (e *Error) SuggestAt(pos Pos, at Place, yaml string) *Error {
	e.Suggestions = append(e.Suggestions, Suggestion{at, yaml, pos})
	return e
}

// Remedy returns the fix with the suggestions of several lines, indented with
// spaces, since YAML allows no tabs.
func (e *Error) Remedy() string {
	text := e.Fix
	for _, s := range e.Suggestions {
		if strings.Contains(s.YAML, "\n") {
			text += "\n    " + strings.ReplaceAll(strings.TrimRight(s.YAML, "\n"), "\n", "\n    ")
		}
	}
	return text
}
