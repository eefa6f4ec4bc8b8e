package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loamledger/scenarios"
)

func newInit(s Streams) *cobra.Command {
	var units string
	cmd := &cobra.Command{
		Use:   "init FILE",
		Short: "Write a scenario with comments explaining each line",
		Long: `Writes a scenario with comments explaining each line. Once you add a weather
file, the scenario runs as is. It never overwrites a file.`,
		Example: "  loamledger init yard.yaml\n  loamledger init yard.yaml --units si",
		Args:    exactly(1, "one file name"),
		RunE: func(_ *cobra.Command, args []string) error {
			system, err := systemFlag(units)
			if err != nil {
				return err
			}
			err = writeWhole(args[0], keepIt, func(w io.Writer) error {
				_, err := io.WriteString(w, scenarios.Template(system))
				return err
			})
			if err != nil {
				return err
			}
			fmt.Fprintf(s.Out, "Wrote %s. Edit it, put weather.csv in the same folder, then run: loamledger check %s\n", args[0], args[0])
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "us", "`UNITS` to use in the scenario: us or si")
	return cmd
}
