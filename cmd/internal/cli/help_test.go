package cli_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// commands returns the names that help lists.
func commands(t *testing.T) []string {
	t.Helper()
	_, list, ok := strings.Cut(done(t, "--help"), "Available Commands:\n")
	if !ok {
		t.Fatal("help lists no commands")
	}
	list, _, _ = strings.Cut(list, "\n\n")
	var names []string
	for line := range strings.Lines(list) {
		names = append(names, strings.Fields(line)[0])
	}
	if len(names) < 8 {
		t.Fatalf("help lists %q only", names)
	}
	return names
}

var (
	flagLine = regexp.MustCompile(`(?m)^ +(?:-(\w), )?(?:    )?--([a-z-]+)`)
	flagWord = regexp.MustCompile(`--[a-z-]+`)
)

// Help of every command has an example that can be pasted, its flags once
// each, and the exit statuses.
func TestHelp(t *testing.T) {
	names := commands(t)
	for _, name := range append([]string{""}, names...) {
		args := []string{"--help"}
		if name != "" {
			args = []string{name, "--help"}
		}
		t.Run("loamledger "+name, func(t *testing.T) {
			text := done(t, args...)
			if name != "" && name != "help" {
				if other := done(t, "help", name); other != text {
					t.Errorf("help %s says otherwise:\n%s", name, other)
				}
			}
			for _, want := range []string{"Exit status:", "  3    error in an input file", "  130  interrupted"} {
				if strings.Count(text, want) != 1 {
					t.Errorf("%q does not stand once in\n%s", want, text)
				}
			}
			for _, bad := range []string{"NaN", "float", "stringArray", "\t"} {
				if strings.Contains(text, bad) {
					t.Errorf("%q in\n%s", bad, text)
				}
			}
			seen := map[string]bool{}
			for _, m := range flagLine.FindAllStringSubmatch(text, -1) {
				for _, f := range m[1:] {
					if f != "" && seen[f] {
						t.Errorf("flag %s stands twice", f)
					}
					seen[f] = true
				}
			}
			_, example, ok := strings.Cut(text, "Examples:\n")
			if !ok {
				t.Fatalf("no example in\n%s", text)
			}
			example, _, _ = strings.Cut(example, "\n\n")
			for line := range strings.Lines(example) {
				words := strings.Fields(line)
				if len(words) < 2 || words[0] != "loamledger" || !slices.Contains(names, words[1]) {
					t.Errorf("no such command: %s", line)
				}
				for _, f := range flagWord.FindAllString(line, -1) {
					if words[1] == name && !seen[f[2:]] {
						t.Errorf("the example uses %s, which help does not list", f)
					}
				}
			}
		})
	}
}

// Lines of help fit a window of 100 columns, so that nothing is broken in the
// middle of a word.
func TestHelpFitsTheWindow(t *testing.T) {
	for _, name := range commands(t) {
		for line := range strings.Lines(done(t, "help", name)) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 100 {
				t.Errorf("help %s: %d columns: %s", name, n, line)
			}
		}
	}
}

func TestVersion(t *testing.T) {
	if out := done(t, "--version"); !regexp.MustCompile(`^loamledger version \d+\.\d+\.\d+\n$`).MatchString(out) {
		t.Errorf("got %q", out)
	}
}
