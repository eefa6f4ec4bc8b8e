package cli

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
)

// tuneOptions holds the flags of the tune command.
type tuneOptions struct {
	scenarioFlags
	Kinds     []string
	Stress    int
	Reserve   float64
	Browning  int
	Runoff    float64
	Round     int
	Margin    float64
	Unwatered bool
	NoHoldout bool
	After     string
	JSON      bool
	YAML      bool

	afterLine string // says what After means; empty without it
	changes   []scenarios.Change
}

func newTune(s Streams) *cobra.Command {
	var o tuneOptions
	cmd := &cobra.Command{
		Use:   "tune SCENARIO",
		Short: "Find the least water that keeps stress, browning and runoff within limits",
		Long: `Searches run times, days, cycles, soaks and percentages for the least water that
meets a goal in every zone, in the median year, in the dry year and in all
years between:

  stress    the days on which the plants are active and the whole zone got less
            than their tolerance mark plus --mark-reserve of its seven days'
            need (R7) are at most --stress-days
  browning  the browning days of the driest quarter are at most --browning-days
  runoff    the runoff events a year are at most --runoff-events

It searches four kinds of strategy:

  fixed    one program, the same all year
  monthly  a program and twelve percentages that follow the season
  et       a program whose run times follow reference ET
  refill   watering when its own balance calls for it

Limits of the site and the season of the baseline apply. Zones exempt from the
limits may have days of their own. Without a season, or if it is too long, dates
are set so that no water falls on freezing days or dormant plants. Plants are
watered at intervals that suit them (see loamledger catalog), unless no such
interval meets the goal.

Settings are tuned on the odd years and scored on the even ones, and at the low
and high end of plant coefficients, available water and marks. Minutes in the
peak month are compared with the run-time rule of the trade, with the reason for
the difference.

A setting is not proposed if a replay of it raises an alarm, if it breaks a limit,
leaves a zone without water or short of it, or if the baseline uses less water
with less stress. What is found is the best of what is tried, not proven to be
the least. An interrupted search prints the best found so far.

With --after the site is as the changes of a strategy leave it; --yaml then
repeats the changes.
To get controller settings, paste the output of --yaml into a scenario and run
loamledger settings.`,
		Example: `  loamledger tune yard.yaml
  loamledger tune yard.yaml --kind monthly --stress-days 5 --runoff-events 2
  loamledger tune yard.yaml --after "new nozzles"`,
		Args: exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			kinds, err := o.check()
			if err != nil {
				return err
			}
			l, err := load(args[0], o.scenarioFlags)
			if err != nil {
				return err
			}
			if o.Browning < 0 { // what is proposed must pass the verdict
				o.Browning = l.Scenario.Verdict.BrowningDays
			}
			if o.After == "" {
				return l.tune(cmd.Context(), s, &o, kinds)
			}
			st, err := l.strategyNamed(o.After)
			if err != nil {
				return err
			}
			if l.AfterLine(st) == "" {
				return &usageError{diag.BadFlag, fmt.Sprintf("--after %q: the strategy has no changes", st.Name),
					"name a strategy with changes, or omit --after"}
			}
			o.afterLine, o.changes = l.AfterLine(st), l.ChangesOf(st)
			l.Study, _ = l.After(st)
			return l.tune(cmd.Context(), s, &o, kinds)
		},
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.StringSliceVar(&o.Kinds, "kind", []string{"fixed", "monthly", "et", "refill"}, "comma-separated `KINDS` to search")
	f.IntVar(&o.Stress, "stress-days", 7, "maximum `DAYS` a year per zone below the raised mark")
	f.Float64Var(&o.Reserve, "mark-reserve", 0.1, "raise the tolerance marks by this `SHARE` of the need")
	f.IntVar(&o.Browning, "browning-days", -1, "maximum browning `DAYS` a year, per driest quarter\n"+
		"(default verdict.browning_days of the scenario, 0)")
	f.Lookup("browning-days").DefValue = "0"
	f.Float64Var(&o.Runoff, "runoff-events", 0, "maximum mean runoff `EVENTS` a year per zone (default 0)")
	f.IntVar(&o.Round, "round-percent", 5, "`STEP` of monthly percentages: 1, 2, 5, 10, 20, 25 or 50")
	f.Float64Var(&o.Margin, "margin", 0, "`PERCENT` more water that plants are assumed to need (default 0)")
	f.BoolVar(&o.Unwatered, "allow-unwatered", false, "accept zones that get no water, which are otherwise an error")
	f.BoolVar(&o.NoHoldout, "no-holdout", false, "tune on all whole years, with none held out for the score")
	f.StringVar(&o.After, "after", "", "search for the site as it is after the changes of this `STRATEGY`")
	f.BoolVar(&o.JSON, "json", false, "print the results as JSON")
	f.BoolVar(&o.YAML, "yaml", false, "print programs and strategies to paste into a scenario")
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
			return nil, &usageError{diag.UnknownName, fmt.Sprintf("unknown kind %q", w), fix}
		}
		if !slices.Contains(kinds, tune.Kind(i)) {
			kinds = append(kinds, tune.Kind(i))
		}
	}
	switch {
	case o.JSON && o.YAML:
		return nil, &usageError{diag.FlagConflict, "--json and --yaml conflict", "omit one of them"}
	case o.Stress < 0 || o.Stress > 366:
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--stress-days %d is outside 0 to 366", o.Stress), "write a number of days a year"}
	case o.Browning < -1 || o.Browning > 366:
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--browning-days %d is outside 0 to 366", o.Browning), "write a number of days a year"}
	case !(o.Reserve >= 0 && o.Reserve <= 0.5):
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--mark-reserve %g is outside 0 to 0.5", o.Reserve), "write a share, such as 0.1"}
	case !(o.Runoff >= 0 && o.Runoff <= 366):
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--runoff-events %g is outside 0 to 366", o.Runoff), "write a number of events a year"}
	case !(o.Margin >= 0 && o.Margin <= 100):
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--margin %g is outside 0 to 100", o.Margin), "write a percentage, such as 10"}
	}
	return kinds, checkRound(o.Round)
}

