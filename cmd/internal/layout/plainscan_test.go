package layout

import (
	"fmt"
	"go/ast"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A finder looks for one old wording.
type finder struct {
	oldWord
	pattern *regexp.Regexp
}

// word matches whole words: see [oldWord].
func word(w oldWord) finder {
	p := regexp.QuoteMeta(w.text)
	p = strings.ReplaceAll(p, " ", `[\s#/]+`) // a comment continues after its mark
	p = strings.ReplaceAll(p, `\*`, `[a-z]*`)
	return finder{w, regexp.MustCompile(`(?i)` + edge(w.text[0]) + p + edge(w.text[len(w.text)-1]))}
}

// edge matches the start or end of a word if c is part of one.
func edge(c byte) string {
	if c == '_' || c == '*' || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' {
		return `\b`
	}
	return ""
}

// name matches a name where it is used as one: a key before its colon, a key
// alone in code quotes, a flag, a command.
func name(w oldWord) finder {
	p := regexp.QuoteMeta(w.text)
	if strings.ContainsAny(w.text, " .-") {
		return finder{w, regexp.MustCompile(p + `(?:[^a-z-]|$)`)}
	}
	return finder{w, regexp.MustCompile("(?m)(?:^|[{,(\r]) *(?:# *)?(?:- )?" + p + `: *[^\s]|` + "`" + p + "`")}
}

// form matches a regular expression.
func form(w oldWord) finder { return finder{w, regexp.MustCompile(w.text)} }

// finders turns each list into what looks for it.
func finders() []finder {
	var all []finder
	for _, list := range []struct {
		words []oldWord
		by    func(oldWord) finder
	}{{oldWords, word}, {british, word}, {oldNames, name}, {oldForms, form}} {
		for _, w := range list.words {
			all = append(all, list.by(w))
		}
	}
	return all
}

// A scan collects the old wordings in texts.
type scan struct {
	finders []finder
	kept    map[keptPhrase]*regexp.Regexp
	met     map[keptPhrase]bool
	found   []string
}

func newScan(finders []finder) *scan {
	s := &scan{finders: finders, kept: map[keptPhrase]*regexp.Regexp{}, met: map[keptPhrase]bool{}}
	for _, k := range keptPhrases {
		s.kept[k] = word(oldWord{text: k.text}).pattern
	}
	return s
}

// text looks through one text; line is the one on which it starts.
func (s *scan) text(file string, line int, text string) {
	for _, f := range s.finders {
		for _, at := range f.pattern.FindAllStringIndex(text, -1) {
			if s.keeps(file, text, at) {
				continue
			}
			what := strings.TrimSpace(text[at[0]:at[1]])
			s.found = append(s.found, fmt.Sprintf("%s:%d: %q: write %s", file, line+strings.Count(text[:at[0]], "\n"), what, f.now))
		}
	}
}

// keeps reports whether a match is inside a phrase that is kept.
func (s *scan) keeps(file, text string, at []int) bool {
	for k, pattern := range s.kept {
		if !strings.HasPrefix(file, k.file) {
			continue
		}
		for _, in := range pattern.FindAllStringIndex(text, -1) {
			if in[0] <= at[0] && at[1] <= in[1] {
				s.met[k] = true
				return true
			}
		}
	}
	return false
}

func (s *scan) report(t *testing.T) {
	t.Helper()
	slices.Sort(s.found)
	s.found = slices.Compact(s.found)
	for _, f := range s.found {
		t.Error(f)
	}
}

// literals looks through the strings in Go code, except for imports, field tags
// and codes, which are stable.
func (s *scan) literals(file string, fset *token.FileSet, f *ast.File) {
	skip := map[*ast.BasicLit]bool{}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.Field:
			if n.Tag != nil {
				skip[n.Tag] = true
			}
		case *ast.BinaryExpr: // one text that is broken over several lines
			if text, ok := joined(n, skip); ok {
				s.text(file, fset.Position(n.Pos()).Line, text)
			}
		case *ast.BasicLit:
			if n.Kind != token.STRING || skip[n] {
				return true
			}
			text, err := unquoted(n)
			if err != nil || strings.Contains(text, "-") && codeShape.MatchString(text) {
				return true
			}
			s.text(file, fset.Position(n.Pos()).Line, text)
		}
		return true
	})
}

// unquoted returns the text of a literal, with \r for a line break that does not
// break the line of the code, so that lines can be counted.
func unquoted(lit *ast.BasicLit) (string, error) {
	text, err := strconv.Unquote(lit.Value)
	if !strings.HasPrefix(lit.Value, "`") {
		text = strings.ReplaceAll(text, "\n", "\r")
	}
	return text, err
}

// joined returns the text of concatenated literals and marks them as seen.
func joined(e ast.Expr, seen map[*ast.BasicLit]bool) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := unquoted(e)
		if e.Kind != token.STRING || err != nil || seen[e] {
			return "", false
		}
		seen[e] = true
		return text, true
	case *ast.BinaryExpr:
		if e.Op != token.ADD {
			return "", false
		}
		left, ok := joined(e.X, seen)
		right, also := joined(e.Y, seen)
		if ok && also {
			return left + right, true
		}
		// There are other operands between the texts: keep the texts.
		return left + "\x00" + right, left != "" || right != ""
	}
	return "", false
}

// name returns the path of the file from the project's root.
func (p parsed) name(t *testing.T) string {
	t.Helper()
	name, err := filepath.Rel(root(t), p.fset.Position(p.Pos()).Filename)
	if err != nil {
		t.Fatal(err)
	}
	return filepath.ToSlash(name)
}
