package cli_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// commands returns the names of the commands that help lists.
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
		t.Fatalf("help lists only %q", names)
	}
	return names
}

var (
	flagLine = regexp.MustCompile(`(?m)^ +(?:-(\w), )?(?:    )?--([a-z-]+)`)
	flagWord = regexp.MustCompile(`--[a-z-]+`)
)

// The help of every command has an example to paste, each flag once, and the exit
// codes.
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
					t.Errorf("help %s prints another text:\n%s", name, other)
				}
			}
			for _, want := range []string{
				"Exit status:", "  0    done", "  1    system error",
				"  2    error in the command line", "  3    error in an input file", "  130  interrupted",
			} {
				if strings.Count(text, want) != 1 {
					t.Errorf("%q does not appear once in\n%s", want, text)
				}
			}
			for _, bad := range []string{"NaN", "float", "stringArray", "(default )", "\t"} {
				if strings.Contains(text, bad) {
					t.Errorf("%q in\n%s", bad, text)
				}
			}
			seen := map[string]bool{}
			for _, m := range flagLine.FindAllStringSubmatch(text, -1) {
				for _, f := range m[1:] {
					if f != "" && seen[f] {
						t.Errorf("flag %s appears twice", f)
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

// Lines of help fit in 100 columns, so that a terminal breaks no word.
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
