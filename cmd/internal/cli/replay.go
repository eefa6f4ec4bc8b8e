package cli

import (
	"context"
	"fmt"
	"runtime"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"loamledger/cmd/internal/outdir"
	"loamledger/cmd/internal/progress"
	"loamledger/scenarios/study"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// replayOptions are the flags of the replay command.
type replayOptions struct {
	Out      string
	Force    bool
	NoCSV    bool // leave out ledger.csv
	NoLedger bool // leave out ledger.csv and ledger.parquet
	NoCharts bool // leave out the pictures and the page
	JSON     bool
	Date     string
	Coming   string   // name of the strategy whose coming days are shown
	Extra    []string // files to copy into the folder's inputs
}

func (o *replayOptions) addFlags(f *pflag.FlagSet) {
	f.StringVarP(&o.Out, "out", "o", "", "`DIR` to write, made whole or not at all")
	f.BoolVar(&o.Force, "force", false, "replace a folder that an earlier run wrote")
	f.BoolVar(&o.NoCSV, "no-ledger-csv", false, "leave out ledger.csv, the largest file")
	f.BoolVar(&o.NoLedger, "no-ledger", false, "leave out the daily ledger, CSV and Parquet")
	f.BoolVar(&o.NoCharts, "no-charts", false, "leave out the charts and the page")
	f.BoolVar(&o.JSON, "json", false, "print the comparison as JSON")
	f.StringVar(&o.Coming, "coming", "", "`STRATEGY` to show on forecast days past the record; otherwise the first")
	f.StringVar(&o.Date, "date", "", "`DATE` to print on the page, such as 2026-03-01")
}

func newReplay(s Streams) *cobra.Command {
	var o replayOptions
	cmd := &cobra.Command{
		Use:   "replay SCENARIO [--out DIR]",
		Short: "Replay every strategy of a scenario on its weather and compare them",
		Long: `Replays every strategy of a scenario, zone by zone and day by day, over the
scenario's weather, two reference strategies besides, and prints a comparison.
With --out it writes the daily ledger (CSV and Parquet), the sums by strategy,
zone and year, run.json, charts and a page to read. The same inputs give the
same files to the byte, but for the date that --date puts on the page.

The scenario may be the run.json of an earlier run, which holds all of it: put a
copy beside the weather files and replay it.`,
		Example: "  loamledger replay yard.yaml --out results\n  loamledger replay run.json --out again",
		Args:    exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("out") && o.Out == "" {
				return &usageError{diag.BadFlag, "--out is empty", "write the name of a folder after it, or leave it out to write nothing"}
			}
			date, err := dayFlag("date", o.Date, "2026-03-01")
			if err != nil {
				return err
			}
			l, err := load(args[0])
			if err != nil {
				return err
			}
			return l.run(cmd.Context(), s, &o, date)
		},
	}
	o.addFlags(cmd.Flags())
	return cmd
}

// run replays the scenario, writes the out folder if there is to be one, and
// prints the comparison.
func (l *loaded) run(ctx context.Context, s Streams, o *replayOptions, date cal.Date) error {
	if o.Coming != "" {
		st, err := l.strategyNamed(o.Coming)
		if err != nil {
			return err
		}
		o.Coming = st.Name
	}
	l.Job.Workers, l.Job.Brief = runtime.GOMAXPROCS(0), true
	meter := progress.New(s.Err, s.Terminal && !o.JSON, len(l.Job.Strategies)+2, "replaying")
	l.Job.Step = meter.Step
	defer meter.Done()
	var table *tally.Table
	ahead, err := l.LookAhead(ctx)
	if err != nil {
		return err
	}
	if o.Out == "" {
		table, err = replay.Run(ctx, &l.Job, nil)
	} else {
		table, err = l.write(ctx, o, date, ahead)
	}
	meter.Done()
	if err != nil {
		return err
	}
	if o.JSON {
		return printJSON(s.Out, struct {
			study.Summary
			Warnings []study.WarningRecord `json:"warnings"`
		}{l.Summary(table), l.Warnings(table)})
	}
	notes, err := l.Notes(table)
	if err != nil {
		return err
	}
	printLines(s.Out, l.Head())
	printGrid(s.Out, l.Comparison(table))
	printLines(s.Out, notes)
	l.printComing(s.Out, ahead, o.Coming)
	if o.Out != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", o.Out)
	}
	return nil
}

// write replays the scenario into the out folder.
func (l *loaded) write(ctx context.Context, o *replayOptions, date cal.Date, ahead *study.Coming) (table *tally.Table, err error) {
	dir, err := outdir.Create(o.Out, o.Force)
	if err != nil {
		return nil, outFault(err)
	}
	defer func() {
		if err != nil {
			_ = dir.Abort() // the first fault is the one to tell
		}
	}()
	w := writer{loaded: l, dir: dir, options: o, date: date, ahead: ahead}
	if table, err = w.all(ctx); err != nil {
		return nil, err
	}
	if err = ctx.Err(); err != nil {
		return nil, err
	}
	return table, dir.Commit()
}
