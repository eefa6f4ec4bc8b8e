package cli_test

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"loamledger/cmd/internal/cli"
)

// columns is the width of a common terminal window, in which a comparison must
// fit; common practice, no source.
const columns = 120

// With twelve strategies and names as long as a scenario allows, the table still
// fits and no name is truncated.
func TestComparisonFitsTheWindow(t *testing.T) {
	scenario := yard(t, 1)
	text := string(read(t, scenario))
	var names []string
	for i := range 10 {
		name := fmt.Sprintf("the program of the spring of year %d with all that was agreed upon at the meeting", i)
		names = append(names, name)
		text += fmt.Sprintf("  - name: %s\n    programs: [lawns]\n", name)
	}
	if err := os.WriteFile(scenario, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	out := done(t, "replay", scenario)
	_, table, _ := strings.Cut(out, "\n\n") // the lines before it have file names of any length
	table, _, ok := strings.Cut(table, "Median year")
	if !ok {
		t.Fatalf("no line about the years in\n%s", out)
	}
	for line := range strings.Lines(table) {
		if n := len([]rune(strings.TrimRight(line, " \n"))); n > columns {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	// A name may continue on the next line, in its column.
	for _, name := range names {
		words := strings.Fields(name)
		if !strings.Contains(table, strings.Join(words[:5], " ")) || strings.Count(table, words[len(words)-1]) < len(names) {
			t.Errorf("%q is truncated in\n%s", name, table)
		}
	}
}

// Progress is drawn on a terminal only, and never in the result.
func TestProgressStaysBesideTheResult(t *testing.T) {
	scenario := yard(t, 1)
	plain := done(t, "replay", scenario)
	var out, errs bytes.Buffer
	if code := cli.Main(t.Context(), []string{"replay", scenario}, cli.Streams{Out: &out, Err: &errs, Terminal: true}); code != 0 {
		t.Fatalf("exit code %d\n%s", code, errs.String())
	}
	if out.String() != plain {
		t.Errorf("the result on a terminal differs:\n%s\n%s", out.String(), plain)
	}
	if !strings.Contains(errs.String(), "replaying") {
		t.Error("no progress on the terminal")
	}
	if text := strings.TrimRight(errs.String(), " \r\n"); strings.HasSuffix(text, "%") {
		t.Errorf("progress stays on the screen: %q", text[max(0, len(text)-80):])
	}
}
