package layout

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/calibrate"
	"loamledger/sim/meter"
	"loamledger/sim/settings"
	"loamledger/sim/timer"
	"loamledger/weather"
	"loamledger/weather/diag"
)

// A codeList describes one kind of thing that has codes: the package that
// declares them, the type, and the one list with a line for each.
type codeList struct {
	path, kind string
	docs       map[string]string
	doubled    []string // codes that are in the list twice
}

func listOf[T any](path, kind string, list []T, of func(T) (code, doc string)) codeList {
	c := codeList{path: path, kind: kind, docs: map[string]string{}}
	for _, one := range list {
		code, doc := of(one)
		if _, is := c.docs[code]; is {
			c.doubled = append(c.doubled, code)
		}
		c.docs[code] = doc
	}
	return c
}

func codeLists() []codeList {
	return []codeList{
		listOf("weather", "Code", weather.Codes(), func(d weather.CodeDoc) (string, string) {
			if d.Outcome == "" {
				return string(d.Code), "" // the line must say what happened to the values
			}
			return string(d.Code), d.Doc
		}),
		listOf("weather", "EvidenceCode", weather.EvidenceCodes(), func(d weather.EvidenceDoc) (string, string) {
			return string(d.Code), d.Doc
		}),
		listOf("weather/diag", "Code", diag.Codes(), func(d diag.CodeDoc) (string, string) { return string(d.Code), d.Doc }),
		listOf("scenarios", "WarningCode", scenarios.WarningCodes(), func(d scenarios.WarningDoc) (string, string) {
			return string(d.Code), d.Doc
		}),
		listOf("sim/settings", "DryReason", settings.DryReasons(), func(d settings.DryReasonDoc) (string, string) {
			return string(d.Reason), d.Doc
		}),
		listOf("sim/timer", "Reason", timer.Reasons(), func(d timer.ReasonDoc) (string, string) { return string(d.Reason), d.Doc }),
		listOf("sim/calibrate", "Key", calibrate.Keys(), func(d calibrate.KeyDoc) (string, string) { return string(d.Key), d.Doc }),
		listOf("sim/calibrate", "Finding", calibrate.Findings(), func(d calibrate.FindingDoc) (string, string) {
			return string(d.Finding), d.Doc
		}),
		listOf("sim/meter", "Reason", meter.Reasons(), func(d meter.ReasonDoc) (string, string) { return string(d.Reason), d.Doc }),
		listOf("sim/meter", "Missing", meter.Missings(), func(d meter.MissingDoc) (string, string) { return string(d.Code), d.Doc }),
		listOf("sim/meter", "Lack", meter.Lacks(), func(d meter.LackDoc) (string, string) { return string(d.Lack), d.Doc }),
		listOf("sim/meter", "NoteCode", meter.NoteDocs(), func(d meter.NoteDoc) (string, string) { return string(d.Code), d.Doc }),
		listOf("plots", "AlarmCode", plots.AlarmCodes(), func(d plots.AlarmDoc) (string, string) { return string(d.Code), d.Doc }),
	}
}

// A parsed is the syntax tree of one file of a package.
type parsed struct {
	path string // of the package
	fset *token.FileSet
	*ast.File
}

// parseAll reads all code except tests.
func parseAll(t *testing.T) []parsed {
	t.Helper()
	var all []parsed
	for path, p := range packages(t) {
		for _, name := range p.GoFiles {
			fset := token.NewFileSet()
			f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, parsed{path, fset, f})
		}
	}
	return all
}

// constants returns the constants of type kind that a package declares, by
// name, with their values.
func constants(files []parsed, path, kind string) map[string]string {
	found := map[string]string{}
	for _, f := range files {
		if f.path != path {
			continue
		}
		ast.Inspect(f.File, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok {
				return true
			}
			if id, is := spec.Type.(*ast.Ident); !is || id.Name != kind || len(spec.Values) != 1 {
				return true
			}
			if lit, is := spec.Values[0].(*ast.BasicLit); is {
				found[spec.Names[0].Name], _ = strconv.Unquote(lit.Value)
			}
			return true
		})
	}
	return found
}

var codeShape = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// Every code is in the one list of its kind, with a line that says what it
// means, and is used.
func TestCodesAreListedAndUsed(t *testing.T) {
	files := parseAll(t)
	for _, list := range codeLists() {
		declared := constants(files, list.path, list.kind)
		if len(declared) < 5 || len(declared) != len(list.docs) || len(list.doubled) > 0 {
			t.Errorf("%s: %d codes declared, %d listed; duplicates: %q", list.path, len(declared), len(list.docs), list.doubled)
		}
		uses := map[string]int{}
		for _, f := range files {
			ast.Inspect(f.File, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.SelectorExpr:
					if x, is := n.X.(*ast.Ident); is && x.Name == filepath.Base(list.path) {
						uses[n.Sel.Name]++
					}
				case *ast.Ident:
					if f.path == list.path {
						uses[n.Name]++
					}
				}
				return true
			})
		}
		for name, code := range declared {
			if !codeShape.MatchString(code) {
				t.Errorf("%s.%s: %q is not lower-case words with hyphens", list.path, name, code)
			}
			if list.docs[code] == "" {
				t.Errorf("%s.%s: the list does not say what %s means", list.path, name, code)
			}
			if uses[name] < 3 { // the declaration and the list are two uses
				t.Errorf("%s.%s is not used: remove it", list.path, name)
			}
		}
	}
}

// A code is written as its constant, so that a typo does not compile.
func TestCodesAreWrittenAsConstants(t *testing.T) {
	isCode := func(e ast.Expr) bool {
		switch e := e.(type) {
		case *ast.Ident:
			return e.Name == "Code" || e.Name == "code"
		case *ast.SelectorExpr:
			return e.Sel.Name == "Code" || e.Sel.Name == "code"
		}
		return false
	}
	isText := func(e ast.Expr) bool {
		lit, is := e.(*ast.BasicLit)
		return is && lit.Kind == token.STRING && lit.Value != `""`
	}
	for _, f := range parseAll(t) {
		ast.Inspect(f.File, func(n ast.Node) bool {
			bad := false
			switch n := n.(type) {
			case *ast.KeyValueExpr:
				bad = isCode(n.Key) && isText(n.Value)
			case *ast.BinaryExpr:
				bad = isCode(n.X) && isText(n.Y) || isCode(n.Y) && isText(n.X)
			}
			if bad {
				t.Errorf("%v: a code is written as a string; use its constant", f.fset.Position(n.Pos()))
			}
			return true
		})
	}
}
