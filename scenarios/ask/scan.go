package ask

import "strings"

// space has the characters that may be between the parts of an answer.
const space = " \t\n\f\r"

func skipSpace(text string) string { return strings.TrimLeft(text, space) }

func skipDigits(text string) string { return strings.TrimLeft(text, "0123456789") }

// beginsInWord reports whether a text goes on with a letter of English, a digit or an
// underscore, so that a word before it is not at its end.
func beginsInWord(text string) bool {
	if text == "" {
		return false
	}
	c := text[0]
	return c == '_' || '0' <= c && c <= '9' || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z'
}

// hasWord reports whether a text begins with a word, in any case, and the word ends there.
func hasWord(text, word string) bool {
	return len(text) >= len(word) && strings.EqualFold(text[:len(word)], word) && !beginsInWord(text[len(word):])
}
