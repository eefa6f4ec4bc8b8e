package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loamledger/scenarios/catalogue"
	"loamledger/scenarios/study"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

func newCatalogue(s Streams) *cobra.Command {
	var units string
	var asJSON, parts, zones bool
	cmd := &cobra.Command{
		Use:   "catalogue",
		Short: "List soils, plants, sprinklers and covers with values, ranges and sources",
		Long: `Lists what a scenario can name, with the value used where none is given, the
range in which it is usually found, and where it is from.`,
		Example: "  loamledger catalogue\n  loamledger catalogue --units si\n  loamledger catalogue --parts\n  loamledger catalogue --zones",
		Args:    exactly(0, "no argument"),
		RunE: func(*cobra.Command, []string) error {
			sys, err := systemFlag(units)
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, map[string]any{"soils": catalogue.Soils(), "plants": catalogue.Plants(), "sprinklers": catalogue.Sprinklers(), "covers": catalogue.Covers()})
			}
			if parts {
				printParts(s.Out, strategy.Kinds(), sys)
				return nil
			}
			if zones {
				printZoneParams(s.Out, sys)
				return nil
			}
			printCatalogue(s.Out, sys)
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "us", "`UNITS` to print: us or si")
	cmd.Flags().BoolVar(&parts, "parts", false, "list what a strategy can be made of instead, with examples")
	cmd.Flags().BoolVar(&zones, "zones", false, "list the parameters of a zone instead, with their columns")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print as JSON, in SI")
	return cmd
}

// A figureWriter prints the figures of one entry after the other, each source
// once for the figures in a row that share it.
type figureWriter struct {
	w    io.Writer
	sys  quantity.System
	last string // the source printed last
}

// entry begins an entry.
func (p *figureWriter) entry(format string, args ...any) {
	fmt.Fprintf(p.w, "  "+format+"\n", args...)
	p.last = ""
}

// row prints a line and where it is from.
func (p *figureWriter) row(what, value, grade, source string) {
	fmt.Fprintf(p.w, "    %-28s %s\n", what, value)
	from := grade + "; " + source
	if from == p.last {
		return
	}
	p.last = from
	for _, line := range study.Wrap(from, 84) {
		fmt.Fprintf(p.w, "        %s\n", line)
	}
}

func (p *figureWriter) figure(what string, f catalogue.Figure, dim quantity.Dimension) {
	if !f.Known() {
		return
	}
	value := quantity.Format(f.Value, dim, p.sys)
	if f.Low != 0 || f.High != 0 {
		value += fmt.Sprintf("  (usually %s to %s)", quantity.Format(f.Low, dim, p.sys), quantity.Format(f.High, dim, p.sys))
	}
	p.row(what, value, f.Grade.String(), f.Source)
}

func printCatalogue(w io.Writer, sys quantity.System) {
	p := &figureWriter{w: w, sys: sys}
	fmt.Fprintln(w, "A source stands below the first figure it is for, and holds for those that follow.\n\nSOILS")
	for _, soil := range catalogue.Soils() {
		p.entry("%s  (hydrologic group %c)", soil.Name, soil.Group)
		p.figure("available water", soil.AWC, quantity.Capacity)
		p.figure("intake rate", soil.Intake, quantity.Rate)
		for i, slope := range []string{"0-3 %", "4-6 %", "7-12 %", "13 %+"} {
			asa := soil.ASA[i]
			asa.Low, asa.High = 0, 0 // of all slopes together: the four lines show it
			p.figure("surface storage, slope "+slope, asa, quantity.Depth)
		}
	}
	p.printPlants()
}
