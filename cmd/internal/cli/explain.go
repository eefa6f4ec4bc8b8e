package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/sim/explain"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

func newExplain(s Streams) *cobra.Command {
	var zone, date, name string
	var common scenarioFlags
	cmd := &cobra.Command{
		Use:   "explain SCENARIO --zone ZONE --date DATE --strategy STRATEGY",
		Short: "Show one zone and day under one strategy as step-by-step arithmetic",
		Long: `Shows one day of one zone under one strategy: the reason for the decision, and
each step of the water balance with its numbers and equation, strip by strip.`,
		Example: `  loamledger explain yard.yaml --zone "front lawn" --date 2014-07-02 --strategy "as found"`,
		Args:    exactly(1, "one scenario file"),
		RunE: func(_ *cobra.Command, args []string) error {
			for _, f := range []struct{ flag, value string }{{"zone", zone}, {"date", date}, {"strategy", name}} {
				if f.value == "" {
					return &usageError{diag.MissingFlag, "--" + f.flag + " is required", "pass --zone, --date and --strategy"}
				}
			}
			d, err := dayFlag("date", date, "2014-07-02")
			if err != nil {
				return err
			}
			l, err := load(args[0], common)
			if err != nil {
				return err
			}
			return l.explain(s, zone, name, d)
		},
	}
	common.addFlags(cmd.Flags())
	cmd.Flags().StringVar(&zone, "zone", "", "`ZONE` to explain; required")
	cmd.Flags().StringVar(&date, "date", "", "`DATE` to explain, such as 2014-07-02; required")
	cmd.Flags().StringVar(&name, "strategy", "", "`STRATEGY` to explain, or one of the two references; required")
	return cmd
}

func (l *loaded) explain(s Streams, zone, name string, d cal.Date) error {
	z, err := find("zone", zone, l.ZoneNames())
	if err != nil {
		return err
	}
	st, err := find("strategy", name, append(l.StrategyNames(), tally.NoWater, tally.LeastWater))
	if err != nil {
		return err
	}
	m, ok := replay.At(&l.Job, st, z, d)
	if !ok {
		msg := fmt.Sprintf("--date %v is outside the record, %v to %v", d, l.Weather.Start, l.Weather.End())
		return &usageError{diag.BadFlag, msg, "choose a date in the record"}
	}
	fmt.Fprintln(s.Out, l.ReferenceETLine(d))
	place, _ := l.ZoneOn(st, z, d)
	fmt.Fprint(s.Out, explain.Text(&m, explain.Ground{AWCMMPerM: place.AWCMMPerM, RootDepthM: place.RootDepthM,
		Notes: l.PlantingLines(st, z, d)}, l.Scenario.Units))
	printLines(s.Out, l.ZoneInputLines(st, z, d))
	return nil
}

// find returns the index of name in known, or an error that suggests one.
func find(what, name string, known []string) (int, error) {
	for i, k := range known {
		if strings.EqualFold(k, strings.TrimSpace(name)) {
			return i, nil
		}
	}
	fix := "use one of: " + strings.Join(known, "; ")
	if near := diag.Nearest(name, known); near != "" {
		fix = fmt.Sprintf("did you mean %q?", near)
	}
	return 0, &usageError{diag.UnknownName, fmt.Sprintf("unknown %s %q", what, name), fix}
}
