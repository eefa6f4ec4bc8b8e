package cli

import (
	"fmt"
	"io"
	"strings"

	"loamledger/weather"
	"loamledger/weather/prepare"
)

// printFilling tells what was missing and what was put in, by column and rule,
// and how far the rules are off on days that are known.
func printFilling(w io.Writer, r *prepare.Ready) {
	if r.InventedDays > 0 {
		fmt.Fprintf(w, "  invented    %s of %s: made up by a random generator, observed nowhere\n", countOf(r.InventedDays, "day", "days"), group(r.Days))
	}
	fmt.Fprintf(w, "  filled      %s of %s\n", countOf(r.FilledDays, "day", "days"), group(r.Days))
	var lines []string
	for c := range weather.Columns {
		fills := fillsOf(r, c)
		if r.Missing[c] == 0 && len(fills) == 0 {
			continue
		}
		var rules []string
		for _, f := range fills {
			rules = append(rules, fmt.Sprintf("%s %s", f.Mark, group(f.Days)))
		}
		if left := r.CountMissing(c); left > 0 {
			rules = append(rules, "left empty "+group(left))
		}
		lines = append(lines, fmt.Sprintf("  %-10s %7s  %s\n", c.Key(), group(r.Missing[c]), strings.Join(rules, ", ")))
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

// A markCount is on how many days a column carries a mark of values put in.
type markCount struct {
	Mark weather.Mark
	Days int
}

// fillsOf counts what was put into column c, by rule; what is invented is told
// by the day.
func fillsOf(r *prepare.Ready, c weather.Column) []markCount {
	if !r.Has(c) {
		return nil
	}
	var out []markCount
	for m := range weather.Marks {
		if n := r.CountMark(c, m); m.Filled() && m != weather.Invented && n > 0 {
			out = append(out, markCount{m, n})
		}
	}
	return out
}
