package damage

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// table prints how often each outcome occurred in each layout.
func table(all []layout, byLayout []count) string {
	var b strings.Builder
	row := func(name string, c count) {
		tries := 0
		for _, n := range c {
			tries += n
		}
		fmt.Fprintf(&b, "%-12s %6d %8d %9d %6d %12d\n", name, tries, c[refused], c[reported], c[same], c[silent])
	}
	fmt.Fprintf(&b, "%-12s %6s %8s %9s %6s %12s\n", "layout", "tries", "refused", "reported", "same", "undetectable")
	var sum count
	for j := range all {
		row(all[j].name, byLayout[j])
		for o, n := range byLayout[j] {
			sum[o] += n
		}
	}
	row("all", sum)
	return b.String()
}

// blindText lists the blind spots.
func blindText() string {
	var b strings.Builder
	b.WriteString("\nUndetectable, with the reason:\n\n")
	for _, s := range blindSpots() {
		fmt.Fprintf(&b, "- %s", s.fault)
		if s.layouts != nil {
			fmt.Fprintf(&b, " (only in %s)", strings.Join(s.layouts, ", "))
		}
		fmt.Fprintf(&b, ": %s.\n", s.why)
	}
	return b.String()
}

// page is the file with the testing page, and its part about damage.
func page(t *testing.T) (name, before, part, after string) {
	t.Helper()
	name = filepath.Join("..", "..", "..", "DEVELOPERS.md")
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := string(b)
	from := strings.Index(text, "<!-- damage:")
	if from < 0 {
		t.Fatal("DEVELOPERS.md has no part about damage")
	}
	from += strings.Index(text[from:], "\n") + 1
	to := from + strings.Index(text[from:], "<!-- end -->")
	return name, text[:from], text[from:to], text[to:]
}

// onPage wants the table and the blind spots on the testing page, or writes
// them there with UPDATE=1.
func onPage(t *testing.T, table string) {
	t.Helper()
	name, before, part, after := page(t)
	want := fmt.Sprintf("%d kinds of damage in %d layouts, at %d places each if the layout can have it:\n\n", len(faults()), len(layouts()),
		longSeeds)
	for line := range strings.Lines(table) {
		want += "    " + line
	}
	want += blindText()
	if os.Getenv("UPDATE") == "1" {
		if err := os.WriteFile(name, []byte(before+want+after), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if part != want {
		t.Error("the part about damage in DEVELOPERS.md is not up to date; run the command in it")
	}
}

// What is known without all tries is on the page too: the number of kinds and
// the blind spots.
func TestDamageIsOnThePage(t *testing.T) {
	_, _, part, _ := page(t)
	if kinds := fmt.Sprintf("%d kinds of damage in %d layouts", len(faults()), len(layouts())); !strings.Contains(part, kinds) ||
		!strings.Contains(part, blindText()) {
		t.Errorf("the part about damage in DEVELOPERS.md is not up to date, want %s; run the command in it", kinds)
	}
}
