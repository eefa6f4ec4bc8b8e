package layout

import (
	"slices"
	"strings"
	"testing"
)

// library returns the key in homes that imp belongs to, or "" for a package of
// this project or of the standard library.
func library(imp string) (key string, known bool) {
	first, _, _ := strings.Cut(imp, "/")
	if !strings.Contains(first, ".") {
		return "", true
	}
	for k := range homes { // the longest key
		if (imp == k || strings.HasPrefix(imp, k+"/")) && len(k) > len(key) {
			key = k
		}
	}
	if key != "" {
		return key, true
	}
	return imp, false
}

// atHome reports whether the package at path may import a library.
func atHome(lib, path string) bool { return homes[lib] == path }

func isTestOnly(imp string) bool {
	return slices.ContainsFunc(testOnly, func(l string) bool { return imp == l || strings.HasPrefix(imp, l+"/") })
}

// Every package is listed as pure or as edge, or belongs to cmd, or has only
// tests: whoever adds one decides what it may do.
func TestEveryPackageHasItsPlace(t *testing.T) {
	for path, p := range packages(t) {
		edge := false
		for _, e := range edges {
			edge = edge || e.path == path
		}
		if !isPure(path) && !edge && !strings.HasPrefix(path, "cmd/") && len(p.GoFiles) > 0 {
			t.Errorf("%s is not listed: add it to pure or edges in tables_test.go", path)
		}
		if edge != strings.HasSuffix(path, "file") {
			t.Errorf("%s: names of edges, and no others, end with the word file", path)
		}
		for part := range strings.SplitSeq(path, "/") {
			if slices.Contains(vague, part) {
				t.Errorf("%s: the name %q does not say what the package is for", path, part)
			}
		}
	}
}

// The table of pure packages is in order: a package is below those it imports.
func TestLayersPointOneWay(t *testing.T) {
	above := map[string]bool{}
	for _, p := range pure {
		for _, imp := range p.ours {
			if !above[imp] {
				t.Errorf("%s may import %s, which is not above it", p.path, imp)
			}
		}
		above[p.path] = true
	}
	for _, e := range edges {
		for _, imp := range e.ours {
			if !above[imp] {
				t.Errorf("%s may import %s, which is not above it", e.path, imp)
			}
		}
		above[e.path] = true
	}
}

func TestPurePackagesImportOnlyWhatTheyMay(t *testing.T) {
	pkgs := packages(t)
	for _, r := range pure {
		p := pkgs[r.path]
		if p == nil {
			continue // not there yet
		}
		for _, imp := range p.imports() {
			ours, mine := strings.CutPrefix(imp, module)
			lib, known := library(imp)
			switch {
			case mine && slices.Contains(r.ours, ours):
			case !mine && (slices.Contains(plain, imp) || slices.Contains(r.std, imp)):
			case lib != "" && known && atHome(lib, r.path):
			default:
				t.Errorf("%s imports %s: it may import only %v and the plain list in tables_test.go",
					r.path, imp, append(slices.Clone(r.ours), r.std...))
			}
		}
	}
}

func TestEdgesLeaveTheMachineAlone(t *testing.T) {
	pkgs := packages(t)
	for _, e := range edges {
		p := pkgs[e.path]
		if p == nil {
			continue // not there yet
		}
		for _, imp := range p.imports() {
			if ours, mine := strings.CutPrefix(imp, module); mine && !slices.Contains(e.ours, ours) {
				t.Errorf("%s imports %s: it may import %v", e.path, ours, e.ours)
			}
			if slices.Contains(machine, imp) {
				t.Errorf("%s imports %s: only cmd touches the machine", e.path, imp)
			}
		}
	}
}

func TestNobodyImportsCommands(t *testing.T) {
	for path, p := range packages(t) {
		for _, imp := range p.imports() {
			if strings.HasPrefix(imp, module+"cmd/") && !strings.HasPrefix(path, "cmd/") {
				t.Errorf("%s imports %s", path, imp)
			}
		}
	}
}

// If a library has a bug, changes or is abandoned, only one package is affected.
func TestEachLibraryHasOneHome(t *testing.T) {
	for path, p := range packages(t) {
		for _, imp := range p.imports() {
			if isTestOnly(imp) {
				t.Errorf("%s imports %s outside of tests", path, imp)
				continue
			}
			lib, known := library(imp)
			if !known {
				t.Errorf("%s imports %s, which has no home: add one to tables_test.go", path, imp)
			} else if lib != "" && !atHome(lib, path) {
				t.Errorf("%s imports %s, whose home is %s", path, imp, homes[lib])
			}
		}
		for _, imp := range slices.Concat(p.TestImports, p.XTestImports) {
			lib, known := library(imp)
			if !isTestOnly(imp) && (!known || lib != "" && !atHome(lib, path)) {
				t.Errorf("the tests of %s import %s, which has another home", path, imp)
			}
		}
	}
}
