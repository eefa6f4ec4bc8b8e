package study

import (
	"fmt"

	"loamledger/scenarios"
)

// readingLines lists what was understood in other words than written; nothing if there is nothing of that kind.
func readingLines(sc *scenarios.Scenario) []string {
	var lines []string
	for _, in := range sc.Readings() {
		if len(lines) == 0 {
			lines = append(lines, "Read as:")
		}
		name, key := owner(sc, in.Key)
		lines = append(lines, fmt.Sprintf("  %s, %s: %q as %s", name, key, in.Text, in.ReadAs))
	}
	return lines
}
