package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loamledger/scenarios/catalogue"
	"loamledger/weather/quantity"
)

func newCatalogue(s Streams) *cobra.Command {
	var units string
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "catalogue",
		Short: "List soils, plants, sprinklers and covers with values, ranges and sources",
		Long: `Lists what a scenario can name, with the value used where none is given, the
range in which it is usually found, and where it is from.`,
		Example: "  loamledger catalogue\n  loamledger catalogue --units si",
		Args:    exactly(0, "no argument"),
		RunE: func(*cobra.Command, []string) error {
			sys := quantity.US
			switch units {
			case "us":
			case "si":
				sys = quantity.SI
			default:
				return &usageError{fmt.Sprintf("--units %q is not known", units), "write us or si"}
			}
			if asJSON {
				return printJSON(s.Out, map[string]any{"soils": catalogue.Soils(), "plants": catalogue.Plants(), "sprinklers": catalogue.Sprinklers(), "covers": catalogue.Covers()})
			}
			printCatalogue(s.Out, sys)
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "us", "`UNITS` to print: us or si")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print as JSON, in SI")
	return cmd
}

func printCatalogue(w io.Writer, sys quantity.System) {
	figure := func(what string, f catalogue.Figure, dim quantity.Dimension) {
		if !f.Known() {
			return
		}
		line := fmt.Sprintf("    %-28s %s", what, quantity.Format(f.Value, dim, sys))
		if f.Low != 0 || f.High != 0 {
			line += fmt.Sprintf("  (usually %s to %s)", quantity.Format(f.Low, dim, sys), quantity.Format(f.High, dim, sys))
		}
		fmt.Fprintf(w, "%s\n        %v; %s\n", line, f.Grade, f.Source)
	}
	fmt.Fprintln(w, "SOILS")
	for _, soil := range catalogue.Soils() {
		fmt.Fprintf(w, "  %s  (hydrologic group %c)\n", soil.Name, soil.Group)
		figure("available water", soil.AWC, quantity.Capacity)
		figure("intake rate", soil.Intake, quantity.Rate)
		for i, slope := range []string{"0-3 %", "4-6 %", "7-12 %", "13 % and more"} {
			figure("surface storage, slope "+slope, soil.ASA[i], quantity.Depth)
		}
	}
	printPlants(w, sys, figure)
}
