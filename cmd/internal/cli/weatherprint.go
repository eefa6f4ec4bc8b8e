package cli

import (
	"fmt"
	"io"
	"strings"

	"loamledger/scenarios/study"
	"loamledger/weather"
	"loamledger/weather/prepare"
)

// printFilling tells what was missing and what was put in, by column and rule,
// and how far the rules are off on days that are known.
func printFilling(w io.Writer, r *prepare.Ready) {
	if r.InventedDays > 0 {
		fmt.Fprintf(w, "  invented    %s of %s: made up by a random generator, observed nowhere\n", study.Count(r.InventedDays, "day", "days"), study.Group(r.Days))
	}
	fmt.Fprintf(w, "  filled      %s of %s\n", study.Count(r.FilledDays, "day", "days"), study.Group(r.Days))
	var lines []string
	for c := range weather.Columns {
		fills := study.FillsOf(r, c)
		if r.Missing[c] == 0 && len(fills) == 0 {
			continue
		}
		var rules []string
		for _, f := range fills {
			rules = append(rules, fmt.Sprintf("%s %s", f.Mark, study.Group(f.Days)))
		}
		if left := r.CountMissing(c); left > 0 {
			rules = append(rules, "left empty "+study.Group(left))
		}
		lines = append(lines, fmt.Sprintf("  %-10s %7s  %s\n", c.Key(), study.Group(r.Missing[c]), strings.Join(rules, ", ")))
	}
	if len(lines) > 0 {
		fmt.Fprintf(w, "\nMissing, and what was put in\n  column     missing  by rule, days\n%s", strings.Join(lines, ""))
	}
	if len(r.SelfTest) > 0 && r.InventedDays < r.Days {
		fmt.Fprintln(w, "\nThe filling, tried on days that are known")
		for _, e := range r.SelfTest {
			fmt.Fprintf(w, "  %v\n", e)
		}
	}
}
