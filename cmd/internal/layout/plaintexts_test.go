package layout

import (
	"bytes"
	"context"
	"go/parser"
	"go/token"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamledger/cmd/internal/cli"
	"loamledger/scenarios"
	"loamledger/sim/ledgerfile"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
)

// proseFiles lists the tracked files that people read, other than Go code.
func proseFiles(t *testing.T) []string {
	t.Helper()
	out, err := exec.Command("git", "-C", root(t), "ls-files", "-z").Output()
	if err != nil {
		t.Skipf("the list of files needs git: %v", err)
	}
	var names []string
	for name := range strings.SplitSeq(string(out), "\x00") {
		switch path.Ext(name) {
		case ".md", ".yaml", ".html", ".css":
			names = append(names, name)
		}
		if name == ".ci/run" || name == ".ci/fuzz" {
			names = append(names, name)
		}
	}
	if len(names) < 12 {
		t.Fatalf("only %d files found: %q", len(names), names)
	}
	return names
}

// Every string in the code and every page uses plain words.
func TestTextsArePlain(t *testing.T) {
	s := newScan(finders())
	dir := root(t)
	for _, f := range parseAll(t) {
		if name := f.name(t); !slices.Contains(oldNamesFiles, name) {
			s.literals(name, f.fset, f.File)
		}
	}
	for _, name := range proseFiles(t) {
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		s.text(name, 1, string(text))
	}
	for _, k := range keptPhrases {
		if !s.met[k] {
			t.Errorf("%q is no longer in %s: remove it from the exceptions", k.text, k.file)
		}
	}
	s.report(t)
}

// Comments are in American spelling.
func TestCommentsAreAmerican(t *testing.T) {
	var spelling []finder
	for _, w := range british {
		spelling = append(spelling, word(w))
	}
	s := newScan(spelling)
	dir := root(t)
	goFiles(t, func(name, text string) {
		if path.Dir(name) == "cmd/internal/layout" || slices.Contains(oldNamesFiles, name) {
			return // the lists
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, filepath.Join(dir, name), text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, group := range f.Comments {
			for _, c := range group.List {
				s.text(name, fset.Position(c.Pos()).Line, c.Text)
			}
		}
	})
	s.report(t)
}

// So is the help of every command, flags included.
func TestHelpIsPlain(t *testing.T) {
	help := func(args ...string) string {
		var out, errs bytes.Buffer
		if code := cli.Main(context.Background(), append(args, "--help"), cli.Streams{Out: &out, Err: &errs}); code != 0 {
			t.Fatalf("%v --help: exit status %d\n%s", args, code, errs.String())
		}
		return out.String()
	}
	s := newScan(finders())
	top := help()
	s.text("loamledger --help", 1, top)
	_, list, _ := strings.Cut(top, "Commands:\n")
	list, _, _ = strings.Cut(list, "\n\n")
	commands := 0
	for line := range strings.Lines(list) {
		if f := strings.Fields(line); len(f) > 0 {
			commands++
			s.text("loamledger "+f[0]+" --help", 1, help(f[0]))
		}
	}
	if commands < 10 {
		t.Errorf("only %d commands found in\n%s", commands, top)
	}
	s.report(t)
}

// So are the keys of a scenario and the columns of the files.
func TestKeysArePlain(t *testing.T) {
	keys := scenarioKeys(t)
	for _, c := range ledgerfile.Columns() {
		keys = append(keys, c.Key)
	}
	for _, m := range tally.Measures() {
		keys = append(keys, m.Key)
	}
	for _, k := range strategy.Kinds() {
		keys = append(keys, k.Key)
		for _, p := range k.Params {
			keys = append(keys, k.Key+"."+p.Key)
		}
	}
	for _, p := range scenarios.ZoneParams() {
		keys = append(keys, p.Key)
	}
	slices.Sort(keys)
	for _, key := range slices.Compact(keys) {
		for part := range strings.SplitSeq(key, ".") {
			for _, w := range oldNames {
				if part == w.text {
					t.Errorf("the key or column %s: %q: write %s", key, w.text, w.now)
				}
			}
		}
	}
}

// The scan finds what it is meant to find, and nothing else.
func TestOldWordsAreFound(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"made whole or not at all", "whole or not at all"},
		{"Hard to\nbelieve: a saving", "Hard to\nbelieve"},
		{"# most\n# in a row", "most\n# in a row"},
		{"Vapour pressure", "Vapour"},
		{"a recognised layout", "recognised"},
		{"    skip: {rain: {}}", "skip: {"},
		{"{above: 3 mm, most: 3 days}", ", most: 3"},
		{"see `loss` there", "`loss`"},
		{"of 10 %.", "0 %."},
		{"of %.0f %% or", "%.0f %%"},
		{"on 1 Feb", "1 Feb"},
		{"give --coming NAME", "--coming"},
		{"run loamledger invent now", "loamledger invent"},

		{"rain skip", ""},
		{"the default; a millimeter", ""},
		{"at most: this", ""},
		{"10%, %d %s, %-28s %.0f and 5%", ""},
		{"--coastal", ""},
		{"departed", ""},
	} {
		s := newScan(finders())
		s.text("x", 1, tt.text)
		if tt.want == "" && len(s.found) > 0 || tt.want != "" && !strings.Contains(strings.Join(s.found, "\n"), strconv.Quote(tt.want)) {
			t.Errorf("%q: found %q, want %q", tt.text, s.found, tt.want)
		}
	}
	fset := token.NewFileSet()
	f, err := parser.ParseFile(fset, "x.go", "package x\nimport \"grey\"\nconst a = \"it is \" +\n\t\"told\"\n"+
		"var b = \"invented-days\"\ntype c struct { d int `json:\"excess\"` }\nconst e = f + \"grey\"", 0)
	if err != nil {
		t.Fatal(err)
	}
	s := newScan(finders())
	s.literals("x.go", fset, f)
	if want := []string{`x.go:3: "is told": write is shown, reported, listed`, `x.go:7: "grey": write gray`}; !slices.Equal(s.found, want) {
		t.Errorf("found %q, want %q", s.found, want)
	}
}
