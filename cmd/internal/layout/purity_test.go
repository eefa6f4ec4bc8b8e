package layout

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// nothing replaces every imported package: what a pure package does with its own
// variables can be seen without them.
type nothing struct{}

func (nothing) Import(path string) (*types.Package, error) {
	name := path[strings.LastIndexByte(path, '/')+1:]
	if path == "math/rand/v2" {
		name = "rand"
	}
	p := types.NewPackage(path, name)
	p.MarkComplete()
	return p, nil
}

// A source is a parsed package with its own names resolved.
type source struct {
	path  string
	fset  *token.FileSet
	files []*ast.File
	info  *types.Info
	pkg   *types.Package
}

// check resolves the names of a package. Errors are ignored: they come from the
// replaced imports; the compiler reports real ones.
func check(path string, fset *token.FileSet, files []*ast.File) *source {
	info := &types.Info{Defs: map[*ast.Ident]types.Object{}, Uses: map[*ast.Ident]types.Object{}}
	s := &source{path: path, fset: fset, files: files, info: info}
	conf := types.Config{Importer: nothing{}, Error: func(error) {}}
	s.pkg, _ = conf.Check(path, fset, files, s.info)
	return s
}

// pureSources reads all pure packages.
func pureSources(t *testing.T) []*source {
	t.Helper()
	var all []*source
	for path, p := range packages(t) {
		if !isPure(path) {
			continue
		}
		fset := token.NewFileSet()
		var files []*ast.File
		for _, name := range p.GoFiles {
			f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution|parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
		all = append(all, check(path, fset, files))
	}
	return all
}

// clocks lists the names in package time that use the clock; those that start
// with New do as well.
var clocks = []string{"Now", "Since", "Until", "Sleep", "After", "Local"}

// seeded lists the names in math/rand/v2 that need a seed; all others draw from
// a global source.
var seeded = []string{"New", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "PCG", "ChaCha8", "Zipf", "Source"}

// faults lists what the package does that a pure package may not do.
func (s *source) faults() []string {
	var got []string
	fault := func(n ast.Node, text string) {
		got = append(got, s.fset.Position(n.Pos()).String()+": "+text)
	}
	for _, f := range s.files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				if !slices.Contains(parallel, s.path) {
					fault(n, "starts a goroutine")
				}
			case *ast.FuncDecl:
				if n.Recv == nil && n.Name.Name == "init" {
					fault(n, "has an init function")
				}
			case *ast.SelectorExpr:
				x, ok := n.X.(*ast.Ident)
				if !ok {
					return true
				}
				p, ok := s.info.Uses[x].(*types.PkgName)
				if !ok {
					return true
				}
				switch name := n.Sel.Name; p.Imported().Path() {
				case "fmt":
					if strings.HasPrefix(name, "Print") || strings.HasPrefix(name, "Scan") {
						fault(n, "uses the terminal: fmt."+name)
					}
				case "time":
					if slices.Contains(clocks, name) || strings.HasPrefix(name, "New") {
						fault(n, "uses the clock: time."+name)
					}
				case "math/rand/v2":
					if !slices.Contains(seeded, name) {
						fault(n, "draws without a seed: rand."+name)
					}
				}
			case *ast.CallExpr:
				id, ok := n.Fun.(*ast.Ident)
				if !ok {
					return true
				}
				if _, ok := s.info.Uses[id].(*types.Builtin); !ok {
					return true
				}
				switch id.Name {
				case "print", "println":
					fault(n, "uses the terminal: "+id.Name)
				case "panic":
					if text, ok := n.Args[0].(*ast.BasicLit); !ok || !strings.HasPrefix(text.Value, `"`+s.pkg.Name()+": ") {
						fault(n, `panics with something other than a constant text "`+s.pkg.Name()+`: ..."`)
					}
				}
			}
			return true
		})
	}
	return append(got, s.mutable()...)
}

