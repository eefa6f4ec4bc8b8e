package cli

import (
	"fmt"
	"io"
	"strings"

	"loamledger/scenarios/study"
	"loamledger/scenarios/weatherfile"
	"loamledger/weather/csvfile"
)

func printLayouts(w io.Writer) {
	for i, l := range csvfile.Layouts() {
		if i > 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintf(w, "%s: %s\n", l.Name, l.Title)
		for _, part := range []struct{ title, text string }{
			{"", l.Doc}, {"Units", l.Units}, {"Missing", l.Missing}, {"Wind", l.WindHeight}, {"Source", l.Source},
		} {
			if part.text == "" {
				continue
			}
			text := part.text
			if part.title != "" {
				text = part.title + ": " + text
			}
			for _, line := range study.Wrap(text, 76) {
				fmt.Fprintf(w, "  %s\n", line)
			}
		}
		if l.Name == "declared" {
			fmt.Fprintln(w, "  Example layout file for --layout-file, or for layout_file under weather in a scenario:")
			for line := range strings.Lines(weatherfile.DeclaredExample) {
				fmt.Fprint(w, "    ", line)
			}
		}
	}
}
