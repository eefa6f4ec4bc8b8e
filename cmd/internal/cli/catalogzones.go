package cli

import (
	"fmt"
	"io"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/weather/quantity"
)

// printZoneParams prints every parameter of a zone: its key, its column in a
// zone table, its range and its default.
func printZoneParams(w io.Writer, sys quantity.System) {
	fmt.Fprintln(w, "PARAMETERS OF A ZONE  (key in a scenario; column in a CSV zone table)")
	for _, p := range scenarios.ZoneParams() {
		column := p.Column
		if column == "" {
			column = "-"
		}
		fmt.Fprintf(w, "  %-22s %-16s %s\n", p.Key, column, p.Doc)
		if facts := zoneParamFacts(&p, sys); facts != "" {
			for _, line := range study.Wrap(facts, 60) {
				fmt.Fprintf(w, "  %22s %16s %s\n", "", "", line)
			}
		}
	}
}

func zoneParamFacts(p *scenarios.ZoneParam, sys quantity.System) string {
	text := func(v float64) string {
		if p.Bare {
			return quantity.Number(v, 4)
		}
		return quantity.Format(v, p.Dim, sys)
	}
	var facts []string
	if p.Required {
		facts = append(facts, "required")
	}
	if !p.Words {
		facts = append(facts, rangeText(p.Min, p.Max, p.Dim, p.Bare, sys))
	}
	switch {
	case p.Rests != "":
		facts = append(facts, "default: from the "+p.Rests)
	case p.Default != nil:
		f := p.Default(scenarios.ZoneBasis{})
		facts = append(facts, "default: "+text(f.Value)+" ("+f.Source+")")
	}
	return strings.Join(facts, "; ")
}
