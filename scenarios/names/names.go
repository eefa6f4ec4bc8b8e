// Package names compares names as people type them: the same name may come with
// other capitals, spaces, hyphens or forms of accented letters. It is the only
// home of the Unicode normalization library.
package names

import (
	"slices"
	"strings"
	"unicode"
)

// Key returns a name in comparable form: in Unicode form NFKC and lower case,
// without punctuation and spaces. Between two digits they are kept as one space,
// since zone 1-2 is not zone 12.
func Key(name string) string {
	if key, ok := plainKey(name); ok {
		return key
	}
	var out []rune
	gap := false
	for _, r := range compatible(strings.ToLower(compatible(name))) {
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
		return compatible(strings.TrimSpace(name))
	}
	return string(out)
}

// plainKey is [Key] of a name in ASCII, which is its own normal form; most are, and
// catalogs are searched often. ok is unset for any other name.
func plainKey(name string) (key string, ok bool) {
	out, gap := make([]byte, 0, 32), false
	digit := func(c byte) bool { return '0' <= c && c <= '9' }
	for i := range len(name) {
		c := name[i]
		switch {
		case c >= 0x80:
			return "", false
		case 'A' <= c && c <= 'Z':
			c += 'a' - 'A'
		case digit(c) || 'a' <= c && c <= 'z':
		default:
			gap = true
			continue
		}
		if gap && len(out) > 0 && digit(out[len(out)-1]) && digit(c) {
			out = append(out, ' ')
		}
		out, gap = append(out, c), false
	}
	if len(out) == 0 {
		return "", false
	}
	return string(out), true
}

// Words returns the words of a name in comparable form.
func Words(name string) []string {
	return strings.FieldsFunc(strings.ToLower(compatible(name)), func(r rune) bool {
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
