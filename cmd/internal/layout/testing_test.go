package layout

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamledger/weather/quantity"
)

// executionsFile has the recorded executions of every fuzz target.
const executionsFile = ".ci/fuzz.csv"

var testFunc = regexp.MustCompile(`(?m)^func ((Test|Fuzz|Benchmark|Example)[A-Za-z0-9_]*)\(`)

// counted returns the counted part of the testing page, and the names of all
// tests.
func counted(t *testing.T) (text string, tests map[string]bool) {
	t.Helper()
	n, tests, fuzz := map[string]int{}, map[string]bool{}, map[string][]string{}
	goFiles(t, func(path, text string) {
		if !strings.HasSuffix(path, "_test.go") {
			return
		}
		for _, m := range testFunc.FindAllStringSubmatch(text, -1) {
			n[m[2]]++
			tests[m[1]] = true
			if dir := filepath.ToSlash(filepath.Dir(path)); m[2] == "Fuzz" {
				fuzz[dir] = append(fuzz[dir], m[1])
			}
		}
	})
	scripts, _ := filepath.Glob(filepath.Join(root(t), "cmd", "internal", "cli", "testdata", "script", "*.txtar"))
	values, files := publishedValues(t)
	var b strings.Builder
	fmt.Fprintf(&b, "%s tests, %d scripts of commands, %d benchmarks, %d examples in the documentation. %s published values in %d files "+
		"of\n`testdata/published`, each with its source. %d fuzz targets; executions recorded so far, to which `.ci/run long` and\n"+
		"`.ci/fuzz 60 record` add:\n\n",
		quantity.Whole(n["Test"]), len(scripts),
		n["Benchmark"], n["Example"], quantity.Whole(values), files, n["Fuzz"])
	b.WriteString("| fuzz targets of | executions |\n| --- | --- |\n")
	ran := executions(t)
	total := 0
	var dirs []string
	for dir := range fuzz {
		dirs = append(dirs, dir)
	}
	slices.Sort(dirs)
	for _, dir := range dirs {
		slices.Sort(fuzz[dir])
		var parts []string
		for _, name := range fuzz[dir] {
			k, recorded := ran[dir+","+name]
			total += k
			count := "not yet recorded"
			if recorded {
				count = quantity.Whole(k)
			}
			parts = append(parts, strings.TrimPrefix(name, "Fuzz")+" "+count)
		}
		fmt.Fprintf(&b, "| `%s` | %s |\n", dir, strings.Join(parts, ", "))
	}
	fmt.Fprintf(&b, "| all | %s |\n", quantity.Whole(total))
	return b.String(), tests
}

// publishedValues counts the rows of the tables of published values.
func publishedValues(t *testing.T) (rows, files int) {
	t.Helper()
	names, _ := filepath.Glob(filepath.Join(root(t), "testdata", "published", "*.csv"))
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		r := csv.NewReader(strings.NewReader(string(text)))
		r.Comment, r.FieldsPerRecord, r.LazyQuotes = '#', -1, true
		list, err := r.ReadAll()
		if err != nil {
			t.Fatal(name, err)
		}
		rows += len(list) - 1 // the header
		files++
	}
	return rows, files
}

// executions reads the executions by package and target.
func executions(t *testing.T) map[string]int {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root(t), filepath.FromSlash(executionsFile)))
	if err != nil {
		t.Fatal(err)
	}
	ran := map[string]int{}
	for line := range strings.Lines(string(text)) {
		f := strings.Split(strings.TrimSpace(line), ",")
		if len(f) != 3 {
			t.Fatalf("%s: %q", executionsFile, line)
		}
		n, err := strconv.Atoi(f[2])
		if err != nil || n <= 0 {
			t.Fatalf("%s: %q is not a number of executions", executionsFile, line)
		}
		ran[f[0]+","+f[1]] = n
	}
	return ran
}

// The counted part of the testing page is up to date, and the tests that
// DEVELOPERS.md names exist.
func TestTestingPage(t *testing.T) {
	want, tests := counted(t)
	name := filepath.Join(root(t), "DEVELOPERS.md")
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	page := string(b)
	from := strings.Index(page, "<!-- counted:")
	if from < 0 {
		t.Fatal("DEVELOPERS.md has no counted part")
	}
	from += strings.Index(page[from:], "\n") + 1
	to := from + strings.Index(page[from:], "<!-- end -->")
	switch {
	case page[from:to] == want:
	case os.Getenv("UPDATE") == "1":
		if err := os.WriteFile(name, []byte(page[:from]+want+page[to:]), 0o666); err != nil {
			t.Fatal(err)
		}
	default:
		t.Error("the counts in DEVELOPERS.md are not up to date: UPDATE=1 go test ./cmd/internal/layout -run TestTestingPage")
	}
	for _, m := range regexp.MustCompile("`((Test|Fuzz)[A-Z][A-Za-z0-9_]*)`").FindAllStringSubmatch(page, -1) {
		if !tests[m[1]] {
			t.Errorf("DEVELOPERS.md names %s, which does not exist", m[1])
		}
	}
}
