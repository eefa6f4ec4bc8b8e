package layout

import (
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

// A listed is what the go command reports about a package.
type listed struct {
	ImportPath, Dir                    string
	GoFiles                            []string
	Imports, TestImports, XTestImports []string
	Error                              *struct{ Err string }
}

// root finds the folder of go.mod.
func root(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the working folder")
		}
		dir = up
	}
}

// list asks the go command for all packages of the project, once.
var list = sync.OnceValues(func() (map[string]*listed, error) {
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Dir,GoFiles,Imports,TestImports,XTestImports,Error", module+"...")
	out, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	pkgs := map[string]*listed{}
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return pkgs, nil
		} else if err != nil {
			return nil, err
		}
		pkgs[strings.TrimPrefix(p.ImportPath, module)] = &p
	}
})

// packages returns all packages by path, without the module.
func packages(t *testing.T) map[string]*listed {
	t.Helper()
	pkgs, err := list()
	if err != nil {
		t.Fatal("go list: ", err)
	}
	if len(pkgs) < 10 {
		t.Fatalf("go list found only %d packages", len(pkgs))
	}
	return pkgs
}

// imports returns the imports of the package without its tests, sorted.
func (p *listed) imports() []string { return slices.Sorted(slices.Values(p.Imports)) }

func isPure(path string) bool {
	for _, p := range pure {
		if p.path == path {
			return true
		}
	}
	return false
}

// goFiles calls f with every Go file of the project, tests included. Because the
// files are read here, the go command knows that the result depends on them and
// does not use a cached result after a change.
func goFiles(t *testing.T, f func(path, text string)) {
	t.Helper()
	dir := root(t)
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && path != dir && strings.HasPrefix(e.Name(), ".") {
			return fs.SkipDir
		}
		if e.IsDir() || filepath.Ext(path) != ".go" {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		f(filepath.ToSlash(rel), string(text))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
