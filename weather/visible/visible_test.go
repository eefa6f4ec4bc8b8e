package visible

import (
	"encoding/json"
	"strings"
	"testing"
)

// Every way of parting the text gives the same.
func TestWriter(t *testing.T) {
	for in, want := range map[string]string{
		"plain é €, 𝄞\tand\n":           "plain é €, 𝄞\tand\n",
		"\x1b[31mred\x07\x00\x7f\r":     `\u001b[31mred\u0007\u0000\u007f\u000d`,
		"c1 \u009b31m \u0085":           `c1 \u009b31m \u0085`,
		"a\u202eb\u2066c\u2028\u200f":   `a\u202eb\u2066c\u2028\u200f`,
		"bad \x9b31m \xff end\xe2\x82":  "bad \ufffd31m \ufffd end\ufffd",
		"joined \u200d and \u200c stay": "joined \u200d and \u200c stay",
	} {
		for at := range len(in) + 1 {
			var b strings.Builder
			w := NewWriter(&b)
			for _, part := range []string{in[:at], in[at:]} {
				if n, err := w.Write([]byte(part)); n != len(part) || err != nil {
					t.Fatal(n, err)
				}
			}
			if err := w.Close(); err != nil {
				t.Fatal(err)
			}
			if strings.HasSuffix(in, "\xe2\x82") && strings.HasSuffix(b.String(), "\ufffd") {
				continue // how many marks stand for the begin of a character does not matter
			}
			if b.String() != want {
				t.Errorf("%q at %d: %q, want %q", in, at, b.String(), want)
			}
		}
	}
}

// JSON stays JSON, with the same meaning.
func TestJSONKeepsItsMeaning(t *testing.T) {
	const text = "a\u202eb\u009bc\x7f"
	data, err := json.Marshal(text)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if _, err := NewWriter(&b).Write(data); err != nil {
		t.Fatal(err)
	}
	var back string
	if err := json.Unmarshal([]byte(b.String()), &back); err != nil || back != text {
		t.Errorf("%q became %q (%v)", text, back, err)
	}
}
