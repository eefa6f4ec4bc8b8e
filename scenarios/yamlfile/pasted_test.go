package yamlfile

import (
	"errors"
	"io"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/weather/diag"
)

// Pasted checks every suggestion of every error in a scenario: it parses, it is in
// the text of the error, and pasted where it belongs it removes the error. It
// returns how many there were.
func Pasted(t *testing.T, text string) (n int) {
	t.Helper()
	for _, e := range errorsOf(text) {
		if offers(e.Fix) && len(e.Suggestions) == 0 {
			t.Errorf("YAML in the fix of an error is not a suggestion:\n%v", e)
		}
		for _, s := range e.Suggestions {
			n++
			if !strings.Contains(e.Remedy(), strings.ReplaceAll(s.YAML, "\n", "\n    ")) || strings.Contains(e.Remedy(), "\t") {
				t.Errorf("the error does not show %q, indented with spaces:\n%v", s.YAML, e)
			}
			if _, err := Tree(strings.NewReader(s.YAML), "suggestion"); err != nil {
				t.Errorf("%q does not parse: %v", s.YAML, err)
				continue
			}
			pasted := paste(t, text, e, s)
			if pasted == "" {
				continue
			}
			for _, left := range errorsOf(pasted) {
				if left.Code == diag.BadSyntax || left.Code == e.Code && left.Msg == e.Msg && s.Place != diag.Strategy {
					t.Errorf("after pasting %q for\n%v\nthere is still\n%v\nin\n%s", s.YAML, e, left, pasted)
				}
			}
		}
	}
	return n
}

// offers reports whether a fix has a key with its value, a list or a group. A fix
// for an old key shows values as an ellipsis.
func offers(fix string) bool {
	if strings.Contains(fix, "…") {
		return false
	}
	for _, m := range regexp.MustCompile(`(?:^|[ "(])([a-z_]+): \S|[\[{]`).FindAllStringSubmatch(fix, -1) {
		if !slices.Contains([]string{"of", "keys", "it", "columns", "unit"}, m[1]) {
			return true
		}
	}
	return false
}

func errorsOf(text string) []*diag.Error {
	_, err := Read(strings.NewReader(text), "yard.yaml", func(string) (io.ReadCloser, error) { return nil, fs.ErrNotExist })
	var out []*diag.Error
	var add func(error)
	add = func(err error) {
		if joined, ok := err.(interface{ Unwrap() []error }); ok {
			for _, e := range joined.Unwrap() {
				add(e)
			}
			return
		}
		var many *diag.Errors
		if errors.As(err, &many) {
			out = append(out, many.List...)
		}
	}
	add(err)
	return out
}

// paste puts a suggestion in the text as a person would.
func paste(t *testing.T, text string, e *diag.Error, s diag.Suggestion) string {
	t.Helper()
	pos := e.Pos
	if s.Pos.Line > 0 {
		pos = s.Pos
	}
	switch s.Place {
	case diag.NewFile:
		return ""
	case diag.Strategy:
		text = strings.TrimRight(text, "\n") + "\n  - name: pasted\n    like: as found\n    "
		return text + strings.ReplaceAll(s.YAML, "\n", "\n    ") + "\n"
	}
	lines := strings.Split(text, "\n")
	line := lines[pos.Line-1]
	before, at := line[:pos.Col-1], line[pos.Col-1:]
	switch {
	case s.Place == diag.Key && strings.HasPrefix(at, "{"):
		lines[pos.Line-1] = before + "{" + s.YAML + ", " + at[1:]
	case s.Place == diag.Key:
		lines[pos.Line-1] = before + s.YAML + "\n" + strings.Repeat(" ", pos.Col-1) + at
	default:
		lines[pos.Line-1] = before + s.YAML + at[extent(t, at, strings.Count(before, "{")+strings.Count(before, "[")):]
	}
	return strings.Join(lines, "\n")
}

// extent returns the length of the value at the start of a text; inside brackets it
// ends at a comma or a bracket.
func extent(t *testing.T, text string, depth int) int {
	t.Helper()
	open := 0
	for i, r := range text {
		switch {
		case (r == '"' || r == '\'') && i == 0:
			return 2 + strings.IndexRune(text[1:], r)
		case r == '{' || r == '[':
			open++
		case (r == '}' || r == ']') && open > 0:
			if open--; open == 0 {
				return i + 1
			}
		case open == 0 && depth > 0 && strings.ContainsRune(",}]", r), open == 0 && strings.HasPrefix(text[i:], " #"):
			return i
		}
	}
	return len(text)
}

// A scenario in which every suggestion is wanted, in parts that the other tests of
// errors do not break.
func TestTreeOfSuggestion(t *testing.T) {
	for text, want := range map[string]scenarios.NodeKind{"[mon, thu]": scenarios.List, "05-01": scenarios.Scalar,
		"season: {start: 05-01, end: 10-15}": scenarios.Map, `"05:30"`: scenarios.Scalar} {
		if n, err := Tree(strings.NewReader(text), "x"); err != nil || n.Kind != want {
			t.Errorf("%q: %+v, %v", text, n, err)
		}
	}
}
