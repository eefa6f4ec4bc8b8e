package cli

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"slices"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/plots"
	"loamledger/plots/pngfile"
	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim/tally"
	"loamledger/weather/diag"
)

// rangesOptions holds the flags of the ranges command.
type rangesOptions struct {
	scenarioFlags
	Draws  int
	Set    string
	Plot   string
	Swings string
	Force  bool
	JSON   bool

	keep bool // of Set
}

func newRanges(s Streams) *cobra.Command {
	var o rangesOptions
	cmd := &cobra.Command{
		Use:   "ranges SCENARIO",
		Short: "Show how far the results may be off, and what to measure first",
		Long: `Replays every strategy of a scenario many times, with numbers drawn from their
ranges: those that the scenario gives, such as uniformity: 45% to 65% or the run
time that someone has entered, minutes: {front: 10 to 14}; those of the rates of
water, price: 8 to 12; and those of the defaults. It shows P10, P50 and P90 of
water, money and stress, in how many draws each strategy is better than the
baseline, what one input does at a time, and what to measure first. It says so
if the result is too close to call.

A controller that keeps its own water balance is set from the values of each
draw, as if someone had measured them; with --settings keep it keeps what follows from
the stated values. A number given without a range counts as exact.`,
		Example: `  loamledger ranges yard.yaml
  loamledger ranges yard.yaml --draws 200 --plot ranges.png --plot-inputs inputs.png`,
		Args: exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.check(); err != nil {
				return err
			}
			l, err := load(args[0], o.scenarioFlags)
			if err != nil {
				return err
			}
			if err := l.drawable(); err != nil {
				return err
			}
			return l.ranges(cmd.Context(), s, &o)
		},
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.IntVar(&o.Draws, "draws", 0, drawsUsage)
	f.Lookup("draws").DefValue = "0"
	f.StringVar(&o.Set, "settings", "follow", settingsUsage)
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw the spread of results to")
	f.StringVar(&o.Swings, "plot-inputs", "", "PNG `FILE` to draw what one input does at a time to")
	f.BoolVar(&o.Force, "force", false, "replace the files of --plot and --plot-inputs")
	f.BoolVar(&o.JSON, "json", false, "print the results as JSON")
	return cmd
}

// drawsUsage describes the flag of every command that makes draws.
const drawsUsage = "`NUMBER` of draws from the ranges of the inputs\n(default ranges.draws of the scenario, 1000)"

// settingsUsage describes the flag that says from what controllers are set in the draws.
const settingsUsage = "`HOW` controllers are set in the draws: follow, from the values of each\ndraw, or keep, from the stated values"

// checkSettings reads that flag.
func checkSettings(text string) (keep bool, err error) {
	switch text {
	case "follow":
		return false, nil
	case "keep":
		return true, nil
	}
	return false, &usageError{diag.BadFlag, fmt.Sprintf("--settings %q is not valid", text), "write follow or keep"}
}

// checkDraws rejects a number of draws that says nothing, or takes forever.
func checkDraws(n, least int) error {
	if n != 0 && (n < least || n > scenarios.MostDraws) {
		return &usageError{diag.BadFlag, fmt.Sprintf("--draws %d is not valid", n),
			fmt.Sprintf("write a number from %d to %d; a thousand is usual", least, scenarios.MostDraws)}
	}
	return nil
}

// leastDraws is the minimum number of draws: fewer have no tenth.
const leastDraws = 100

// check rejects bad flags before any work is done.
func (o *rangesOptions) check() error {
	if err := checkDraws(o.Draws, leastDraws); err != nil {
		return err
	}
	var err error
	if o.keep, err = checkSettings(o.Set); err != nil {
		return err
	}
	if o.Plot != "" && o.Plot == o.Swings {
		return &usageError{diag.FlagConflict, "--plot and --plot-inputs name the same file", "use two names"}
	}
	if err := freePNG(o.Plot, forced(o.Force), "ranges.png"); err != nil {
		return err
	}
	return freePNG(o.Swings, forced(o.Force), "inputs.png")
}

// drawable rejects the record of a run without draws: it states every number, so defaults
// have lost their ranges.
func (l *loaded) drawable() error {
	ofZone := func(d scenarios.Doubt) bool { return d.Zone != "" }
	if l.repeated == nil || l.Scenario.Ranges.Draws > 0 && slices.ContainsFunc(l.Scenario.Doubts, ofZone) {
		return nil
	}
	return &usageError{diag.BadFlag, "the record of a run without draws has no ranges of defaults: it states every number",
		"name the scenario itself"}
}

// ranges replays, draws and prints.
func (l *loaded) ranges(ctx context.Context, s Streams, o *rangesOptions) error {
	for _, name := range []string{o.Plot, o.Swings} {
		if err := l.spare(name); err != nil {
			return err
		}
	}
	l.Job.Workers, l.Job.Brief = runtime.GOMAXPROCS(0), true
	table, err := l.Replay(ctx, nil)
	if err != nil {
		return err
	}
	r, err := l.draws(ctx, s, table, study.DrawOptions{Draws: o.Draws, Keep: o.keep}, o.JSON)
	if err != nil {
		return err
	}
	for i, name := range []string{o.Plot, o.Swings} {
		charts := l.RangeCharts(table, r)
		if name == "" {
			continue
		}
		if i >= len(charts) {
			return &diag.Error{Code: diag.NoEffect, Pos: diag.Pos{File: l.Scenario.File},
				Msg: "no input that is in doubt changes the saving, so there is nothing to draw", Fix: "omit --plot-inputs, or give inputs as ranges"}
		}
		if err := writeWhole(name, forced(o.Force), func(w io.Writer) error { return pngfile.Draw(&charts[i]).Write(w) }); err != nil {
			return err
		}
	}
	if o.JSON {
		return printJSON(s.Out, l.DrawRecord(table, r))
	}
	printLines(s.Out, l.Head())
	printViews(s.Out, l.RangeViews(table, r))
	for _, name := range []string{o.Plot, o.Swings} {
		if name != "" {
			fmt.Fprintf(s.Out, "\nWrote %s\n", name)
		}
	}
	return nil
}

// drawIfAsked makes draws if the flag or the scenario asks for them.
func (l *loaded) drawIfAsked(ctx context.Context, s Streams, t *tally.Table, draws int, quiet bool) error {
	if draws == 0 && l.Scenario.Ranges.Draws == 0 {
		return nil
	}
	if err := l.drawable(); err != nil {
		return err
	}
	_, err := l.draws(ctx, s, t, study.DrawOptions{Draws: draws}, quiet)
	return err
}

// draws makes draws, with progress.
func (l *loaded) draws(ctx context.Context, s Streams, t *tally.Table, options study.DrawOptions, quiet bool) (*plots.Ranges, error) {
	options.Workers = runtime.GOMAXPROCS(0)
	meter := progress.New(s.bar, s.Terminal && !quiet, options.Steps(l.Study), "drawing")
	defer meter.Done()
	options.Step = meter.Step
	return l.Draw(ctx, t, options)
}
