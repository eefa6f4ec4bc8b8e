package damage

import (
	"fmt"
	"strings"
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
