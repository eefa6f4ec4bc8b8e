package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/study"
	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

func newCatalog(s Streams) *cobra.Command {
	var units string
	var asJSON, parts, zones bool
	cmd := &cobra.Command{
		Use:   "catalog",
		Short: "List soils, plants and sprinklers with values, ranges and sources",
		Long: `Lists the soils, plants, sprinklers and covers that a scenario can name, with
the default value, the usual range and the source of each value.`,
		Example: `  loamledger catalog
  loamledger catalog --units si
  loamledger catalog --parts
  loamledger catalog --zones`,
		Args: exactly(0, ""),
		RunE: func(*cobra.Command, []string) error {
			sys, err := systemFlag(units)
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, map[string]any{
					"soils": catalog.Soils(), "plants": catalog.Plants(), "sprinklers": catalog.Sprinklers(), "covers": catalog.Covers(),
				})
			}
			if parts {
				printParts(s.Out, strategy.Kinds(), sys)
				return nil
			}
			if zones {
				printZoneParams(s.Out, sys)
				return nil
			}
			printCatalog(s.Out, sys)
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "us", "`UNITS` to print: us or si")
	cmd.Flags().BoolVar(&parts, "parts", false, "list the parts of a strategy instead, with examples")
	cmd.Flags().BoolVar(&zones, "zones", false, "list the parameters of a zone instead, with their table columns")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the catalog as JSON, in SI units")
	return cmd
}

// A figureWriter prints values entry by entry. Values in a row that share a
// source are followed by it once.
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

// row prints a value and its source.
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

func (p *figureWriter) figure(what string, f catalog.Figure, dim quantity.Dimension) {
	if !f.Known() {
		return
	}
	value := quantity.Format(f.Value, dim, p.sys)
	if f.Low != 0 || f.High != 0 {
		value += fmt.Sprintf("  (usually %s to %s)", quantity.Format(f.Low, dim, p.sys), quantity.Format(f.High, dim, p.sys))
	}
	p.row(what, value, f.Grade.String(), f.Source)
}

func printCatalog(w io.Writer, sys quantity.System) {
	p := &figureWriter{w: w, sys: sys}
	fmt.Fprintln(w, "Each source appears below the first value it covers.\n\nSOILS")
	for _, soil := range catalog.Soils() {
		p.entry("%s  (hydrologic group %c)", soil.Name, soil.Group)
		p.figure("available water", soil.AWC, quantity.Capacity)
		p.figure("intake rate", soil.Intake, quantity.Rate)
		for i, slope := range []string{"0-3%", "4-6%", "7-12%", "13%+"} {
			asa := soil.ASA[i]
			asa.Low, asa.High = 0, 0 // the range over all slopes, which the four lines show
			p.figure("surface storage, slope "+slope, asa, quantity.Depth)
		}
	}
	p.printPlants()
}
