package layout

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// exportsFile lists the exported names that no other package uses: types that only appear in signatures, and what interfaces,
// templates and encoders reach. The list may only become shorter.
const exportsFile = "testdata/exports.txt"

// An export is an exported name of a package of the project.
type export struct {
	folder, owner, name string // owner is the type of a method or a field
	field               bool
}

func (e export) String() string {
	if e.owner == "" {
		return e.folder + "." + e.name
	}
	return e.folder + "." + e.owner + "." + e.name
}

// A goSource is one parsed file.
type goSource struct {
	folder string
	test   bool // a test file
	own    bool // of the package itself, not of its outside tests
	file   *ast.File
}

// goSources parses all Go files.
func goSources(t *testing.T) (all []goSource) {
	t.Helper()
	goFiles(t, func(name, text string) {
		f, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, goSource{folder: path.Dir(name), test: strings.HasSuffix(name, "_test.go"),
			own: !strings.HasSuffix(f.Name.Name, "_test"), file: f})
	})
	return all
}

// inLibrary reports whether a folder is neither a command nor internal: whoever has the module could import it.
func inLibrary(folder string) bool {
	return folder != "." && !strings.HasPrefix(folder, "cmd") && !strings.Contains("/"+folder+"/", "/internal/")
}

// exports returns the exported names of a file: functions, types, variables, constants, methods, and fields without a tag.
func exports(s goSource) []export {
	var list []export
	add := func(field bool, owner string, ids ...*ast.Ident) {
		for _, id := range ids {
			if id.IsExported() && (owner == "" || ast.IsExported(owner)) {
				list = append(list, export{s.folder, owner, id.Name, field})
			}
		}
	}
	for _, d := range s.file.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			add(false, receiver(d), d.Name)
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch spec := spec.(type) {
				case *ast.ValueSpec:
					add(false, "", spec.Names...)
				case *ast.TypeSpec:
					add(false, "", spec.Name)
					if st, ok := spec.Type.(*ast.StructType); ok {
						for _, f := range st.Fields.List {
							if f.Tag == nil {
								add(true, spec.Name.Name, f.Names...)
							}
						}
					}
				}
			}
		}
	}
	return list
}

// receiver returns the name of a method's type, "" for a function.
func receiver(d *ast.FuncDecl) string {
	if d.Recv == nil {
		return ""
	}
	name := ""
	ast.Inspect(d.Recv.List[0].Type, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && name == "" {
			name = id.Name
		}
		return true
	})
	return name
}

// imports returns the folders of the project that a file imports, by the name that it uses.
func imports(f *ast.File) map[string]string {
	names := map[string]string{}
	for _, im := range f.Imports {
		folder, ours := strings.CutPrefix(strings.Trim(im.Path.Value, `"`), module)
		if !ours {
			continue
		}
		name := path.Base(folder)
		if im.Name != nil {
			name = im.Name.Name
		}
		names[name] = folder
	}
	return names
}

// unused returns the exported names that no other package uses, as far as the text shows: a method or a field counts as used if any
// other package names a member like it, so the list has too few names rather than too many.
func unused(t *testing.T) []string {
	t.Helper()
	used := map[export]bool{}               // names of packages, by selectors
	members := map[string]map[string]bool{} // by name, the folders whose files name a member so
	member := func(s goSource, name string) {
		folder := s.folder
		if !s.own {
			folder += "_test"
		}
		if members[name] == nil {
			members[name] = map[string]bool{}
		}
		members[name][folder] = true
	}
	all := goSources(t)
	for _, s := range all {
		names := imports(s.file)
		ast.Inspect(s.file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.SelectorExpr:
				if id, ok := n.X.(*ast.Ident); ok && names[id.Name] != "" {
					used[export{folder: names[id.Name], name: n.Sel.Name}] = true
				}
				member(s, n.Sel.Name)
			case *ast.KeyValueExpr:
				if id, ok := n.Key.(*ast.Ident); ok {
					member(s, id.Name)
				}
			}
			return true
		})
	}
	var list []string
	promised := publicLibrary(t)
	for _, s := range all {
		if s.test || !inLibrary(s.folder) {
			continue
		}
		for _, e := range exports(s) {
			if p, ok := promised[s.folder]; ok && p.has(e) {
				continue
			}
			others := len(members[e.name])
			if members[e.name][s.folder] {
				others--
			}
			if e.owner == "" && !used[e] || e.owner != "" && others == 0 {
				list = append(list, e.String())
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// What no other package uses is not exported, except for what is listed.
func TestExportsAreUsed(t *testing.T) {
	got := unused(t)
	text, err := os.ReadFile(filepath.FromSlash(exportsFile))
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for name := range strings.FieldsSeq(string(text)) {
		listed[name] = true
	}
	var stay []string
	for _, name := range got {
		if !listed[name] {
			t.Errorf("%s is exported, but no other package uses it: unexport it, or add it to %s if an interface, a template or an "+
				"encoder needs it, or a signature names it", name, exportsFile)
			continue
		}
		delete(listed, name)
		stay = append(stay, name)
	}
	if len(listed) == 0 {
		return
	}
	if os.Getenv("UPDATE") == "1" {
		if err := os.WriteFile(filepath.FromSlash(exportsFile), []byte(strings.Join(stay, "\n")+"\n"), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	t.Logf("%d names in %s are used by now or gone: UPDATE=1 go test ./cmd/internal/layout -run TestExportsAreUsed removes, for example, %s",
		len(listed), exportsFile, slices.Min(slices.Collect(maps.Keys(listed))))
}
