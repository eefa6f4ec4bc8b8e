package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamledger/scenarios/runfile"
	"loamledger/scenarios/study"
	"loamledger/weather/quantity"
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
				return printJSON(s.Out, struct {
					Defaults []runfile.Input `json:"defaults"`
					*study.CheckRecord
				}{runfile.Defaults(l.Scenario), l.Checked()})
			}
			printLines(s.Out, l.Head())
			printLines(s.Out, study.DefaultLines(l.Scenario))
			fmt.Fprintf(s.Out, "\n%s: no fault found; %s not given.\n", args[0], quantity.Count(len(l.Scenario.Defaults()), "value was", "values were"))
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print weather, defaults and warnings as JSON")
	return cmd
}
