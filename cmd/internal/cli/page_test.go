package cli_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// livePage writes the page that computes into a folder.
func livePage(t *testing.T) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "yard.html")
	done(t, "page", "--out", name)
	return name
}

func TestPageComputes(t *testing.T) {
	program := browser(t)
	page, folder := livePage(t), t.TempDir()
	b := newTab(t, program, folder, 1280, 900)
	b.open("file://" + page)
	b.until("document.body.dataset.ready")
	b.eval("document.getElementById('sample').click()", nil)
	b.until("document.body.dataset.firstCard")
	var d map[string]string
	b.eval("({...document.body.dataset})", &d)
	t.Log(d)
	for range 12 {
		var dt string
		b.eval("new Promise(r => setTimeout(() => r(document.getElementById('doubt').textContent), 3000))", &dt)
		t.Log(dt)
	}
	if out := os.Getenv("SHOT"); out != "" {
		b.shot(out)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, r := range b.requests {
		if !strings.HasPrefix(r, "file://") && !strings.HasPrefix(r, "blob:") && !strings.HasPrefix(r, "data:") {
			t.Errorf("the page asked for %s", r)
		}
	}
	for _, c := range b.console {
		t.Errorf("on the console: %s", c)
	}
	_ = json.Valid
}
