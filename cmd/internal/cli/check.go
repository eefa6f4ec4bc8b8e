package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"loamledger/scenarios/runfile"
	"loamledger/scenarios/study"
	"loamledger/sim/settings"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func newCheck(s Streams) *cobra.Command {
	var asJSON bool
	var common scenarioFlags
	cmd := &cobra.Command{
		Use:   "check SCENARIO",
		Short: "Read a scenario and its weather and list all errors and warnings",
		Long: `Reads a scenario and its weather and says whether it is ready for a replay. It
lists each error, its location and a fix; then what is probably a mistake, with
the usual range; then the defaults a replay would use.

It replays the strategies once in memory to find implausible results. It writes
no files.`,
		Example: "  loamledger check yard.yaml",
		Args:    exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			l, err := load(args[0], common)
			if err != nil {
				return notReady(s, args[0], asJSON, err)
			}
			l.Job.Workers = runtime.GOMAXPROCS(0)
			table, err := l.Foresee(cmd.Context())
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, struct {
					*study.CheckRecord
					Readings []runfile.Input `json:"readings"`
					Defaults []runfile.Input `json:"defaults"`
				}{l.Checked(table), runfile.Readings(l.Scenario), runfile.Defaults(l.Scenario)})
			}
			printLines(s.Out, l.ReadyLines(table, settings.DefaultPercentStep))
			return nil
		},
	}
	common.addFlags(cmd.Flags())
	cmd.Flags().BoolVar(&asJSON, "json", false, "print verdict, weather, warnings and defaults as JSON")
	return cmd
}

// notReady prints the verdict on a scenario with errors before they are printed.
// The error is err.
func notReady(s Streams, name string, asJSON bool, err error) error {
	if exitCode(err) != exitInput {
		return err
	}
	verdict := "Not ready for a replay: " + quantity.Count(countErrors(err), "error", "errors") + "."
	if asJSON {
		failed := newErrorsJSON(err, exitInput)
		failed.Ready, failed.Verdict = new(bool), verdict
		return errors.Join(err, printJSON(s.Out, failed))
	}
	fmt.Fprintf(s.Err, "%s: %s\n", filepath.Base(name), verdict)
	return err
}

// countErrors counts the input errors in err.
func countErrors(err error) int {
	leaves, more := diag.Leaves(err)
	return len(leaves) + more
}
