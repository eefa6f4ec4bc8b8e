package cli_test

import (
	"regexp"
	"strings"
	"testing"
)

// Law: the command printed next to the number of findings shows that number.
func TestFindingsAreCountedOneWay(t *testing.T) {
	const scenario = "../../../scenarios/examples/weir-meadow.yaml"
	m := regexp.MustCompile(`, (\d+) findings? \(see: loamledger (.*?)\)\n`).FindStringSubmatch(string(runOut(t, "check", scenario)))
	if m == nil {
		t.Fatal("check names no findings")
	}
	var args []string
	for i, part := range strings.Split(m[2], `"`) {
		if i%2 == 1 {
			args = append(args, part)
		} else {
			args = append(args, strings.Fields(part)...)
		}
	}
	if out := string(runOut(t, args...)); !strings.Contains(out, "\nFindings ("+m[1]+")\n") {
		t.Errorf("%v does not show %s findings:\n%s", args, m[1], out)
	}
}
