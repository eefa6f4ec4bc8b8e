package cli

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/sim/settingsfile"
	"loamledger/sim/strategy"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// tuneOptions are the flags of the tune command.
type tuneOptions struct {
	Kinds     []string
	Stress    int
	Runoff    float64
	Round     int
	Margin    float64
	NoHoldOut bool
	JSON      bool
	YAML      bool
}

func newTune(s Streams) *cobra.Command {
	var o tuneOptions
	cmd := &cobra.Command{
		Use:   "tune SCENARIO",
		Short: "Search for the least water that keeps stress and runoff within limits",
		Long: `Searches minutes, days, cycles, pauses and percentages for the least water that
keeps every zone's stress days in the 1-in-10 dry year and in every wetter one,
and its runoff events a year, within limits, under the limits of the site. Four
kinds are searched:

  fixed    one program, the same all year
  monthly  a program and twelve percentages that follow the season
  et       a program whose minutes follow reference ET
  refill   watering when a balance of its own asks for it

A setting cut to the years of the record fails in the next dry one. So the
search takes plants to need 10 % more than they do (an assumption of this
program; --margin changes it); what is printed is measured without that.

Each is checked on years it has not seen: tuned on the odd years of the record,
replayed on the even ones. How much water is left above the least that would do
without any stress, loss or unevenness is printed, too. The first strategy of
the scenario stands on top of the table as it is set now; the search does not
use it. With --yaml the result can be pasted into a scenario; settings then
prints the sheet to enter.`,
		Example: "  loamledger tune yard.yaml\n  loamledger tune yard.yaml --kind monthly --stress-days 5 --runoff-events 2",
		Args:    exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			kinds, err := o.check()
			if err != nil {
				return err
			}
			l, err := load(args[0])
			if err != nil {
				return err
			}
			return l.tune(cmd.Context(), s, &o, kinds)
		},
	}
	f := cmd.Flags()
	f.StringSliceVar(&o.Kinds, "kind", []string{"fixed", "monthly", "et", "refill"}, "`KINDS` to search, parted by commas")
	f.IntVar(&o.Stress, "stress-days", 10, "most `DAYS` of stress of a zone in the 1-in-10 dry year")
	f.Float64Var(&o.Runoff, "runoff-events", 0, "most `EVENTS` of runoff of a zone a year, on average (default 0)")
	f.IntVar(&o.Round, "round-percent", 5, "`STEP` of monthly percentages: 1, 2, 5, 10, 20, 25 or 50")
	f.Float64Var(&o.Margin, "margin", 10, "reserve: plants are taken to need that many `PERCENT` more")
	f.BoolVar(&o.NoHoldOut, "no-hold-out", false, "leave out the check on years not seen, which takes as long again")
	f.BoolVar(&o.JSON, "json", false, "print the results as JSON")
	f.BoolVar(&o.YAML, "yaml", false, "print programs and strategies for a scenario")
	return cmd
}

func (o *tuneOptions) check() ([]tune.Kind, error) {
	var words []string
	for k := range tune.Kinds {
		words = append(words, k.String())
	}
	var kinds []tune.Kind
	for _, w := range o.Kinds {
		i := slices.Index(words, strings.ToLower(strings.TrimSpace(w)))
		if i < 0 {
			fix := "use some of " + strings.Join(words, ", ")
			if near := diag.Nearest(w, words); near != "" {
				fix = "did you mean " + near + "?"
			}
			return nil, &usageError{diag.UnknownName, fmt.Sprintf("there is no kind %q", w), fix}
		}
		if !slices.Contains(kinds, tune.Kind(i)) {
			kinds = append(kinds, tune.Kind(i))
		}
	}
	switch {
	case o.JSON && o.YAML:
		return nil, &usageError{diag.FlagConflict, "--json and --yaml are both given", "choose one"}
	case len(kinds) == 0:
		return nil, &usageError{diag.BadFlag, "--kind names nothing", "use some of " + strings.Join(words, ", ")}
	case o.Stress < 0 || o.Stress > 366:
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--stress-days %d is outside 0 to 366", o.Stress), "write a number of days of one year"}
	case !(o.Runoff >= 0 && o.Runoff <= 366):
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--runoff-events %g is outside 0 to 366", o.Runoff), "write a number of events of one year"}
	case !(o.Margin >= 0 && o.Margin <= 100):
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--margin %g is outside 0 to 100", o.Margin), "write percent, such as 10"}
	}
	return kinds, checkRound(o.Round)
}

// A tuned is a kind's best setting and its check, nil where there is none.
type tuned struct {
	result *tune.Result
	hold   *tune.HoldOut
}

