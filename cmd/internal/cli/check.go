package cli

import (
	"fmt"
	"loamledger/scenarios/runfile"

	"github.com/spf13/cobra"
)

func newCheck(s Streams) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "check SCENARIO",
		Short: "Read a scenario and its weather and report every fault",
		Long: `Reads a scenario and the weather it names, reports every fault with its place
and what to write instead, and lists the defaults that would be used. Nothing
is replayed and nothing written.`,
		Example: "  loamledger check yard.yaml",
		Args:    exactly(1, "one scenario file"),
		RunE: func(_ *cobra.Command, args []string) error {
			l, err := load(args[0])
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, l.checked())
			}
			l.printHead(s.Out)
			printDefaults(s.Out, l.Scenario)
			fmt.Fprintf(s.Out, "\n%s: no fault found; %s not given.\n", args[0], countOf(len(l.Scenario.Defaults()), "value was", "values were"))
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print weather, defaults and warnings as JSON")
	return cmd
}

// checkedJSON is what a script gets of a scenario without a fault.
type checkedJSON struct {
	Scenario   string          `json:"scenario"`
	Site       string          `json:"site"`
	Zones      int             `json:"zones"`
	Strategies int             `json:"strategies"`
	Weather    wxRecord        `json:"weather"`
	Defaults   []runfile.Input `json:"defaults"`
	Warnings   []warningJSON   `json:"warnings"`
}

func (l *loaded) checked() *checkedJSON {
	sc := l.Scenario
	out := &checkedJSON{
		Scenario: sc.File, Site: sc.Site.Name, Zones: len(sc.Zones), Strategies: len(sc.Strategies), Weather: l.weatherRecord(),
		Defaults: []runfile.Input{}, Warnings: l.warnings(nil),
	}
	for _, in := range sc.Defaults() {
		j := runfile.Input{Key: in.Key, Text: in.Text, Unit: in.Unit, Default: true, Range: in.Range, Source: in.Source, Grade: in.Grade.String()}
		if in.Numeric {
			j.Value = number(in.Value)
		}
		out.Defaults = append(out.Defaults, j)
	}
	return out
}
