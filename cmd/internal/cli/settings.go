package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/scenarios/study"
	"loamledger/sim/settings"
	"loamledger/sim/settingsfile"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// settingsOptions are the flags of the settings command.
type settingsOptions struct {
	Strategy string
	Out      string
	File     string
	Force    bool
	Round    int
	Date     string
	JSON     bool
}

func newSettings(s Streams) *cobra.Command {
	var o settingsOptions
	cmd := &cobra.Command{
		Use:   "settings SCENARIO --strategy STRATEGY",
		Short: "Print the sheet to enter on a controller",
		Long: `Prints what to enter on a controller for one strategy: days, starts, whole
minutes, cycles and pauses for each zone, the percentage of each month, when to
change it, and when watering ends. Where the site has limits, the sheet keeps to
them, and zones that do not fit are named first; where nothing of a zone fits,
no sheet is made, and what to change is told. The sheet is replayed as it
stands, rounded, and those figures are shown beside the strategy's own.

A strategy that decides by a balance of its own has no minutes to enter. The
sheet then follows what it applied on average: the month with most water gives
each zone its minutes, the site's means by month the percentages. Minutes are
raised, by no more than half, until the finished sheet, replayed, leaves no zone
with more stress days than the strategy in the median and in the dry year; where
that cannot be had, the zone is named.

With --out it writes a folder with settings.html, settings.csv and settings.txt;
with -o one file, whose name ends in .html, .csv or .txt.`,
		Example: `  loamledger settings yard.yaml --strategy "as found"
  loamledger settings yard.yaml --strategy "as found" -o sheet.html`,
		Args: exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			date, err := o.check()
			if err != nil {
				return err
			}
			l, err := load(args[0])
			if err != nil {
				return err
			}
			return l.settings(cmd.Context(), s, &o, date)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Strategy, "strategy", "", "`STRATEGY` to enter")
	f.StringVar(&o.Out, "out", "", "`DIR` to write, made whole or not at all")
	f.StringVarP(&o.File, "file", "o", "", "one `FILE` to write: .html, .csv or .txt")
	f.BoolVar(&o.Force, "force", false, "replace the file of -o")
	f.IntVar(&o.Round, "round-percent", 5, "`STEP` of monthly percentages: 1, 2, 5, 10, 20, 25 or 50")
	f.StringVar(&o.Date, "date", "", "`DATE` of entering the sheet, such as 2026-03-01, to tell the next change")
	f.BoolVar(&o.JSON, "json", false, "print the sheet as JSON")
	return cmd
}

func (o *settingsOptions) check() (cal.Date, error) {
	if o.Strategy == "" {
		return 0, &usageError{diag.MissingFlag, "--strategy is missing", "name the strategy to enter on the controller"}
	}
	if o.Out != "" && o.File != "" {
		return 0, &usageError{diag.FlagConflict, "--out and -o are both given", "write a folder with --out, or one file with -o"}
	}
	if err := checkRound(o.Round); err != nil {
		return 0, err
	}
	if ext := strings.ToLower(filepath.Ext(o.File)); o.File != "" && ext != ".html" && ext != ".csv" && ext != ".txt" {
		return 0, &usageError{diag.BadFlag, fmt.Sprintf("-o %s: what to write is told by the end of the name", o.File), "end it in .html, .csv or .txt"}
	}
	return dayFlag("date", o.Date, "2026-03-01")
}

// strategyNamed returns the strategy of the scenario that a flag names.
func (l *loaded) strategyNamed(name string) (*strategy.Strategy, error) {
	i, err := find("strategy", name, l.StrategyNames())
	if err != nil {
		return nil, err
	}
	return &l.Job.Strategies[i], nil
}

func (l *loaded) settings(ctx context.Context, s Streams, o *settingsOptions, date cal.Date) error {
	st, err := l.strategyNamed(o.Strategy)
	if err != nil {
		return err
	}
	l.Job.Workers = runtime.GOMAXPROCS(0)
	meter := progress.New(s.Err, s.Terminal && !o.JSON, -1, "trying minutes")
	sheet, err := l.Sheet(ctx, st, &study.SheetOptions{PercentStep: float64(o.Round) / 100, AsOf: date, Progress: func(int) { meter.Step() }})
	meter.Done()
	switch {
	case errors.Is(err, settings.ErrNothing):
		return &usageError{diag.NothingToEnter, fmt.Sprintf("strategy %q has no program in force on the day of the sheet", st.Name), "name another strategy, or another day with --date"}
	case errors.Is(err, study.ErrNoWater):
		return &usageError{diag.NothingToEnter, fmt.Sprintf("strategy %q applied no water over the record: there is nothing to enter", st.Name), "name another strategy"}
	case err != nil:
		return err
	}
	page := settingsfile.Page{Site: l.Scenario.Site.Name, Record: l.RecordLine(), Units: l.Scenario.Units, Sheet: sheet.Sheet, Lead: sheet.Lead, From: date}
	for _, f := range l.SheetFigures(sheet) {
		page.Results = append(page.Results, settingsfile.Result(f))
	}
	switch {
	case o.File != "":
		err = writeWhole(o.File, forced(o.Force), sheetFile(&page, strings.ToLower(filepath.Ext(o.File))))
	case o.Out != "":
		var files []wholeFile
		for _, ext := range []string{".html", ".csv", ".txt"} {
			files = append(files, wholeFile{"settings" + ext, sheetFile(&page, ext)})
		}
		err = placeFolder(o.Out, files)
	}
	if err != nil {
		return err
	}
	if o.JSON {
		record, err := l.SheetRecord(sheet)
		if err != nil {
			return err
		}
		return printJSON(s.Out, record)
	}
	if err := settingsfile.WriteText(s.Out, &page); err != nil {
		return err
	}
	if name := o.File + o.Out; name != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", name)
	}
	return nil
}

func sheetFile(p *settingsfile.Page, ext string) func(io.Writer) error {
	return func(w io.Writer) error {
		switch ext {
		case ".csv":
			return settingsfile.WriteCSV(w, p.Sheet)
		case ".txt":
			return settingsfile.WriteText(w, p)
		}
		return settingsfile.WritePage(w, p)
	}
}
