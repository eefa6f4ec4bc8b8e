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
	"loamledger/scenarios/study"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
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

// tune searches each kind, and checks it on years not seen.
func (l *loaded) tune(ctx context.Context, s Streams, o *tuneOptions, kinds []tune.Kind) error {
	l.Job.Workers = runtime.GOMAXPROCS(0)
	found, err := l.Tune(ctx, &study.TuneOptions{
		Kinds: kinds, Goal: tune.Goal{StressDays: o.Stress, RunoffEvents: o.Runoff}, PercentStep: float64(o.Round) / 100, MarginPct: o.Margin, HoldOut: !o.NoHoldOut && !o.YAML,
		Watch: func(k tune.Kind) (step, done func()) {
			meter := progress.New(s.Err, s.Terminal && !o.JSON && !o.YAML, -1, "searching "+k.String())
			return meter.Step, meter.Done
		},
	})
	switch {
	case err != nil:
		return err
	case o.YAML:
		text, err := l.TunedYAML(found)
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
	printLines(s.Out, l.TunedHead(found))
	printGrid(s.Out, l.TunedGrid(found))
	printLines(s.Out, l.TunedNotes(found))
	if g := l.HoldOutGrid(found); g != nil {
		fmt.Fprintln(s.Out, "\n"+found.HoldOutLine())
		printGrid(s.Out, g)
	} else if !o.NoHoldOut {
		fmt.Fprintln(s.Out, "\nNo check on years not seen: the record holds no whole odd or no whole even year.")
	}
	for i := range found.Kinds {
		lines, err := l.SettingLines(&found.Kinds[i])
		if err != nil {
			return err
		}
		printLines(s.Out, lines)
	}
	fmt.Fprintf(s.Out, "\nFor a sheet to enter: run this again with --yaml, paste what it prints into the scenario, then\n  loamledger settings %s --strategy %q\n", l.ScenarioName(), found.Kinds[0].Strategy.Name)
	fmt.Fprintln(s.Out, "\n"+study.Caution)
	return nil
}
