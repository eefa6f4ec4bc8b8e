package cli

import (
	"context"
	"errors"
	"fmt"
	"runtime"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"loamledger/cmd/internal/outdir"
	"loamledger/cmd/internal/progress"
	"loamledger/scenarios/study"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// replayOptions are the flags of the replay command.
type replayOptions struct {
	Out      string
	Force    bool
	NoCSV    bool // omit ledger.csv
	NoLedger bool // omit ledger.csv and ledger.parquet
	NoCharts bool // omit the charts and the reports
	PDF      bool // write report.pdf, too
	JSON     bool
	Date     string
	Draws    int      // from the ranges of the inputs; 0 for the scenario's number
	Outlook  string   // name of the strategy to show on forecast days
	Extra    []string // files to copy into the inputs folder
	scenarioFlags
	forecastFlags

	draw func(*tally.Table) error // makes draws, if any are asked for
}

func (o *replayOptions) addFlags(f *pflag.FlagSet) {
	f.StringVarP(&o.Out, "out", "o", "", "output `FOLDER`, written atomically")
	f.BoolVar(&o.Force, "force", false, "replace the output folder of an earlier run, if nothing in it was\nchanged or is an input")
	f.BoolVar(&o.NoCSV, "no-ledger-csv", false, "omit ledger.csv, the largest file")
	f.BoolVar(&o.NoLedger, "no-ledger", false, "omit the daily ledger, CSV and Parquet")
	f.BoolVar(&o.NoCharts, "no-charts", false, "omit the charts and the reports")
	f.BoolVar(&o.PDF, "pdf", false, "write the report as report.pdf, too (see: loamledger report)")
	f.BoolVar(&o.JSON, "json", false, "print the comparison as JSON")
	f.StringVar(&o.Outlook, "outlook", "", "`STRATEGY` to show zone by zone on forecast days after the record\n(default the totals of all)")
	f.IntVar(&o.Draws, "draws", 0, "`NUMBER` of draws from the ranges of the inputs, for report and record\n"+
		"(default ranges.draws of the scenario, else none)")
	f.Lookup("draws").DefValue = "0"
	o.scenarioFlags.addFlags(f)
	o.forecastFlags.addFlags(f)
	f.StringVar(&o.Date, "date", "", "`DATE` to print in the HTML report, such as 2026-03-01")
}

func newReplay(s Streams) *cobra.Command {
	var o replayOptions
	cmd := &cobra.Command{
		Use:   "replay SCENARIO [--out FOLDER]",
		Short: "Replay and compare the strategies of a scenario",
		Long: `Replays every strategy of a scenario, plus two references, over the scenario's
weather, zone by zone and day by day, and prints a comparison.

With forecasts of days after the record, in the scenario or by --forecast, it
also shows what every strategy would do on those days, apart from the replay.

With --out it writes the daily ledger (CSV and Parquet), totals by strategy,
zone and year, run.json, charts and an HTML report. The same inputs give
identical files, except for the date set by --date and the hash of its page.

The scenario may be the run.json of an earlier run, which contains the whole
scenario: copy it to the folder of the weather files and replay it.`,
		Example: "  loamledger replay yard.yaml --out results\n  loamledger replay run.json --out again",
		Args:    exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.PDF && (o.NoCharts || o.Out == "") {
				return &usageError{diag.BadFlag, "--pdf needs --out, and charts", "add --out FOLDER and omit --no-charts, or write: loamledger " +
					"report " +
					args[0] + " --out report.pdf"}
			}
			date, err := dayFlag("date", o.Date, "2026-03-01")
			if err != nil {
				return err
			}
			if err := errors.Join(o.forecastFlags.check(), checkDraws(o.Draws, leastDraws)); err != nil {
				return err
			}
			l, err := loadWith(args[0], o.scenarioFlags, o.forecastFlags)
			if err != nil {
				return err
			}
			return l.run(cmd.Context(), s, &o, date)
		},
	}
	o.addFlags(cmd.Flags())
	return cmd
}

// run replays the scenario, writes the output folder if one is wanted, and
// prints the comparison.
func (l *loaded) run(ctx context.Context, s Streams, o *replayOptions, date cal.Date) error {
	if o.Outlook != "" {
		st, err := l.strategyNamed(o.Outlook)
		if err != nil {
			return err
		}
		o.Outlook = st.Name
	}
	l.Job.Workers, l.Job.Brief = runtime.GOMAXPROCS(0), true
	tidyOften(&l.Job)
	meter := progress.New(s.bar, s.Terminal && !o.JSON, len(l.Job.Strategies)+2, "replaying")
	l.Job.Step = meter.Step
	defer meter.Done()
	var table *tally.Table
	ahead, err := l.LookAhead(ctx)
	if err != nil {
		return err
	}
	if l.metered, err = l.CompareMeters(ctx, l.meters); err != nil {
		return err
	}
	o.draw = func(t *tally.Table) error { return l.drawIfAsked(ctx, s, t, o.Draws, o.JSON) }
	if o.Out == "" {
		if table, err = l.Replay(ctx, nil); err == nil {
			err = o.draw(table)
		}
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
			study.ChecksRecord
			Findings []study.FindingRecord `json:"weather_findings,omitempty"`
			Warnings []study.WarningRecord `json:"warnings"`
			Skill    []study.SkillRecord   `json:"forecast_skill,omitempty"`
			Coming   *study.ComingRecord   `json:"coming_days,omitempty"`
			Ranges   *study.DrawRecord     `json:"ranges,omitempty"`
			Meters   []study.MeteredRecord `json:"metered,omitempty"`
		}{l.Summary(table), l.ChecksRecord(table), l.HeavyRecords(), l.Warnings(table), l.SkillRecords(), l.ComingRecord(ahead),
			l.DrawRecords(table), l.MeteredRecords(l.metered)})
	}
	notes, err := l.Notes(table)
	if err != nil {
		return err
	}
	printLines(s.Out, l.Head())
	printGrid(s.Out, l.Comparison(table))
	if g := l.DesignGrid(table); g != nil {
		fmt.Fprintln(s.Out)
		printGrid(s.Out, g)
	}
	for _, g := range append(l.ChangeGrids(table), l.LifeGrids(table)...) {
		fmt.Fprintln(s.Out)
		printGrid(s.Out, g)
	}
	printLines(s.Out, notes)
	if l.Ranges != nil {
		fmt.Fprintln(s.Out)
		printViews(s.Out, l.RangeViews(table, l.Ranges))
	}
	printViews(s.Out, l.DeviceViews(table))
	printViews(s.Out, l.MoneyViews(table))
	printViews(s.Out, l.AllowanceViews(table))
	if fact := l.MeteredFact(l.metered); fact != "" {
		fmt.Fprintln(s.Out)
		printLines(s.Out, study.Wrap(fact+" (see: loamledger meter).", 100))
		if saved := l.VerifiedFact(l.metered); saved != "" {
			printLines(s.Out, study.Wrap("Measured saving: "+saved, 100))
		}
	}
	printViews(s.Out, l.SkillViews())
	l.printOutlook(s.Out, ahead, o.Outlook)
	if o.Out != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", o.Out)
	}
	return nil
}

// write replays the scenario into the output folder.
func (l *loaded) write(ctx context.Context, o *replayOptions, date cal.Date, ahead *study.Coming) (table *tally.Table, err error) {
	dir, err := outdir.Create(o.Out, o.Force, l.names()...)
	if err != nil {
		return nil, outError(err)
	}
	defer func() {
		if err != nil {
			_ = dir.Abort() // the first error is the one to report
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
