package cli

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/scenarios/calendarfile"
	"loamledger/scenarios/study"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// planOptions are the flags of the plan command.
type planOptions struct {
	Strategy, Start, Calendar string
	Force, JSON               bool
	scenarioFlags
}

func newPlan(s Streams) *cobra.Command {
	var o planOptions
	cmd := &cobra.Command{
		Use:   "plan SCENARIO [--start DATE]",
		Short: "Say what to repair, to measure and to do when",
		Long: `Replays a scenario and prints what to do next: what to measure first; what each
repair of the system would save, replayed alone; what to do when, by date; and a
plan to measure the saving after the change.

Dates count from --start. With --calendar the reminders are also written as an
iCalendar file, which calendars on phones and computers read.`,
		Example: "  loamledger plan yard.yaml --start 2026-03-01\n  loamledger plan yard.yaml --start 2026-03-01 --calendar yard.ics",
		Args:    exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			start, err := dayFlag("start", o.Start, "2026-03-01")
			if err != nil {
				return err
			}
			if o.Calendar != "" {
				if strings.ToLower(filepath.Ext(o.Calendar)) != ".ics" {
					return &usageError{diag.BadFlag, fmt.Sprintf("--calendar %s must end in .ics", o.Calendar), "choose a name such as reminders.ics"}
				}
				if o.Start == "" {
					return &usageError{diag.BadFlag, "--calendar needs --start", "add the first day of the plan, such as --start 2026-03-01"}
				}
				if err := forced(o.Force).free(o.Calendar); err != nil {
					return err
				}
			}
			l, err := load(args[0], o.scenarioFlags)
			if err != nil {
				return err
			}
			return l.plan(cmd.Context(), s, &o, start)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Start, "start", "", "first `DATE` of the plan, such as 2026-03-01 (default the day for the\ndecision in the "+
		"scenario, or the day after the record)")
	f.StringVar(&o.Strategy, "strategy", "", "`STRATEGY` to put into use (default the recommended one, or the\nbaseline if none is)")
	f.StringVar(&o.Calendar, "calendar", "", "write the reminders to an iCalendar `FILE`, ending in .ics")
	f.BoolVar(&o.Force, "force", false, "replace the calendar")
	f.BoolVar(&o.JSON, "json", false, "print the plan as JSON")
	o.scenarioFlags.addFlags(f)
	return cmd
}

// plan prints what to do next.
func (l *loaded) plan(ctx context.Context, s Streams, o *planOptions, start cal.Date) error {
	l.Job.Workers, l.Job.Brief = runtime.GOMAXPROCS(0), true
	meter := progress.New(s.bar, s.Terminal && !o.JSON, len(l.Job.Strategies)+2, "replaying")
	l.Job.Step = meter.Step
	defer meter.Done()
	table, err := l.Replay(ctx, nil)
	meter.Done()
	if err != nil {
		return err
	}
	if o.Start == "" {
		start = l.PlanStart()
	}
	at := l.PlanFor(table)
	if o.Strategy != "" {
		st, err := l.strategyNamed(o.Strategy)
		if err != nil {
			return err
		}
		at = indexOf(table, st.Name)
	}
	if l.metered, err = l.CompareMeters(ctx, l.meters); err != nil {
		return err
	}
	p, err := l.Plan(ctx, table, at, start, l.MeteredFact(l.metered))
	if err != nil {
		return err
	}
	if o.Calendar != "" {
		if err := l.spare(o.Calendar); err != nil {
			return err
		}
		err := writeWhole(o.Calendar, forced(o.Force), func(w io.Writer) error {
			return calendarfile.Write(w, l.Scenario.Site.Name+": watering", start, events(p.Reminders))
		})
		if err != nil {
			return err
		}
	}
	if o.JSON {
		return printJSON(s.Out, p)
	}
	fmt.Fprintf(s.Out, "%s: what to do next, for “%s,” from %s\n", l.Scenario.Site.Name, p.Strategy, p.Start)
	printViews(s.Out, l.NextViews(p))
	printViews(s.Out, l.VerificationViews(p))
	printLines(s.Out, []string{"", study.Caution})
	if o.Calendar != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", o.Calendar)
	}
	return nil
}

// indexOf returns the index of a strategy in a table.
func indexOf(t *tally.Table, name string) int {
	for i, n := range t.Strategies {
		if n == name {
			return i
		}
	}
	return t.Baseline
}

// events turns reminders into those of a calendar.
func events(list []study.Reminder) (out []calendarfile.Event) {
	for i := range list {
		r := &list[i]
		out = append(out, calendarfile.Event{Key: r.Key, On: r.Date(), Yearly: r.Yearly, Months: r.Months, Summary: r.What, Text: r.How})
	}
	return out
}
