package layout

import (
	"os"
	"slices"
	"strings"
	"testing"
)

func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(root(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && !slices.Contains(top, e.Name()) {
			t.Errorf("%s stands at the top level, where only %v and dot-folders do", e.Name(), top)
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
