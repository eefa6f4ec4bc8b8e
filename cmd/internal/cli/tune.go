package cli

import (
	"context"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
)

// tuneOptions holds the flags of the tune command.
type tuneOptions struct {
	Kinds     []string
	Stress    int
	Runoff    float64
	Round     int
	Margin    float64
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
		Short: "Find the least water that keeps stress and runoff within limits",
		Long: `Searches run times, days, cycles, soaks and percentages for the least water that
keeps stress days (in the dry year and every wetter year) and runoff
events a year within limits in every zone. The limits of the site apply. It
searches four kinds of strategy:

  fixed    one program, the same all year
  monthly  a program and twelve percentages that follow the season
  et       a program whose run times follow reference ET
  refill   watering when its own balance calls for it

Settings tuned to past weather can fail in the next dry year, so the search
assumes that plants need 10% more water than they do (an assumption by
loamledger; change it with --margin). The printed results are measured without this margin.

Each result is checked on held-out years: tuned on the odd years of the record
and replayed on the even ones. The table also shows the water used above the
least possible with no stress, no losses and perfect uniformity. Its first row is
the baseline of the scenario, for comparison; the search does not use it.
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
			l, err := load(args[0])
			if err != nil {
				return err
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
	f.StringSliceVar(&o.Kinds, "kind", []string{"fixed", "monthly", "et", "refill"}, "comma-separated `KINDS` to search")
	f.IntVar(&o.Stress, "stress-days", 10, "maximum stress `DAYS` per zone in the dry year")
	f.Float64Var(&o.Runoff, "runoff-events", 0, "maximum mean runoff `EVENTS` a year per zone (default 0)")
	f.IntVar(&o.Round, "round-percent", 5, "`STEP` of monthly percentages: 1, 2, 5, 10, 20, 25 or 50")
	f.Float64Var(&o.Margin, "margin", 10, "`PERCENT` more water that plants are assumed to need")
	f.BoolVar(&o.NoHoldout, "no-holdout", false, "omit the held-out check, which doubles the time")
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
	case len(kinds) == 0:
		return nil, &usageError{diag.BadFlag, "--kind is empty", "use some of " + strings.Join(words, ", ")}
	case o.Stress < 0 || o.Stress > 366:
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--stress-days %d is outside 0 to 366", o.Stress), "write a number of days a year"}
	case !(o.Runoff >= 0 && o.Runoff <= 366):
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--runoff-events %g is outside 0 to 366", o.Runoff), "write a number of events a year"}
	case !(o.Margin >= 0 && o.Margin <= 100):
		return nil, &usageError{diag.BadFlag, fmt.Sprintf("--margin %g is outside 0 to 100", o.Margin), "write a percentage, such as 10"}
	}
	return kinds, checkRound(o.Round)
}

// tune searches each kind and checks it on held-out years.
func (l *loaded) tune(ctx context.Context, s Streams, o *tuneOptions, kinds []tune.Kind) error {
	l.Job.Workers = runtime.GOMAXPROCS(0)
	found, err := l.Tune(ctx, &study.TuneOptions{
		Kinds: kinds, Goal: tune.Goal{StressDays: o.Stress, RunoffEvents: o.Runoff},
		PercentStep: float64(o.Round) / 100, MarginPct: o.Margin, HoldOut: !o.NoHoldout && !o.YAML,
		Watch: func(k tune.Kind) (step, done func()) {
			meter := progress.New(s.Err, s.Terminal && !o.JSON && !o.YAML, -1, "searching "+k.String())
			return meter.Step, meter.Done
		},
	})
	switch {
	case err != nil:
		return err
	case o.YAML:
		text, err := l.TunedYAML(found, o.changes)
		if err != nil {
			return err
		}
		_, err = io.WriteString(s.Out, text)
		return err
	case o.JSON:
		record, err := l.TunedRecord(found)
		if err != nil {
			return err
		}
		return printJSON(s.Out, record)
	}
	printLines(s.Out, l.Head())
	if o.afterLine != "" {
		fmt.Fprintln(s.Out, o.afterLine)
	}
	printLines(s.Out, l.TunedHead(found))
	printGrid(s.Out, l.TunedGrid(found))
	printLines(s.Out, l.TunedNotes(found))
	if g := l.HoldOutGrid(found); g != nil {
		fmt.Fprintln(s.Out, "\n"+found.HoldOutLine())
		printGrid(s.Out, g)
	} else if !o.NoHoldout {
		fmt.Fprintln(s.Out, "\nNo held-out check: the record lacks a whole odd year or a whole even year.")
	}
	for i := range found.Kinds {
		lines, err := l.SettingLines(&found.Kinds[i])
		if err != nil {
			return err
		}
		printLines(s.Out, lines)
	}
	fmt.Fprintln(s.Out, "\nFor controller settings, rerun with --yaml, paste the output into the scenario, then run")
	fmt.Fprintf(s.Out, "  loamledger settings %s --strategy %q\n", l.ScenarioName(), found.Kinds[0].Strategy.Name)
	fmt.Fprintln(s.Out, "\n"+study.Caution)
	return nil
}
