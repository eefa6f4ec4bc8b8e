package layout

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/scenarios/evaluate/costsfile"
	"loamledger/sim/ledgerfile"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather"
)

var (
	codeSpan = regexp.MustCompile("`[^`]+`")
	keyWord  = regexp.MustCompile(`[a-z][a-z0-9_]*`)
)

// glossary returns the words written as code in the table that starts with
// "| word |", the project's one list of keys and columns.
func glossary(text string) map[string]bool {
	words := map[string]bool{}
	inside := false
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(strings.ToLower(line), "| word |") {
			inside = true
		}
		if !strings.HasPrefix(line, "|") {
			inside = false
		}
		if inside {
			for _, span := range codeSpan.FindAllString(line, -1) {
				for _, w := range keyWord.FindAllString(span, -1) {
					words[w] = true
				}
			}
		}
	}
	return words
}

// missing lists the keys with a part (parts are separated by dots) that is not
// in words.
func missing(words map[string]bool, keys []string) []string {
	var got []string
	for _, key := range keys {
		for part := range strings.SplitSeq(key, ".") {
			if part != "" && !words[part] {
				got = append(got, key)
				break
			}
		}
	}
	slices.Sort(got)
	return slices.Compact(got)
}

// scenarioKeys finds the keys of a scenario in package scenarios: they are the
// strings after the third argument of each call of open, which rejects all
// other keys. Keys of a zone are declared in a list.
func scenarioKeys(t *testing.T) []string {
	t.Helper()
	p := packages(t)["scenarios"]
	if p == nil {
		t.Fatal("no package scenarios")
	}
	var keys []string
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) < 4 {
				return true
			}
			if sel, ok := call.Fun.(*ast.SelectorExpr); !ok || sel.Sel.Name != "open" {
				return true
			}
			for _, arg := range call.Args[3:] {
				if lit, ok := arg.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					key, err := strconv.Unquote(lit.Value)
					if err != nil {
						t.Fatal(err)
					}
					keys = append(keys, key)
				}
			}
			return true
		})
	}
	for _, p := range scenarios.ZoneParams() {
		keys = append(keys, p.Key, p.Column)
	}
	if !slices.Contains(keys, "root_depth") || !slices.Contains(keys, "strategies") {
		t.Fatalf("this test no longer finds the keys in package scenarios; found %q", keys)
	}
	return keys
}

// One word and one unit for each quantity, from the scenario key to the file
// column: all of them are in one table.
func TestGlossaryHoldsEveryKeyAndColumn(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root(t), "DEVELOPERS.md"))
	if errors.Is(err, fs.ErrNotExist) {
		t.Skip("DEVELOPERS.md does not exist yet")
	}
	if err != nil {
		t.Fatal(err)
	}
	words := glossary(string(text))
	if len(words) == 0 {
		t.Fatal(`DEVELOPERS.md has no table that starts with "| word |" and has words in backquotes`)
	}
	var columns, parts []string
	for _, c := range ledgerfile.Columns() {
		columns = append(columns, c.Key)
	}
	for _, m := range tally.Measures() {
		columns = append(columns, m.Key)
	}
	for c := range weather.Columns {
		columns = append(columns, c.Key())
	}
	for _, k := range strategy.Kinds() {
		for _, p := range k.Params {
			parts = append(parts, k.Key+"."+p.Key)
		}
	}
	for what, keys := range map[string][]string{"columns": columns, "keys of a scenario": scenarioKeys(t), "keys of a strategy": parts,
		"keys of costs": costsfile.Keys()} {
		if got := missing(words, keys); len(got) > 0 {
			t.Errorf("the table of words in DEVELOPERS.md lacks these %s: %s", what, strings.Join(got, ", "))
		}
	}
}

func TestGlossaryIsRead(t *testing.T) {
	words := glossary("`outside`\n\n| Word | unit | key / column |\n| --- | --- | --- |\n" +
		"| rain | mm | `rain_mm`, `hold.rain` |\n\n| other | `not_this` |\n")
	got := missing(words, []string{"rain_mm", "hold.rain", "outside", "not_this", "hold.frost", "monthly."})
	if !slices.Equal(got, []string{"hold.frost", "monthly.", "not_this", "outside"}) {
		t.Errorf("missing %q", got)
	}
}
