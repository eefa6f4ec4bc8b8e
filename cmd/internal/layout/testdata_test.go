package layout

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
)

// Every file in testdata is listed, with its origin, in the README of its folder
// or of one above.
func TestEveryTestFileIsListed(t *testing.T) {
	top := filepath.Join(root(t), "testdata")
	readme := func(dir string) string {
		text, err := os.ReadFile(filepath.Join(top, filepath.FromSlash(dir), "README.md"))
		if err != nil {
			return ""
		}
		return string(text)
	}
	err := fs.WalkDir(os.DirFS(top), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || path.Base(name) == "README.md" {
			return err
		}
		listed := false
		for dir := path.Dir(name); ; dir = path.Dir(dir) {
			listed = listed || strings.Contains(readme(dir), path.Base(name))
			if dir == "." {
				break
			}
		}
		if !listed {
			t.Errorf("testdata/%s is not in a README: add its origin and terms", name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
