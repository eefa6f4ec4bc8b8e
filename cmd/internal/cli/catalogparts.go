package cli

import (
	"fmt"
	"io"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// printParts prints each part of a strategy with its parameters and an example
// to paste.
func printParts(w io.Writer, kinds []strategy.Kind, sys quantity.System) {
	fmt.Fprintln(w, "PARTS OF A STRATEGY  (combine any; use each once unless it takes a list; order does not matter)")
	for _, k := range kinds {
		fmt.Fprintf(w, "\n  %s\n", k.Key)
		for _, line := range study.Wrap(k.Doc, 92) {
			fmt.Fprintf(w, "    %s\n", line)
		}
		fmt.Fprintf(w, "    example: %s\n", k.Example)
		for _, p := range k.Params {
			if p.Key != "" {
				printParam(w, &p, sys)
			}
		}
	}
	fmt.Fprintln(w, "\nPARTS WITH DATES AND A LIFE  (parts with named parameters take these, too, unless they have dates of their own)")
	fmt.Fprintf(w, "\n    example: %s\n", scenarios.TermExample)
	for _, d := range scenarios.TermDocs() {
		printDoc(w, d.Key, d.Doc)
	}
	fmt.Fprintln(w, "\nCHANGES OF A STRATEGY  (hardware, planting, soil or area; a list in order, after those of like)")
	fmt.Fprintf(w, "\n    example: %s\n", scenarios.ChangesExample)
	for _, d := range scenarios.ChangeDocs() {
		printDoc(w, d.Key, d.Doc)
	}
}

// printDoc prints a key and what it is.
func printDoc(w io.Writer, key, doc string) {
	lines := study.Wrap(doc, 74)
	fmt.Fprintf(w, "      %-17s %s\n", key, lines[0])
	for _, line := range lines[1:] {
		fmt.Fprintf(w, "      %-17s %s\n", "", line)
	}
}

func printParam(w io.Writer, p *strategy.Param, sys quantity.System) {
	text := func(v float64) string {
		if p.Type == strategy.Number {
			return quantity.Number(v, 4)
		}
		return quantity.Format(v, p.Dim, sys)
	}
	var facts []string
	switch {
	case p.Required:
		facts = append(facts, "required")
	case p.Word != "":
		facts = append(facts, "default: "+p.Word)
	case p.Type == strategy.Flag:
		facts = append(facts, "default: "+map[bool]string{true: "true", false: "false"}[p.Default != 0])
	case p.Type == strategy.Quantity || p.Type == strategy.Number:
		facts = append(facts, "default: "+text(p.Default))
	}
	if p.Type == strategy.Quantity || p.Type == strategy.Number && p.Max < 1<<52 {
		facts = append(facts, rangeText(p.Min, p.Max, p.Dim, p.Type == strategy.Number, sys))
	}
	if len(p.Choices) > 0 {
		facts = append(facts, strings.Join(p.Choices, ", "))
	}
	fmt.Fprintf(w, "      %-17s %s (%s)\n", p.Key, p.Doc, strings.Join(facts, "; "))
}
