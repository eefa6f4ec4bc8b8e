package cli

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/sim/settingsfile"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
)

// deficitOptions are the flags of the deficit command.
type deficitOptions struct {
	Strategy string
	File     string
	Plot     string
	Force    bool
	JSON     bool
}

func newDeficit(s Streams) *cobra.Command {
	var o deficitOptions
	cmd := &cobra.Command{
		Use:   "deficit SCENARIO --strategy STRATEGY",
		Short: "Show water against stress days as minutes are cut",
		Long: `Replays one strategy with 10 % to 150 % of its minutes, for the site and for
each zone, and shows water a year against days of stress: can we just water
less? Today's setting is marked. With -o the same goes to a CSV file, in SI,
and with --plot it is drawn.`,
		Example: `  loamledger deficit yard.yaml --strategy "as found"
  loamledger deficit yard.yaml --strategy "as found" -o curve.csv --plot curve.png`,
		Args: exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.check(); err != nil {
				return err
			}
			l, err := load(args[0])
			if err != nil {
				return err
			}
			return l.deficit(cmd.Context(), s, &o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Strategy, "strategy", "", "`STRATEGY` whose minutes are cut and raised")
	f.StringVarP(&o.File, "file", "o", "", "CSV `FILE` to write")
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw the curves to")
	f.BoolVar(&o.Force, "force", false, "replace the files of -o and --plot")
	f.BoolVar(&o.JSON, "json", false, "print the curve as JSON")
	return cmd
}

// check refuses names that cannot be written before the work is done.
func (o *deficitOptions) check() error {
	if o.Strategy == "" {
		return &usageError{diag.MissingFlag, "--strategy is missing", "name the strategy whose minutes are to be cut"}
	}
	if o.File != "" {
		if err := forced(o.Force).free(o.File); err != nil {
			return err
		}
	}
	if o.File != "" && filepath.Clean(o.File) == filepath.Clean(o.Plot) {
		return &usageError{diag.FlagConflict, "-o and --plot name the same file", "name two"}
	}
	return freePNG(o.Plot, forced(o.Force), "curve.png")
}

// deficit replays a strategy with more and less of its minutes, writes what is
// to be written, and prints the curve.
func (l *loaded) deficit(ctx context.Context, s Streams, o *deficitOptions) error {
	st, err := l.strategyNamed(o.Strategy)
	if err != nil {
		return err
	}
	job := l.Job
	job.Workers = runtime.GOMAXPROCS(0)
	meter := progress.New(s.Err, s.Terminal && !o.JSON, len(tune.CurveShares())+2, "replaying")
	job.Step = meter.Step
	defer meter.Done()
	c, err := tune.Deficit(ctx, &job, st, nil)
	meter.Done()
	if err != nil {
		return err
	}
	if o.File != "" {
		if err := writeWhole(o.File, forced(o.Force), func(w io.Writer) error { return settingsfile.WriteCurve(w, c) }); err != nil {
			return err
		}
	}
	if o.Plot != "" {
		chart := l.CurveChart(c)
		if err := writePNG(o.Plot, forced(o.Force), &chart); err != nil {
			return err
		}
	}
	if o.JSON {
		return printJSON(s.Out, l.CurveRecord(c))
	}
	printLines(s.Out, l.Head())
	for _, view := range l.CurveViews(c) {
		printLines(s.Out, view.Head)
		if view.Grid != nil {
			printGrid(s.Out, view.Grid)
		}
		printLines(s.Out, view.Notes)
	}
	for _, name := range []string{o.File, o.Plot} {
		if name != "" {
			fmt.Fprintf(s.Out, "\nWrote %s\n", name)
		}
	}
	return nil
}
