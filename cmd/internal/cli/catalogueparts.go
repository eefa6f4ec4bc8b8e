package cli

import (
	"fmt"
	"io"
	"strings"

	"loamledger/scenarios/study"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// printParts prints what a strategy can be made of: each part with an example
// to paste and its parameters.
func printParts(w io.Writer, kinds []strategy.Kind, sys quantity.System) {
	fmt.Fprintln(w, "PARTS OF A STRATEGY  (any of them, each once unless a list is taken; the order does not matter)")
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
		facts = append(facts, "must be given")
	case p.Word != "":
		facts = append(facts, "else "+p.Word)
	case p.Type == strategy.Flag:
		facts = append(facts, "else "+map[bool]string{true: "true", false: "false"}[p.Default != 0])
	case p.Type == strategy.Quantity || p.Type == strategy.Number:
		facts = append(facts, "else "+text(p.Default))
	}
	if p.Type == strategy.Quantity || p.Type == strategy.Number && p.Max < 1<<52 {
		facts = append(facts, text(p.Min)+" to "+text(p.Max))
	}
	if len(p.Choices) > 0 {
		facts = append(facts, strings.Join(p.Choices, ", "))
	}
	fmt.Fprintf(w, "      %-17s %s (%s)\n", p.Key, p.Doc, strings.Join(facts, "; "))
}
