package layout

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestGoroutinesAreRaced finds every package that starts goroutines, tests included, and looks for it among those that .ci/run runs
// with the race detector.
func TestGoroutinesAreRaced(t *testing.T) {
	script, err := os.ReadFile(filepath.Join(root(t), ".ci", "run"))
	if err != nil {
		t.Fatal(err)
	}
	var raced []string
	for line := range strings.Lines(string(script)) {
		if strings.Contains(line, "go test -race ") {
			raced = append(raced, strings.Fields(line)...)
		}
	}
	found := 0
	goFiles(t, func(name, text string) {
		f, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		starts := false
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				starts = true
			case *ast.CallExpr: // of a wait group
				sel, ok := n.Fun.(*ast.SelectorExpr)
				starts = starts || ok && sel.Sel.Name == "Go" && len(n.Args) == 1
			}
			return !starts
		})
		if !starts {
			return
		}
		found++
		if dir := path.Dir(name); !slices.Contains(raced, "./"+dir) {
			t.Errorf("%s starts goroutines, and .ci/run does not run ./%s with -race", name, dir)
		}
	})
	if found < 8 {
		t.Fatalf("only %d files start goroutines", found)
	}
}
