package cli

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"loamledger/scenarios"
	"loamledger/weather/quantity"
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
			system := quantity.US
			switch units {
			case "us":
			case "si":
				system = quantity.SI
			default:
				return &usageError{fmt.Sprintf("--units %q is not known", units), "write us or si"}
			}
			if err := free(args[0]); err != nil {
				return err
			}
			f, err := os.OpenFile(args[0], os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
			if err != nil {
				return fmt.Errorf("writing %s: %w", args[0], err)
			}
			_, err = f.WriteString(scenarios.Template(system))
			if cerr := f.Close(); err == nil {
				err = cerr
			}
			if err != nil {
				_ = os.Remove(args[0]) // nothing half-written stays
				return fmt.Errorf("writing %s: %w", args[0], err)
			}
			fmt.Fprintf(s.Out, "Wrote %s. Edit it, put weather.csv beside it, then run: loamledger check %s\n", args[0], args[0])
			return nil
		},
	}
	cmd.Flags().StringVar(&units, "units", "us", "units of the template: us or si")
	return cmd
}
