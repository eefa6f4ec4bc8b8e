package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamledger/scenarios/runfile"
	"loamledger/scenarios/study"
	"loamledger/sim/settings"
	"loamledger/weather/quantity"
)

func newCheck(s Streams) *cobra.Command {
	var asJSON bool
	var common scenarioFlags
	cmd := &cobra.Command{
		Use:   "check SCENARIO",
		Short: "Read a scenario and its weather and list all errors",
		Long: `Reads a scenario and its weather, lists each error, its location and a fix, and
lists the defaults a replay would use. It does not run a replay
or write any files.`,
		Example: "  loamledger check yard.yaml",
		Args:    exactly(1, "one scenario file"),
		RunE: func(_ *cobra.Command, args []string) error {
			l, err := load(args[0], common)
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, struct {
					Readings []runfile.Input `json:"readings"`
					Defaults []runfile.Input `json:"defaults"`
					*study.CheckRecord
				}{runfile.Readings(l.Scenario), runfile.Defaults(l.Scenario), l.Checked()})
			}
			printLines(s.Out, l.Head())
			fmt.Fprintf(s.Out, "%s\n\n", l.TimerLine(settings.DefaultPercentStep))
			printLines(s.Out, study.ReadingLines(l.Scenario))
			printLines(s.Out, study.DefaultLines(l.Scenario))
			defaults := quantity.Count(len(l.Scenario.Defaults()), "default", "defaults")
			fmt.Fprintf(s.Out, "\n%s: no errors; %s used.\n", args[0], defaults)
			return nil
		},
	}
	common.addFlags(cmd.Flags())
	cmd.Flags().BoolVar(&asJSON, "json", false, "print weather, defaults and warnings as JSON")
	return cmd
}
