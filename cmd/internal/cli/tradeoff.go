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

// tradeoffOptions holds the flags of the tradeoff command.
type tradeoffOptions struct {
	scenarioFlags
	Strategy string
	Out      string
	Plot     string
	Force    bool
	JSON     bool
}

func newTradeoff(s Streams) *cobra.Command {
	var o tradeoffOptions
	cmd := &cobra.Command{
		Use:   "tradeoff SCENARIO --strategy STRATEGY",
		Short: "Show water use and stress as run times are cut",
		Long: `Replays one strategy at 10% to 150% of its run times and shows annual water use
and stress days, for the site and for each zone. Use it to answer: "Can we just
water less?" The current setting is marked. With --out it also writes a CSV file
in SI units, and with --plot it draws the curves.`,
		Example: `  loamledger tradeoff yard.yaml --strategy "as found"
  loamledger tradeoff yard.yaml --strategy "as found" --out curve.csv --plot curve.png`,
		Args: exactly(1, "one scenario file"),
		RunE: onScenario(o.check, &o.scenarioFlags, func(ctx context.Context, l *loaded) error { return l.tradeoff(ctx, s, &o) }),
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.StringVar(&o.Strategy, "strategy", "", "`STRATEGY` whose run times are scaled; required")
	f.StringVarP(&o.Out, "out", "o", "", "CSV `FILE` to write")
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw the curves to")
	f.BoolVar(&o.Force, "force", false, "replace the files of --out and --plot")
	f.BoolVar(&o.JSON, "json", false, "print the curve as JSON")
	return cmd
}

// check rejects bad output names before any work is done.
func (o *tradeoffOptions) check() error {
	if o.Strategy == "" {
		return &usageError{diag.MissingFlag, "--strategy is required", "name the strategy whose run times are scaled"}
	}
	if o.Out != "" {
		if err := forced(o.Force).free(o.Out); err != nil {
			return err
		}
	}
	if o.Out != "" && filepath.Clean(o.Out) == filepath.Clean(o.Plot) {
		return &usageError{diag.FlagConflict, "--out and --plot name the same file", "use two names"}
	}
	return freePNG(o.Plot, forced(o.Force), "curve.png")
}

// tradeoff replays a strategy at scaled run times, writes the files asked for,
// and prints the curve.
func (l *loaded) tradeoff(ctx context.Context, s Streams, o *tradeoffOptions) error {
	st, err := l.strategyNamed(o.Strategy)
	if err != nil {
		return err
	}
	for _, name := range []string{o.Out, o.Plot} {
		if err := l.spare(name); err != nil {
			return err
		}
	}
	after := l.AfterLine(st)
	l.Study, st = l.After(st)
	job := l.Job
	job.Workers = runtime.GOMAXPROCS(0)
	meter := progress.New(s.bar, s.Terminal && !o.JSON, len(tune.CurveShares())+2, "replaying")
	job.Step = meter.Step
	defer meter.Done()
	c, err := tune.Deficit(ctx, &job, st, nil)
	meter.Done()
	if err != nil {
		return err
	}
	if o.Out != "" {
		if err := writeWhole(o.Out, forced(o.Force), func(w io.Writer) error { return settingsfile.WriteCurve(w, c) }); err != nil {
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
	if after != "" {
		fmt.Fprintln(s.Out, after)
	}
	for _, view := range l.CurveViews(c) {
		printLines(s.Out, view.Head)
		if view.Grid != nil {
			printGrid(s.Out, view.Grid)
		}
		printLines(s.Out, view.Notes)
	}
	for _, name := range []string{o.Out, o.Plot} {
		if name != "" {
			fmt.Fprintf(s.Out, "\nWrote %s\n", name)
		}
	}
	return nil
}
