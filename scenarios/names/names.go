// Package names compares names as people type them: the same name may come with
// other capitals, spaces, hyphens or forms of accented letters. It is the only
// home of the Unicode normalization library.
package names

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Key returns a name in comparable form: in Unicode form NFKC and lower case,
// without punctuation and spaces. Between two digits they are kept as one space,
// since zone 1-2 is not zone 12.
func Key(name string) string {
	var out []rune
	gap := false
	for _, r := range norm.NFKC.String(strings.ToLower(norm.NFKC.String(name))) {
		if !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r) {
			gap = true
			continue
		}
		if gap && len(out) > 0 && unicode.IsNumber(out[len(out)-1]) && unicode.IsNumber(r) {
			out = append(out, ' ')
		}
		out, gap = append(out, r), false
	}
	if len(out) == 0 { // nothing but punctuation
		return norm.NFKC.String(strings.TrimSpace(name))
	}
	return string(out)
}

// Words returns the words of a name in comparable form.
func Words(name string) []string {
	return strings.FieldsFunc(strings.ToLower(norm.NFKC.String(name)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r) && r != '\''
	})
}

// Find returns the index of the known name that name means: the same text, or
// else the only one with the same [Key]; -1 for none.
func Find(name string, known []string) int {
	name = strings.TrimSpace(name)
	if i := slices.Index(known, name); i >= 0 {
		return i
	}
	key, at := Key(name), -1
	for i, k := range known {
		if Key(k) != key || k == "" {
			continue
		}
		if at >= 0 {
			return -1
		}
		at = i
	}
	return at
}
