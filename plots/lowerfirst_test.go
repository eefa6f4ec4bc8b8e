package plots

import "testing"

// TestLowerFirst: a sentence within another begins small; a quotation mark, which
// has several bytes, stays whole.
func TestLowerFirst(t *testing.T) {
	for sentence, want := range map[string]string{
		"No option saves.": "no option saves.", "“Summer” saves.": "“Summer” saves.", "Éclair saves.": "éclair saves.",
	} {
		if got := lowerFirst(sentence); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
