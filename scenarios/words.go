package scenarios

import (
	"fmt"
	"strings"

	"loamledger/weather/diag"
)

// quoted shortens and quotes a text from a file for a message.
func quoted(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return fmt.Sprintf("%q", s)
}

// listed joins words for a message: "a, b or c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// didYouMean is the fix for an unknown word: the nearest known word, the known
// words that contain it, or all of them.
func (b *builder) didYouMean(word string, known []string) string {
	if b.faults.Len() >= diag.Most {
		return "" // it would not be shown, and a hostile file could ask for many
	}
	if near := nearest(word, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near) + knownToo(known)
	}
	var holding []string
	if w := strings.ToLower(strings.TrimSpace(word)); len(w) >= 3 {
		for _, k := range known {
			if strings.Contains(strings.ToLower(k), w) {
				holding = append(holding, fmt.Sprintf("%q", k))
			}
		}
	}
	if len(holding) > 0 && len(holding) < 6 {
		return "did you mean " + listed(holding) + "?"
	}
	return "write one of: " + parted(known)
}

// knownToo adds the known words if the list is short.
func knownToo(known []string) string {
	if text := parted(known); len(known) > 1 && len(text) < 100 {
		return " Valid: " + text
	}
	return ""
}

// parted joins words, with semicolons if a word has a comma.
func parted(words []string) string {
	for _, w := range words {
		if strings.Contains(w, ",") {
			return strings.Join(words, "; ")
		}
	}
	return strings.Join(words, ", ")
}
