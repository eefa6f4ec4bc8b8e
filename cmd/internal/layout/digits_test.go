package layout

import (
	"bufio"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The compiler may fuse x*y + z into one instruction where the processor has it, which changes the last digit. An explicit
// conversion, float64(x*y) + z, forbids it. Of the processors with that instruction, arm64 is the most used.
func TestNoAccidentalFusion(t *testing.T) {
	if testing.Short() {
		t.Skip("builds everything for another processor")
	}
	dir := root(t)
	cmd := exec.Command("go", "build", "-gcflags="+module+"...=-S", "./...")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOOS=linux", "GOARCH=arm64", "CGO_ENABLED=0")
	pipe, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	instruction := regexp.MustCompile(`\((\S+\.go):(\d+)\)\tFN?M(ADD|SUB)[DS]\t`)
	lines, seen := 0, map[string]bool{}
	s := bufio.NewScanner(pipe)
	s.Buffer(nil, 1<<24)
	for s.Scan() {
		lines++
		at := instruction.FindStringSubmatch(s.Text())
		if at == nil {
			continue
		}
		name, err := filepath.Rel(dir, at[1])
		if err != nil || strings.HasPrefix(name, "..") || seen[name+":"+at[2]] {
			continue // a library's function inlined into ours
		}
		seen[name+":"+at[2]] = true
		line, _ := strconv.Atoi(at[2])
		if text := lineOf(t, at[1], line); !slices.ContainsFunc(fused, func(f struct{ path, text, why string }) bool {
			return f.path == filepath.ToSlash(name) && strings.Contains(text, f.text)
		}) {
			t.Errorf("%s:%d: a product is fused with a sum: write float64(x*y) where the product is computed, also if that is in a "+
				"function that was inlined, or in x/2\n\t%s", name, line, strings.TrimSpace(text))
		}
	}
	if err := s.Err(); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		t.Fatal(err)
	}
	if lines < 100000 {
		t.Fatalf("only %d lines of assembly", lines)
	}
	for _, f := range fused {
		used := false
		for at := range seen {
			used = used || strings.HasPrefix(at, f.path+":")
		}
		if !used {
			t.Errorf("%s has no fused instruction: delete it from fused in tables_test.go", f.path)
		}
	}
}

// lineOf returns line n of a file, from 1.
func lineOf(t *testing.T, name string, n int) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	if n > len(lines) {
		t.Fatalf("%s has no line %d", name, n)
	}
	return lines[n-1]
}

func TestElementaryFunctionsArePortable(t *testing.T) {
	seen := 0
	goFiles(t, func(path, text string) {
		if strings.HasSuffix(path, "_test.go") {
			return
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, path, text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if slices.Contains(drawn, sel.Sel.Name) && !strings.HasPrefix(path, "plots/internal/sample/") { // pictures of tests
				t.Errorf("%s: the tails of %s differ between machines: use portable.Normal", fset.Position(sel.Pos()), sel.Sel.Name)
			}
			if x, ok := sel.X.(*ast.Ident); ok && x.Name == "math" {
				seen++
				if slices.Contains(elementary, sel.Sel.Name) {
					t.Errorf("%s: math.%s differs between machines: use weather/portable", fset.Position(sel.Pos()), sel.Sel.Name)
				}
			}
			return true
		})
	})
	if seen < 500 {
		t.Fatalf("only %d uses of package math found", seen)
	}
}
