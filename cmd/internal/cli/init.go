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
		Short: "Write a commented scenario to edit",
		Long: `Writes a scenario that can be run as it stands, given a weather file, with a
comment on every part. A file that exists is not touched.`,
		Example: "  loamledger init yard.yaml\n  loamledger init yard.yaml --units si",
		Args:    exactly(1, "the name of the file to write"),
		RunE: func(_ *cobra.Command, args []string) error {
			system, err := systemFlag(units)
			if err != nil {
				return err
			}
			if err := writeWhole(args[0], keepIt, func(w io.Writer) error { _, err := io.WriteString(w, scenarios.Template(system)); return err }); err != nil {
				return err
			}
			fmt.Fprintf(s.Out, "Wrote %s. Edit it, put weather.csv beside it, then run: loamledger check %s\n", args[0], args[0])
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "us", "`UNITS` of the template: us or si")
	return cmd
}
