package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
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

// settingsOptions holds the flags of the settings command.
type settingsOptions struct {
	scenarioFlags
	Strategy string
	Out      string // a folder, or a file of one of sheetTypes
	Force    bool
	Round    int
	Date     string
	JSON     bool
}

func newSettings(s Streams) *cobra.Command {
	var o settingsOptions
	cmd := &cobra.Command{
		Use:   "settings SCENARIO --strategy STRATEGY",
		Short: "Print controller settings for a strategy",
		Long: `Prints a settings sheet for one strategy: days, start times, run times in whole
minutes, cycles and soaks for each zone, the percentage for each month, when to
change it, and finish times. The sheet obeys the site's limits and lists zones
that do not fit first. If a zone's run time cannot be made to fit, you get
suggestions instead. The rounded sheet is replayed, and its results are shown
next to the strategy's own.

If the scenario has a timer, settings that do not fit it are refused: the sheet
lists each refusal with its reason and has the nearest settings that fit, and
the replay shows what that does to water and stress. Without a timer nothing is
refused.
For a strategy that follows the weather, the sheet also lists what to enter on a
timer that can do so.

A strategy with its own water balance has no fixed run times. Its sheet is based
on the mean water it applied: the month with the most water gives each zone its
minutes; monthly site means set the percentages. Run times are then raised, by
at most half, until no zone has more stress days than under the strategy in the
median year and in the dry year. If that is not possible, the sheet names the
zone.

With --out it writes a file if the name ends in .html, .csv or .txt; otherwise it
writes a folder with settings.html, settings.csv and settings.txt. If the name
of a folder has a dot in it, end it with a slash.`,
		Example: `  loamledger settings yard.yaml --strategy "as found"
  loamledger settings yard.yaml --strategy "as found" --out sheet.html
  loamledger settings yard.yaml --strategy "as found" --out sheets`,
		Args: exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			date, err := o.check()
			if err != nil {
				return err
			}
			l, err := load(args[0], o.scenarioFlags)
			if err != nil {
				return err
			}
			if l.TimerStated() && cmd.Flags().Changed("round-percent") {
				return &usageError{diag.FlagConflict, "--round-percent conflicts with timer in the scenario, which has its own steps",
					"remove --round-percent, or change percent_step of the timer"}
			}
			return l.settings(cmd.Context(), s, &o, date)
		},
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.StringVar(&o.Strategy, "strategy", "", "`STRATEGY` to print settings for; required")
	f.StringVarP(&o.Out, "out", "o", "", "`PATH` of the folder or file (.html, .csv or .txt) to write")
	f.BoolVar(&o.Force, "force", false, "replace the file of --out; a folder is never replaced")
	f.IntVar(&o.Round, "round-percent", 5, "`STEP` of monthly percentages: 1, 2, 5, 10, 20, 25 or 50; not with\na timer in the scenario")
	f.StringVar(&o.Date, "date", "", "`DATE` you will enter the settings, such as 2026-03-01; the sheet\nthen shows when the "+
		"next change is due")
	f.BoolVar(&o.JSON, "json", false, "print the settings as JSON")
	return cmd
}

func (o *settingsOptions) check() (cal.Date, error) {
	if o.Strategy == "" {
		return 0, &usageError{diag.MissingFlag, "--strategy is required", "name the strategy to print settings for"}
	}
	if err := checkRound(o.Round); err != nil {
		return 0, err
	}
	if ext := outExt(o.Out); ext != "" && !slices.Contains(sheetTypes(), ext) {
		msg := fmt.Sprintf("--out %s: unknown file type", o.Out)
		return 0, &usageError{diag.BadFlag, msg, "end a file name in .html, .csv or .txt, or a folder name with a slash"}
	}
	if err := o.free(); err != nil {
		return 0, err
	}
	return dayFlag("date", o.Date, "2026-03-01")
}

// free rejects an output that cannot be written, before any work is done.
func (o *settingsOptions) free() error {
	switch {
	case o.Out == "":
		return nil
	case outExt(o.Out) == "":
		return freeFolder(o.Out)
	}
	return writable(o.Out)
}

// sheetTypes lists the extensions of the files that settings can write.
func sheetTypes() []string { return []string{".html", ".csv", ".txt"} }

// outExt returns the extension of the file that --out names, "" for a folder.
func outExt(name string) string {
	base := filepath.Base(name)
	if name == "" || os.IsPathSeparator(name[len(name)-1]) || base == "." || base == ".." {
		return ""
	}
	return strings.ToLower(filepath.Ext(base))
}

// strategyNamed returns the strategy with the name given by a flag.
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
	if err := l.spare(o.Out); err != nil {
		return err
	}
	l.Job.Workers = runtime.GOMAXPROCS(0)
	meter := progress.New(s.bar, s.Terminal && !o.JSON, -1, "adjusting run times")
	sheet, err := l.Sheet(ctx, st, &study.SheetOptions{PercentStep: float64(o.Round) / 100, AsOf: date, Progress: func(int) { meter.Step() }})
	meter.Done()
	switch {
	case errors.Is(err, settings.ErrNothing):
		msg := fmt.Sprintf("strategy %q has no active program on the date of the sheet", st.Name)
		return &usageError{diag.NothingToEnter, msg, "choose another strategy, or another date with --date"}
	case errors.Is(err, study.ErrNoWater):
		msg := fmt.Sprintf("strategy %q applies no water in the record, so it has no settings", st.Name)
		return &usageError{diag.NothingToEnter, msg, "choose another strategy"}
	case err != nil:
		return err
	}
	page := settingsfile.Page{
		Site: l.Scenario.Site.Name, Record: l.RecordLine(), Units: l.Scenario.Units, Sheet: sheet.Sheet, Lead: sheet.Lead, Advice: sheet.Advice,
		From: date, Timer: l.TimerLine(float64(o.Round) / 100), Effect: l.EffectLine(sheet), Refused: sheet.Refused, Following: sheet.Following,
	}
	for k, one := range sheet.Each {
		device := settingsfile.Page{Sheet: one, Timer: l.ControllerLine(one, float64(o.Round)/100)}
		if sheet.RefusedOf != nil {
			device.Refused = sheet.RefusedOf[k]
		}
		page.Devices, page.Timer = append(page.Devices, device), ""
	}
	for _, f := range l.SheetFigures(sheet) {
		page.Results = append(page.Results, settingsfile.Result(f))
	}
	switch ext := outExt(o.Out); {
	case ext != "":
		err = writeWhole(o.Out, forced(o.Force), sheetFile(&page, ext))
	case o.Out != "":
		var files []wholeFile
		for _, ext := range sheetTypes() {
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
	if o.Out != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", o.Out)
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
