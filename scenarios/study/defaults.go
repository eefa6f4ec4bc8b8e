package study

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
)

// owner splits the key of an input into its owner, such as the name of a zone,
// and the rest. Names may contain periods, so the key is not cut there.
func owner(sc *scenarios.Scenario, key string) (name, rest string) {
	name, rest = "site", key
	best := 0
	try := func(group, candidate string) {
		prefix := group + "." + candidate + "."
		if after, ok := strings.CutPrefix(key, prefix); ok && len(prefix) > best {
			best, name, rest = len(prefix), candidate, after
		}
	}
	for i := range sc.Zones {
		try("zones", sc.Zones[i].Name)
	}
	for i := range sc.Programs {
		try("programs", sc.Programs[i].Name)
	}
	for i := range sc.Strategies {
		try("strategies", sc.Strategies[i].Name)
	}
	return name, rest
}

// DefaultLines lists the defaults used, by zone, each with its value, source
// and grade.
func DefaultLines(sc *scenarios.Scenario) []string {
	defaults := sc.Defaults()
	if len(defaults) == 0 {
		return nil
	}
	lines := []string{"Defaults used:"}
	last, source := "", ""
	for _, d := range defaults {
		name, key := owner(sc, d.Key)
		if name != last {
			lines = append(lines, "", "  "+name)
			last, source = name, ""
		}
		line := fmt.Sprintf("    %-22s %s", key, d.Text)
		if d.Range != "" {
			line += "  (usually " + d.Range + ")"
		}
		lines = append(lines, line)
		from := fmt.Sprintf("%v: %s", d.Grade, d.Source)
		if from == source {
			from = "as above"
		} else {
			source = from
		}
		for _, part := range Wrap(from, 88) {
			lines = append(lines, "        "+part)
		}
	}
	return lines
}