// tune searches each kind, and checks it on years not seen.
func (l *loaded) tune(ctx context.Context, s Streams, o *tuneOptions, kinds []tune.Kind) error {
	job := l.Job
	job.Workers = runtime.GOMAXPROCS(0)
	goal := tune.Goal{StressDays: o.Stress, RunoffEvents: o.Runoff}
	odd, even := l.oddEven()
	hold := !o.NoHoldOut && !o.YAML && odd && even
	var now *tune.Outcome // of the first strategy
	if len(l.Job.Strategies) > 0 {
		var err error
		if now, err = tune.Check(ctx, &job, &l.Job.Strategies[0], goal, nil); err != nil {
			return l.tuneFault(err)
		}
	}
	var all []tuned
	for _, k := range kinds {
		meter := progress.New(s.Err, s.Terminal && !o.JSON && !o.YAML, -1, "searching "+k.String())
		opts := tune.Options{Space: tune.Space{PercentStep: float64(o.Round) / 100}, Margin: o.Margin / 100, Progress: func(int) { meter.Step() }}
		var t tuned
		var err error
		t.result, err = tune.Tune(ctx, &job, k, goal, opts)
		if err == nil && hold {
			t.hold, err = tune.Hold(ctx, &job, k, goal, opts)
		}
		meter.Done()
		if err != nil {
			return l.tuneFault(err)
		}
		all = append(all, t)
	}
	if o.YAML {
		return l.writeTunedYAML(s.Out, all)
	}
	if o.JSON {
		results, err := l.tunedJSON(now, all, goal, o.Margin)
		if err != nil {
			return err
		}
		return printJSON(s.Out, results)
	}
	l.printHead(s.Out)
	l.printTuned(s.Out, now, all, goal, o.Margin)
	switch {
	case o.NoHoldOut:
	case !hold:
		fmt.Fprintln(s.Out, "\nNo check on years not seen: the record holds no whole odd or no whole even year.")
	default:
		l.printHoldOut(s.Out, all)
	}
	for _, t := range all {
		if err := l.printSetting(s.Out, t.result); err != nil {
			return err
		}
	}
	fmt.Fprintf(s.Out, "\nFor a sheet to enter: run this again with --yaml, paste what it prints into the scenario, then\n  loamledger settings %s --strategy %q\n", l.bare(l.Scenario.File), all[0].result.Strategy.Name)
	fmt.Fprintln(s.Out, "\n"+caution)
	return nil
}

// oddEven reports whether the record holds whole odd and whole even years.
func (l *loaded) oddEven() (odd, even bool) {
	first, _, _ := l.Weather.Start.YMD()
	if _, m, d := l.Weather.Start.YMD(); m != 1 || d != 1 {
		first++
	}
	last, m, d := l.Weather.End().YMD()
	if m != 12 || d != 31 {
		last--
	}
	for y := first; y <= last; y++ {
		odd, even = odd || tune.Odd(y), even || tune.Even(y)
	}
	return odd, even
}

func (l *loaded) volume(m3 float64) string {
	return volumeText(m3, l.Scenario.Units)
}

func (l *loaded) depth(mm float64) string {
	return fmt.Sprintf("%.1f", quantity.Convert(mm, quantity.Depth, l.Scenario.Units))
}

// above says how far water is above the bound, or below it.
func above(gap float64) string {
	if gap < 0 {
		return fmt.Sprintf("%.0f %% below", -100*gap)
	}
	return fmt.Sprintf("%.0f %% above", 100*gap)
}

// worst returns the most stress days and runoff events of any zone.
func worst(o *tune.Outcome) (stress int, runoff float64) {
	for _, z := range o.Zones {
		stress, runoff = max(stress, z.StressDays), max(runoff, z.RunoffEvents)
	}
	return stress, runoff
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "NO"
}

func (l *loaded) printHoldOut(w io.Writer, all []tuned) {
	o := &all[0].hold.Tuned.Outcome
	fmt.Fprintf(w, "\nChecked on years not seen: tuned on the odd years (%d, dry year %d), replayed on the even (%d, dry year %d).\n",
		o.Years, o.Dry, all[0].hold.Checked.Years, all[0].hold.Checked.Dry)
	tw := plainTable(w, toTheRight(1, 12)...)
	volume := quantity.Label(quantity.Volume, l.Scenario.Units)
	tw.AppendHeader(table.Row{"", volume + "/yr\nodd", volume + "/yr\neven", "most stress\ndays, odd", "most stress\ndays, even", "most runoff\nevents, even", "within\nlimits, even"})
	for _, t := range all {
		a, b := &t.hold.Tuned.Outcome, t.hold.Checked
		sa, _ := worst(a)
		sb, rb := worst(b)
		tw.AppendRow(table.Row{t.result.Kind.Words(), l.volume(a.M3PerYear), l.volume(b.M3PerYear), sa, sb, fmt.Sprintf("%.1f", rb), yesNo(b.Met)})
	}
	tw.Render()
}

// printSetting prints what to set.
func (l *loaded) printSetting(w io.Writer, r *tune.Result) error {
	fmt.Fprintf(w, "\n%s\n", strings.ToUpper(r.Kind.Words()[:1])+r.Kind.Words()[1:])
	if r.Sheet != nil {
		for _, text := range settingsfile.Misfits(r.Sheet) {
			fmt.Fprintf(w, "  DOES NOT FIT: %s\n", text)
		}
	}
	for _, part := range r.Strategy.Parts {
		lines, err := strategy.Lines(part, l.zoneNames(), l.Scenario.Units)
		if err != nil {
			return err
		}
		for _, line := range lines {
			fmt.Fprintln(w, "  "+line)
		}
	}
	for z, o := range r.Outcome.Zones {
		fmt.Fprintf(w, "    %s: %s %s a year (bound %s), %s, %.1f runoff events\n", l.Job.Zones[z].Name, l.depth(o.GrossMM), quantity.Label(quantity.Depth, l.Scenario.Units), l.depth(o.LeastMM),
			countOf(o.StressDays, "stress day", "stress days"), o.RunoffEvents)
	}
	return nil
}
