package scenarios_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

var (
	exampleLine = regexp.MustCompile(`^( *)# ( *)([a-z_]+):( |$)`)
	insteadOf   = regexp.MustCompile(`# instead of ([a-z_]+):`)
)

// indent is how far a line is set in, its mark of a comment taken away.
func indent(line string) int {
	line = strings.Replace(line, "# ", "", 1)
	return len(line) - len(strings.TrimLeft(line, " "))
}

// use takes the comment mark of line i away, and of the lines it says it needs;
// what it stands instead of is commented out.
func use(lines []string, i int) []string {
	out := slices.Clone(lines)
	on := func(k int) { out[k] = strings.Replace(lines[k], "# ", "", 1) }
	on(i)
	if strings.Contains(lines[i], "with the two lines above") {
		on(i - 2)
		on(i - 1)
	}
	for k, depth := i-1, indent(lines[i]); k >= 0 && depth > 0 && exampleLine.MatchString(lines[k]); k-- {
		if indent(lines[k]) < depth { // a key over it
			on(k)
			depth = indent(lines[k])
		}
	}
	if m := insteadOf.FindStringSubmatch(lines[i]); m != nil {
		for k := i - 1; k >= 0; k-- {
			if strings.HasPrefix(strings.TrimSpace(lines[k]), m[1]+":") {
				out[k] = "#" + lines[k]
				break
			}
		}
	}
	return out
}

// Every example in a comment of the template can be used as it stands, alone
// and, for a group of keys, with all that is in it.
func TestExamplesOfTheTemplate(t *testing.T) {
	for _, sys := range []quantity.System{quantity.US, quantity.SI} {
		lines := strings.Split(scenarios.Template(sys), "\n")
		n := 0
		for i, line := range lines {
			m := exampleLine.FindStringSubmatch(line)
			if m == nil {
				continue
			}
			n++
			used := use(lines, i)
			if strings.HasSuffix(strings.TrimSpace(line), ":") { // the whole group
				for k := i + 1; k < len(lines) && exampleLine.MatchString(lines[k]) && indent(lines[k]) > indent(line); k++ {
					used[k] = strings.Replace(lines[k], "# ", "", 1)
				}
			}
			sc := mustRead(t, strings.Join(used, "\n"), nil)
			if sc.Units != sys {
				t.Errorf("%s changes the units", line)
			}
			key := m[3]
			heard := slices.ContainsFunc(sc.Inputs, func(in scenarios.Input) bool {
				return !in.Defaulted && in.Pos.Line >= i+1-2 && in.Pos.Line <= i+1
			})
			if !heard && !slices.Contains([]string{"limits", "round", "forecast", "layout_file"}, key) {
				t.Errorf("%q: nothing of it is among the inputs", line)
			}
		}
		if n < 50 {
			t.Errorf("only %d examples found", n)
		}
	}
}

// The template shows every part that a strategy can have.
func TestTemplateShowsEveryPart(t *testing.T) {
	text := scenarios.Template(quantity.US)
	for _, k := range strategy.Kinds() {
		outer, inner, nested := strings.Cut(k.Key, ".")
		form := `(?m)^    (# )?` + outer + `: `
		if nested {
			form += `.*\b` + inner + `: `
		}
		if !regexp.MustCompile(form).MatchString(text) {
			t.Errorf("%s is not in the template", k.Key)
		}
	}
}
