package cli

import (
	"fmt"
	"io"
)

// printLines prints each line unchanged.
func printLines(w io.Writer, lines []string) {
	for _, line := range lines {
		fmt.Fprintln(w, line)
	}
}