// mutable lists package variables other than tables and error values: those
// without an initial value, with a type from package sync, or written to
// anywhere.
func (s *source) mutable() []string {
	var got []string
	fault := func(n ast.Node, name, text string) {
		got = append(got, s.fset.Position(n.Pos()).String()+": package variable "+name+" "+text)
	}
	own := func(e ast.Expr) (string, bool) {
		for {
			switch x := e.(type) {
			case *ast.IndexExpr:
				e = x.X
			case *ast.SliceExpr:
				e = x.X
			case *ast.ParenExpr:
				e = x.X
			case *ast.StarExpr:
				e = x.X
			case *ast.SelectorExpr:
				e = x.X
			case *ast.Ident:
				v, ok := s.info.Uses[x].(*types.Var)
				return x.Name, ok && v.Parent() == s.pkg.Scope()
			default:
				return "", false
			}
		}
	}
	for _, f := range s.files {
		for _, d := range f.Decls {
			if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.VAR {
				for _, spec := range g.Specs {
					v := spec.(*ast.ValueSpec)
					if v.Names[0].Name == "_" {
						continue // a compile-time check
					}
					if len(v.Values) == 0 && !embedded(g) {
						fault(v, v.Names[0].Name, "has no initial value, so it is meant to be assigned")
					}
					ast.Inspect(v, func(n ast.Node) bool {
						if sel, ok := n.(*ast.SelectorExpr); ok {
							if x, ok := sel.X.(*ast.Ident); ok {
								if p, ok := s.info.Uses[x].(*types.PkgName); ok && strings.HasPrefix(p.Imported().Path(), "sync") {
									fault(v, v.Names[0].Name, "contains sync."+sel.Sel.Name)
								}
							}
						}
						return true
					})
				}
			}
		}
		ast.Inspect(f, func(n ast.Node) bool {
			var written []ast.Expr
			switch n := n.(type) {
			case *ast.AssignStmt:
				written = n.Lhs
			case *ast.IncDecStmt:
				written = []ast.Expr{n.X}
			case *ast.RangeStmt:
				if n.Tok == token.ASSIGN {
					written = []ast.Expr{n.Key, n.Value}
				}
			case *ast.CallExpr:
				// These builtins write to their first argument.
				if id, ok := n.Fun.(*ast.Ident); ok && len(n.Args) > 0 {
					if _, ok := s.info.Uses[id].(*types.Builtin); ok && slices.Contains([]string{"append", "clear", "copy", "delete"}, id.Name) {
						written = n.Args[:1]
					}
				}
			}
			for _, e := range written {
				if name, yes := own(e); yes {
					fault(n, name, "is written to")
				}
			}
			return true
		})
	}
	return got
}

// embedded reports whether the compiler sets the initial value of the variable.
func embedded(d *ast.GenDecl) bool {
	return d.Doc != nil && slices.ContainsFunc(d.Doc.List, func(c *ast.Comment) bool { return strings.HasPrefix(c.Text, "//go:embed ") })
}

func TestPurePackagesStayPure(t *testing.T) {
	sources := pureSources(t)
	if len(sources) < 8 {
		t.Fatalf("only %d pure packages found", len(sources))
	}
	for _, s := range sources {
		for _, f := range s.faults() {
			t.Error(f)
		}
	}
}

// The checks themselves: they find each forbidden thing and accept what is
// allowed.
func TestGuardSeesWhatItForbids(t *testing.T) {
	tests := []struct{ text, want string }{
		{`func F() { go F() }`, "goroutine"},
		{`func init() {}`, "init"},
		{`import "fmt"; func F() { fmt.Println() }`, "terminal"},
		{`func F() { println() }`, "terminal"},
		{`import "time"; func F() { _ = time.Now() }`, "clock"},
		{`import "math/rand/v2"; func F() { _ = rand.Float64() }`, "seed"},
		{`func F() { panic(7) }`, "panics"},
		{`var n int`, "no initial value"},
		{`var n = 1; func F() { n = 2 }`, "written"},
		{`var n = 1; func F() { n++ }`, "written"},
		{`var m = map[int]int{}; func F() { m[1] = 2 }`, "written"},
		{`var m = map[int]int{}; func F() { delete(m, 1) }`, "written"},
		{`var s = []struct{a int}{{}}; func F() { s[0].a += 2 }`, "written"},
		{`var s = []int{1}; func F() { for s[0] = range 3 {} }`, "written"},
		{`import "sync"; var mu = sync.Mutex{}`, "sync"},

		{`import "fmt"; var words = []string{"a"}; func F(n int) string {
			words := append([]string{}, words...); n = 2; words[0] = "b"; return fmt.Sprint(words[n]) }`, ""},
		{`import "errors"; var errNone = errors.New("none"); func F() error { return errNone }`, ""},
		{`import "math/rand/v2"; func F() *rand.Rand { return rand.New(rand.NewPCG(1, 2)) }`, ""},
		{`func F() { panic("p: impossible") }`, ""},
		{"import _ \"embed\"\n\n// Text is a file.\n//\n//go:embed a.txt\nvar Text string", ""},
		{`type T struct{ n int }; func (t *T) Init() { t.n = 2 }`, ""},
	}
	for _, tt := range tests {
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, "p.go", "package p; "+tt.text, parser.SkipObjectResolution|parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		got := check("p", fset, []*ast.File{f}).faults()
		if tt.want == "" && len(got) > 0 || tt.want != "" && (len(got) != 1 || !strings.Contains(got[0], tt.want)) {
			t.Errorf("%s\n\tgot %q, want %q", tt.text, got, tt.want)
		}
	}
}
