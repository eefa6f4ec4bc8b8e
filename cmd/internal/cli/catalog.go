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
	var asJSON, parts, zones, measures, allowances bool
	cmd := &cobra.Command{
		Use:   "catalog",
		Short: "List soils, plants and sprinklers with values, ranges and sources",
		Long: `Lists the soils, plants, sprinklers and covers that a scenario can name, with
the default value, the usual range and the source of each value. It also lists
how rain sensors do in the field, and watering intervals of the low desert.`,
		Example: `  loamledger catalog
  loamledger catalog --units si
  loamledger catalog --parts
  loamledger catalog --zones
  loamledger catalog --measures
  loamledger catalog --allowances`,
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			sys, err := systemFlag(units)
			if err != nil {
				return err
			}
			if measures {
				list, err := measuresOnSample(cmd.Context())
				switch {
				case err != nil:
					return err
				case asJSON:
					return printJSON(s.Out, map[string]any{"measures": list})
				}
				printMeasures(s.Out, list)
				return nil
			}
			if allowances {
				if asJSON {
					return printJSON(s.Out, map[string]any{"allowances": catalog.AllowanceForms()})
				}
				printAllowances(s.Out)
				return nil
			}
			if asJSON {
				return printJSON(s.Out, map[string]any{
					"soils": catalog.Soils(), "plants": catalog.Plants(), "sprinklers": catalog.Sprinklers(), "covers": catalog.Covers(),
					"lawn_intake": catalog.LawnIntake(), "rain_sensors": catalog.RainSensors(), "watering_intervals": catalog.Waterings(),
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
	cmd.Flags().BoolVar(&measures, "measures", false,
		"list water-saving measures instead, with settings, sources, what field studies\nfound and what a "+
			"replay on the sample site gives")
	cmd.Flags().BoolVar(&allowances, "allowances", false, "list forms of allowances by law instead, with their sources")
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
	p.written(what, f, func(v float64) string { return quantity.Format(v, dim, p.sys) })
}

// number prints a figure without a unit.
func (p *figureWriter) number(what string, f catalog.Figure) {
	p.written(what, f, func(v float64) string { return fmt.Sprintf("%.2f", v) })
}

func (p *figureWriter) written(what string, f catalog.Figure, write func(float64) string) {
	value := write(f.Value)
	if f.Low != 0 || f.High != 0 {
		value += fmt.Sprintf("  (usually %s to %s)", write(f.Low), write(f.High))
	}
	p.row(what, value, f.Grade.String(), f.Source)
}

func printCatalog(w io.Writer, sys quantity.System) {
	p := &figureWriter{w: w, sys: sys}
	fmt.Fprintln(w, "Each source appears below the first value it covers.\n"+
		"A name that several entries are called is answered with all of them.\n\nSOILS")
	for _, soil := range catalog.Soils() {
		p.entry("%s  (hydrologic group %c)", soil.Name, soil.Group)
		p.aliases(soil.Aliases)
		p.figure("available water", soil.AWC, quantity.Capacity)
		p.figure("intake rate", soil.Intake, quantity.Rate)
		// The range is the same multiple of every value, as the source says.
		for i, slope := range []string{"0-3%", "4-6%", "7-12%", "13%+"} {
			asa := soil.ASA[i]
			asa.Low, asa.High = 0, 0
			p.figure("surface storage, slope "+slope, asa, quantity.Depth)
		}
	}
	p.entry("any lawn, whatever its texture  (runoff figures from default intake rates are uncertain)")
	p.figure("intake rate, measured", catalog.LawnIntake(), quantity.Rate)
	p.printPlants()
}
