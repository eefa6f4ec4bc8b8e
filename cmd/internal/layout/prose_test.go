package layout

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"
	"testing"
)

// prose lists the fields and methods with loamledger's own texts for people.
// Nothing may depend on them; use codes and values.
var prose = []string{"Action", "Detail", "Doc", "Error", "Fix", "Msg", "Source", "String", "Text", "What", "Why", "detail", "fix", "msg"}

// usersText lists packages in which a field Text is what a user wrote.
var usersText = []string{"scenarios", "scenarios/yamlfile", "scenarios/ratesfile", "scenarios/zonefile", "scenarios/weatherfile"}

// looksInto lists the functions of package strings that inspect a text.
var looksInto = []string{
	"Contains", "ContainsAny", "ContainsRune", "Count", "Cut", "CutPrefix", "CutSuffix", "EqualFold", "HasPrefix", "HasSuffix",
	"Index", "IndexByte", "LastIndex", "Split",
}

// fieldOfProse returns the name of the field or method in prose that e refers
// to, or "".
func fieldOfProse(path string, e ast.Expr) string {
	if call, is := e.(*ast.CallExpr); is {
		e = call.Fun
		if len(call.Args) > 0 { // strings.ToLower(f.Detail)
			for _, arg := range call.Args {
				if name := fieldOfProse(path, arg); name != "" {
					return name
				}
			}
			return ""
		}
	}
	sel, is := e.(*ast.SelectorExpr)
	if !is || !slices.Contains(prose, sel.Sel.Name) || sel.Sel.Name == "Text" && slices.Contains(usersText, path) {
		return ""
	}
	return sel.Sel.Name
}

// decidesOnProse lists the places in a file that depend on such texts.
func decidesOnProse(f parsed) []string {
	var got []string
	fault := func(n ast.Node, name string) {
		got = append(got, f.fset.Position(n.Pos()).String()+": depends on the text of "+name+"; use a code")
	}
	isText := func(e ast.Expr) bool {
		lit, is := e.(*ast.BasicLit)
		return is && lit.Kind == token.STRING && lit.Value != `""` && lit.Value != "``"
	}
	ast.Inspect(f.File, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			sel, is := n.Fun.(*ast.SelectorExpr)
			if !is || len(n.Args) == 0 {
				return true
			}
			if x, is := sel.X.(*ast.Ident); !is || x.Name != "strings" && x.Name != "bytes" || !slices.Contains(looksInto, sel.Sel.Name) {
				return true
			}
			if name := fieldOfProse(f.path, n.Args[0]); name != "" && name != "String" { // strings.Builder also has one
				fault(n, name)
			}
		case *ast.BinaryExpr:
			if n.Op != token.EQL && n.Op != token.NEQ {
				return true
			}
			for _, pair := range [][2]ast.Expr{{n.X, n.Y}, {n.Y, n.X}} {
				if name := fieldOfProse(f.path, pair[0]); name != "" && (isText(pair[1]) || fieldOfProse(f.path, pair[1]) != "") {
					fault(n, name)
					break
				}
			}
		case *ast.SwitchStmt:
			name := ""
			if n.Tag != nil {
				name = fieldOfProse(f.path, n.Tag)
			}
			for _, c := range n.Body.List {
				if name != "" && slices.ContainsFunc(c.(*ast.CaseClause).List, isText) {
					fault(n, name)
					break
				}
			}
		}
		return true
	})
	return got
}

// Behavior depends on codes and values, never on text that people read.
func TestNothingIsDecidedByWords(t *testing.T) {
	for _, f := range parseAll(t) {
		for _, fault := range decidesOnProse(f) {
			t.Error(fault)
		}
	}
}

// The test above finds what it is meant to find.
func TestWordsThatDecideAreFound(t *testing.T) {
	for _, tt := range []struct {
		code string
		want int
	}{
		{`strings.Contains(f.Detail, "as if ")`, 1},
		{`strings.HasPrefix(strings.ToLower(p.Source), "assumption")`, 1},
		{`strings.Cut(err.Error(), "; ")`, 1},
		{`row.String() == "held: rain"`, 1},
		{`"held: rain" != a.Reason.String()`, 1},
		{`a.Text == b.Text`, 1},
		{`f.Fix == ""`, 0},
		{`strings.Contains(name, "turf")`, 0},
		{`f.Code == other.Code`, 0},
	} {
		fset := token.NewFileSet()
		file, err := parser.ParseFile(fset, "x.go", "package x\nfunc f() bool { return g("+tt.code+") }", 0)
		if err != nil {
			t.Fatal(err)
		}
		if got := decidesOnProse(parsed{"x", fset, file}); len(got) != tt.want {
			t.Errorf("%s: %s, want %d", tt.code, strings.Join(got, "; "), tt.want)
		}
	}
}
