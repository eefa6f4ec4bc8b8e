package layout

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// TestTopLevel checks tracked files only: output that a user's runs leave in the
// folder does not matter.
func TestTopLevel(t *testing.T) {
	out, err := exec.Command("git", "-C", root(t), "ls-files", "-z").Output()
	if err != nil {
		t.Skipf("the list of files needs git: %v", err)
	}
	seen := map[string]bool{}
	for name := range strings.SplitSeq(string(out), "\x00") {
		first, _, _ := strings.Cut(name, "/")
		if first == "" || seen[first] {
			continue
		}
		seen[first] = true
		if !strings.HasPrefix(first, ".") && !slices.Contains(top, first) {
			t.Errorf("%s is at the top level, where only %v and dot-folders may be", first, top)
		}
	}
	for _, name := range top {
		if !seen[name] {
			t.Errorf("%s is missing at the top level", name)
		}
	}
}

func TestFilesStaySmall(t *testing.T) {
	n := 0
	goFiles(t, func(path, text string) {
		n++
		if lines := strings.Count(text, "\n"); lines > 500 {
			t.Errorf("%s has %d lines: split it by purpose below 500", path, lines)
		}
	})
	if n < 50 {
		t.Fatalf("only %d Go files found", n)
	}
}
