package layout

import (
	"go/ast"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A promise is what DEVELOPERS.md says of one public package.
type promise struct {
	all    bool            // every exported name, except for those named
	names  map[string]bool // Type stands for the type and its fields, Type.Method for a method
	listed []string        // the same, in the order of the page
}

// has reports whether the page promises a name.
func (p promise) has(e export) bool {
	name := e.name
	if e.owner != "" {
		name = e.owner + "." + e.name
	}
	if e.field {
		name = e.owner
	}
	if p.all {
		return !p.names[name] && (e.owner == "" || !p.names[e.owner])
	}
	return p.names[name]
}

// publicLibrary reads the table of public packages in DEVELOPERS.md: the second cell is "all", "all but" names, or names.
func publicLibrary(t *testing.T) map[string]promise {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root(t), "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	list := map[string]promise{}
	inside := false
	for line := range strings.Lines(string(text)) {
		cells := strings.Split(line, "|")
		switch {
		case strings.HasPrefix(line, "| public package |"):
			inside = true
		case !strings.HasPrefix(line, "|"):
			inside = false
		case inside && len(cells) > 3 && strings.Contains(cells[1], "`"):
			p := promise{all: strings.HasPrefix(strings.TrimSpace(cells[2]), "all"), names: map[string]bool{}}
			for _, span := range codeSpan.FindAllString(cells[2], -1) {
				name := strings.Trim(span, "`")
				p.names[name], p.listed = true, append(p.listed, name)
			}
			list[strings.Trim(strings.TrimSpace(cells[1]), "`")] = p
		}
	}
	return list
}

// visible returns the exported names of a package by the name that a promise uses, each with the part of its declaration that a
// caller sees.
func visible(all []goSource, folder string) map[string][]ast.Node {
	seen := map[string][]ast.Node{}
	for _, s := range all {
		if s.folder != folder || s.test {
			continue
		}
		for _, d := range s.file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				name := d.Name.Name
				if owner := receiver(d); owner != "" {
					name = owner + "." + name
				}
				seen[name] = append(seen[name], d.Type)
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					switch spec := spec.(type) {
					case *ast.ValueSpec:
						for _, id := range spec.Names {
							seen[id.Name] = append(seen[id.Name], typeOf(spec)...)
						}
					case *ast.TypeSpec:
						seen[spec.Name.Name] = append(seen[spec.Name.Name], exposed(spec.Type)...)
					}
				}
			}
		}
	}
	return seen
}

func typeOf(spec *ast.ValueSpec) []ast.Node {
	if spec.Type == nil {
		return []ast.Node{}
	}
	return []ast.Node{spec.Type}
}

// exposed returns the types of the exported fields of a struct, or the whole type.
func exposed(x ast.Expr) []ast.Node {
	st, ok := x.(*ast.StructType)
	if !ok {
		return []ast.Node{x}
	}
	nodes := []ast.Node{}
	for _, f := range st.Fields.List {
		if len(f.Names) == 0 || slices.ContainsFunc(f.Names, (*ast.Ident).IsExported) {
			nodes = append(nodes, f.Type)
		}
	}
	return nodes
}

// Every name that DEVELOPERS.md promises exists, its declaration names only what is promised too, and each public package has a
// runnable example.
func TestPublicPackages(t *testing.T) {
	promised := publicLibrary(t)
	if len(promised) != 5 {
		t.Fatalf("DEVELOPERS.md promises %d packages, not 5", len(promised))
	}
	all := goSources(t)
	from := map[string]map[string]string{} // imports of each folder; one name means one package in a folder
	examples := map[string]bool{}
	for _, s := range all {
		if from[s.folder] == nil {
			from[s.folder] = map[string]string{}
		}
		for name, folder := range imports(s.file) {
			from[s.folder][name] = folder
		}
		for _, d := range s.file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && s.test && !s.own && strings.HasPrefix(f.Name.Name, "Example") {
				examples[s.folder] = true
			}
		}
	}
	for folder, p := range promised {
		seen := visible(all, folder)
		if len(seen) == 0 {
			t.Errorf("there is no package %s", folder)
			continue
		}
		if !examples[folder] {
			t.Errorf("%s has no example in its documentation", folder)
		}
		for _, name := range p.listed {
			if _, ok := seen[name]; !ok {
				t.Errorf("DEVELOPERS.md names %s.%s, which does not exist", folder, name)
			}
		}
		for name, nodes := range seen {
			owner, member, isMember := strings.Cut(name, ".")
			e := export{folder: folder, name: owner}
			if isMember {
				e = export{folder: folder, owner: owner, name: member}
			}
			if !ast.IsExported(owner) || isMember && !ast.IsExported(member) || !p.has(e) {
				continue
			}
			for _, n := range nodes {
				for _, used := range named(n, folder, from[folder]) {
					q, public := promised[used.folder]
					if public && q.has(used) || slices.Contains(lent, used) {
						continue
					}
					t.Errorf("%s.%s is promised, but %v in its declaration is not", folder, name, used)
				}
			}
		}
	}
}

// lent lists the names of other packages in declarations that are promised.
var lent = []export{{folder: "weather/diag", name: "Code"}}

// named returns the exported names of the project in a node of a file.
func named(n ast.Node, folder string, from map[string]string) []export {
	var list []export
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			if id, ok := n.X.(*ast.Ident); ok && from[id.Name] != "" {
				list = append(list, export{folder: from[id.Name], name: n.Sel.Name})
			}
			return false
		case *ast.Field:
			list = append(list, named(n.Type, folder, from)...)
			return false
		case *ast.Ident:
			if n.IsExported() {
				list = append(list, export{folder: folder, name: n.Name})
			}
		}
		return true
	})
	return list
}