// progressEvery is how often a search writes a line where there is no terminal.
const progressEvery = 20 * time.Second

// tune searches each kind and prints what it found.
func (l *loaded) tune(ctx context.Context, s Streams, o *tuneOptions, kinds []tune.Kind) error {
	l.Job.Workers = runtime.GOMAXPROCS(0)
	found, err := l.Tune(ctx, &study.TuneOptions{
		Kinds:       kinds,
		Goal:        tune.Goal{StressDays: o.Stress, MarkReserve: o.Reserve, BrowningDays: o.Browning, RunoffEvents: o.Runoff},
		PercentStep: float64(o.Round) / 100,
		MarginPct:   o.Margin, HoldOut: !o.NoHoldout, Unwatered: o.Unwatered,
		Watch: func(k tune.Kind) (step func(int), done func()) {
			what := "searching " + k.String()
			if !s.Terminal {
				lines := progress.NewLines(s.Err, what, progressEvery)
				return lines.At, lines.Done
			}
			meter := progress.New(s.bar, !o.JSON && !o.YAML, -1, what)
			return func(int) { meter.Step() }, meter.Done
		},
	})
	if err == nil {
		err = l.printTuned(s, o, found)
	}
	if err == nil && found.Stopped {
		return context.Cause(ctx) // the exit code says that the search was interrupted
	}
	return err
}

// printTuned prints what a search found. A zone without water is an error unless it
// was asked for.
func (l *loaded) printTuned(s Streams, o *tuneOptions, found *study.Tuning) error {
	var dry error
	if zones := l.Unwatered(found); len(zones) > 0 && !o.Unwatered {
		dry = l.unwatered(found, zones)
	}
	switch {
	case o.YAML:
		text, err := l.TunedYAML(found, o.changes)
		switch {
		case err != nil:
			return err
		case dry != nil:
			return dry
		case !found.AnyProposed():
			return l.NothingProposed(found)
		}
		_, err = io.WriteString(s.Out, text)
		return err
	case o.JSON:
		record, err := l.TunedRecord(found)
		if err == nil {
			err = printJSON(s.Out, record)
		}
		if err != nil {
			return err
		}
		return dry
	}
	printLines(s.Out, l.Head())
	if o.afterLine != "" {
		fmt.Fprintln(s.Out, o.afterLine)
	}
	printLines(s.Out, l.TunedHead(found))
	printGrid(s.Out, l.TunedGrid(found))
	printLines(s.Out, l.TunedNotes(found))
	titles, grids := l.ScoreGrids(found)
	for i := range grids {
		fmt.Fprintln(s.Out, "\n"+titles[i])
		printGrid(s.Out, grids[i])
	}
	for i := range found.Kinds {
		lines, err := l.SettingLines(&found.Kinds[i])
		if err != nil {
			return err
		}
		printLines(s.Out, lines)
	}
	if i := slices.IndexFunc(found.Kinds, func(k study.Tuned) bool { return k.Proposed() }); i >= 0 {
		fmt.Fprintln(s.Out, "\nFor controller settings, rerun with --yaml, paste the output into the scenario, then run")
		fmt.Fprintf(s.Out, "  loamledger settings %s --strategy %q\n", l.ScenarioName(), found.Kinds[i].Strategy.Name)
	} else {
		fmt.Fprintln(s.Out, "\nNothing is proposed. Allow more with --stress-days, --browning-days or --runoff-events, or change the "+
			"limits of the site.")
	}
	fmt.Fprintln(s.Out, "\n"+study.Caution)
	return dry
}

// unwatered is the error of zones that get no water.
func (l *loaded) unwatered(found *study.Tuning, zones []int) error {
	var list diag.List
	for _, z := range zones {
		list.Add(diag.Unwatered, l.Scenario.Zones[z].Pos, "add --allow-unwatered if that is meant, or tighten the goal",
			"zone %s would get no water: %s", l.Scenario.Zones[z].Name, l.WhyUnwatered(found, z))
	}
	return list.Err()
}
