package cli

import (
	"runtime/debug"
	"strings"
	"testing"
)

func TestVersionSaysWhatItKnows(t *testing.T) {
	info := &debug.BuildInfo{
		Settings: []debug.BuildSetting{{Key: "vcs.revision", Value: "0123abc"}, {Key: "vcs.time", Value: "2026-03-01T10:00:00Z"},
			{Key: "vcs.modified", Value: "true"}, {Key: "GOOS", Value: "plan9"}},
		Deps: []*debug.Module{{Path: "example.org/a", Version: "v1.2.3", Sum: "h1:x"},
			{Path: "example.org/b", Version: "v1.0.0", Replace: &debug.Module{Path: "example.org/c", Version: "v2.0.0"}}},
	}
	b := builtFrom(info)
	if b.Revision != "0123abc" || !b.Modified || len(b.Modules) != 2 || b.Modules[0] != (builtModule{"example.org/a", "v1.2.3", "h1:x"}) ||
		b.Modules[1].Path != "example.org/c" {
		t.Errorf("%+v", b)
	}
	text := strings.Join(b.lines(), "\n")
	for _, want := range []string{"loamledger " + Version, "0123abc of 2026-03-01T10:00:00Z, with changes", b.Go, "modules  2"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	none := builtFrom(nil)
	if text := strings.Join(none.lines(), "\n"); none.Modules == nil || !strings.Contains(text, "not stated") {
		t.Errorf("%+v\n%s", none, text)
	}
}
