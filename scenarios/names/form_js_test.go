package names

import (
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// The browser's form of each letter, number and mark, alone and after a letter, is that
// of the library. Unicode never changes the form of a character that it has.
func TestFormIsThatOfTheLibrary(t *testing.T) {
	var list []string
	for r := rune(0x80); r <= unicode.MaxRune; r++ {
		if unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsMark(r) {
			list = append(list, string(r), "e"+string(r)+"\u0301")
		}
	}
	formed := strings.Split(compatible(strings.Join(list, "\n")), "\n")
	for i, text := range list {
		if got, want := formed[i], norm.NFKC.String(text); got != want {
			t.Errorf("%q: %q, not %q", text, got, want)
		}
	}
}
