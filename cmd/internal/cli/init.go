package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loamledger/scenarios"
	"loamledger/weather/diag"
)

// initOptions holds the flags of the init command.
type initOptions struct {
	Ask        bool
	Units, Out string
}

func newInit(s Streams) *cobra.Command {
	var o initOptions
	cmd := &cobra.Command{
		Use:   "init FILE",
		Short: "Write a scenario with comments, as a template or from answers to ten questions",
		Long: `Writes a scenario with comments explaining each line. Once you add a weather
file, the scenario runs as is. It never overwrites a file.

With --ask, it asks ten questions about the yard and writes a scenario from the
answers, without anything to edit. An empty line is "don't know": a default is
used, shown, and marked in the scenario. Type ? for help and back to return.
Without a weather file it generates synthetic weather from monthly figures that
it shows. Answers can be piped in, one on each line.`,
		Example: "  loamledger init --ask\n  loamledger init --ask --out yard.yaml --units si\n  loamledger init yard.yaml\n" +
			"  loamledger init yard.yaml --units si",
		Args: func(cmd *cobra.Command, args []string) error {
			if o.Ask && len(args) == 0 {
				return nil
			}
			if o.Out != "" && len(args) > 0 {
				return &usageError{diag.FlagConflict, "the file is named twice", "omit --out or the first name"}
			}
			if o.Out != "" {
				return nil
			}
			return exactly(1, "one file name")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				o.Out = args[0]
			}
			system, err := systemFlag(o.Units)
			if err != nil {
				return err
			}
			if o.Ask {
				return runAsk(cmd.Context(), s, &o)
			}
			err = writeWhole(o.Out, keepIt, func(w io.Writer) error {
				_, err := io.WriteString(w, scenarios.Template(system))
				return err
			})
			if err != nil {
				return err
			}
			fmt.Fprintf(s.Out, "Wrote %s. Edit it, put weather.csv in the same folder, then run: loamledger check %s\n", o.Out, o.Out)
			fmt.Fprintln(s.Out, "Without a weather file, generate synthetic weather: loamledger generate --help")
			return nil
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.Ask, "ask", false, "ask ten questions and write a scenario from the answers")
	f.StringVarP(&o.Out, "out", "o", "", "`FILE` to write; with --ask, yard.yaml if not given")
	f.StringVar(&o.Units, "units", "us", "`UNITS` to use in the scenario: us or si")
	return cmd
}
