package yamlfile

import (
	"errors"
	"os"
	"slices"
	"strings"
	"testing"
)

func key(path string) (way []Step) {
	for part := range strings.SplitSeq(path, ".") {
		if part[0] >= '0' && part[0] <= '9' {
			way = append(way, Step{Item: int(part[0] - '0')})
		} else {
			way = append(way, Step{Key: part})
		}
	}
	return way
}

// set and add change a text.
func set(text string, changes ...Change) (string, error) { return edit(text, changes, nil) }

func add(text, key string, item []string) (string, error) {
	return edit(text, nil, []Items{{key, [][]string{item}}})
}

func edit(text string, changes []Change, items []Items) (string, error) {
	d, err := NewDoc(strings.NewReader(text), "")
	if err != nil {
		return "", err
	}
	if d, err = d.Edit(changes, items); err != nil {
		return "", err
	}
	return d.Text(), nil
}

func TestSet(t *testing.T) {
	for _, tt := range []struct{ text, path, value, want string }{
		{"a: 1 in # one\nb: 2\n", "a", "3 in", "a: 3 in # one\nb: 2\n"},
		{"a: \"1 in\"\n", "a", "3 in", "a: 3 in\n"},
		{"z:\n  - name: x   # first\n    s: {kind: spray, rate: 1.5 in/h}\n  - name: y\n", "z.0.s.rate", "2 in/h",
			"z:\n  - name: x   # first\n    s: {kind: spray, rate: 2 in/h}\n  - name: y\n"},
		{"z:\n  - name: x   # first\n    s: {kind: spray}\n", "z.0.s.rate", "2 in/h",
			"z:\n  - name: x   # first\n    s: {rate: 2 in/h, kind: spray}\n"},
		{"z:\n  - name: x   # first\n    s: {kind: spray}\n  - name: y\n", "z.0.depth", "6 in",
			"z:\n  - name: x   # first\n    depth: 6 in\n    s: {kind: spray}\n  - name: y\n"},
		{"z:\n  - {name: x, area: 3 m2}\n", "z.0.area", "4.5 m2", "z:\n  - {name: x, area: 4.5 m2}\n"},
		{"z:\n- name: x", "z.0.area", "4.5 m2", "z:\n- name: x\n  area: 4.5 m2\n"},
		{"z:\n  s:\n    a: 1\n", "z.t", "2", "z:\n  t: 2\n  s:\n    a: 1\n"},
		{"a: ärmel # é\nb: {ü: 3, c: 4}\n", "b.c", "5", "a: ärmel # é\nb: {ü: 3, c: 5}\n"},
	} {
		got, err := set(tt.text, Change{key(tt.path), tt.value})
		if err != nil || got != tt.want {
			t.Errorf("%q, %s: got %q, %v, want %q", tt.text, tt.path, got, err, tt.want)
		}
	}
	for _, tt := range []struct{ text, path string }{
		{"a: [1, 2]\n", "a"}, {"a: 1\n", "a.b"}, {"a: 1\n", "b.c"}, {"a: [1]\n", "a.3"}, {"a: |\n  1\n  2\n", "a"},
	} {
		if got, err := set(tt.text, Change{key(tt.path), "9"}); !errors.Is(err, errNoEdit) {
			t.Errorf("%q, %s: got %q, %v", tt.text, tt.path, got, err)
		}
	}
}

// Every number of the demo's zones can be set, and everything else stays as it is.
func TestSetInDemo(t *testing.T) {
	text, err := os.ReadFile("../demo/juniper-flat.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var changes []Change
	for i := range 5 {
		for _, k := range []string{"sprinkler.rate", "sprinkler.uniformity", "root_depth", "area"} {
			changes = append(changes, Change{append([]Step{{Key: "zones"}, {Item: i}}, key(k)...), "7.77 in"})
		}
	}
	got, err := set(string(text), changes...)
	if err != nil || strings.Count(got, "7.77 in") != 20 {
		t.Errorf("%d values, %v", strings.Count(got, "7.77 in"), err)
	}
	before, after := strings.Split(string(text), "\n"), strings.Split(got, "\n")
	for _, line := range after {
		if strings.Contains(line, "7.77 in") {
			continue
		}
		if !slices.Contains(before, line) {
			t.Errorf("changed line: %s", line)
		}
	}
}

func TestAppend(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"l:\n  - a: 1\n    # of a\n\n# of m\nm: 2\n", "l:\n  - a: 1\n  - a: 9\n    b: 8\n    # of a\n\n# of m\nm: 2\n"},
		{"m: 2\nl:\n- a: 1\n- a: 2", "m: 2\nl:\n- a: 1\n- a: 2\n- a: 9\n  b: 8\n"},
		{"l: [{a: 1}]\nm: 2\n", "l: [{a: 1},\n  {a: 9, b: 8}]\nm: 2\n"},
		{"l: [ # ]\n  {a: \"]\", c: [2]},\n]\n", "l: [ # ]\n  {a: \"]\", c: [2]},\n  {a: 9, b: 8}]\n"},
	} {
		got, err := add(tt.text, "l", []string{"- a: 9", "  b: 8"})
		if err != nil || got != tt.want {
			t.Errorf("%q: got %q, %v, want %q", tt.text, got, err, tt.want)
		}
	}
	for _, text := range []string{"l: [{a: 1} # one\n]\n", "l: []\n", "l: 1\n", "m: 1\n"} {
		if got, err := add(text, "l", []string{"- a: 9"}); !errors.Is(err, errNoEdit) {
			t.Errorf("%q: got %q, %v", text, got, err)
		}
	}
}

// Values are changed and items added at once.
func TestEditOfBoth(t *testing.T) {
	got, err := edit("l:\n  - a: 1\nm:\n  - b: 2\nn: 3\n", []Change{{key("l.0.c"), "5"}, {key("n"), "4"}},
		[]Items{{"l", [][]string{{"- a: 6"}, {"- a: 7", "  c: 8"}}}, {"m", [][]string{{"- b: 9"}}}})
	if want := "l:\n  - a: 1\n    c: 5\n  - a: 6\n  - a: 7\n    c: 8\nm:\n  - b: 2\n  - b: 9\nn: 4\n"; err != nil || got != want {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
	got, err = edit("n: 3\nl:\n  - a: 1", []Change{{key("l.0.c"), "5"}}, []Items{{"l", [][]string{{"- a: 6"}}}})
	if want := "n: 3\nl:\n  - a: 1\n    c: 5\n  - a: 6\n"; err != nil || got != want {
		t.Errorf("at the end: got %q, %v, want %q", got, err, want)
	}
}
