package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/sim/explain"
	"loamledger/sim/replay"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
)

func newExplain(s Streams) *cobra.Command {
	var zone, date, name string
	cmd := &cobra.Command{
		Use:   "explain SCENARIO --zone ZONE --date DATE --strategy STRATEGY",
		Short: "Show one day of one zone under one strategy as arithmetic",
		Long: `Shows one day of one zone under one strategy: the reason for the decision and
every step of the balance with its numbers and the equation it follows, strip by
strip.`,
		Example: `  loamledger explain yard.yaml --zone "front lawn" --date 2014-07-02 --strategy "as found"`,
		Args:    exactly(1, "one scenario file"),
		RunE: func(_ *cobra.Command, args []string) error {
			for _, f := range []struct{ flag, value string }{{"zone", zone}, {"date", date}, {"strategy", name}} {
				if f.value == "" {
					return &usageError{diag.MissingFlag, "--" + f.flag + " is missing", "name the zone, the date and the strategy to explain"}
				}
			}
			d, err := dayFlag("date", date, "2014-07-02")
			if err != nil {
				return err
			}
			l, err := load(args[0])
			if err != nil {
				return err
			}
			return l.explain(s, zone, name, d)
		},
	}
	cmd.Flags().StringVar(&zone, "zone", "", "`ZONE` to explain")
	cmd.Flags().StringVar(&date, "date", "", "`DATE` of the day to explain, such as 2014-07-02")
	cmd.Flags().StringVar(&name, "strategy", "", "`STRATEGY` to explain; the two references can be named, too")
	return cmd
}

func (l *loaded) explain(s Streams, zone, name string, d cal.Date) error {
	z, err := find("zone", zone, l.zoneNames())
	if err != nil {
		return err
	}
	st, err := find("strategy", name, append(strategyNames(l.Job.Strategies), tally.NoWater, tally.LeastWater))
	if err != nil {
		return err
	}
	m, ok := replay.At(&l.Job, st, z, d)
	if !ok {
		return &usageError{diag.BadFlag, fmt.Sprintf("--date %v is outside the record, %v to %v", d, l.Weather.Start, l.Weather.End()), "name a day of the record"}
	}
	for _, line := range l.weatherOf(d) {
		fmt.Fprintln(s.Out, line)
	}
	place := &l.Scenario.Zones[z]
	fmt.Fprint(s.Out, explain.Text(&m, explain.Ground{AWCMMPerM: place.AWCMMPerM, RootDepthM: place.RootDepthM}, l.Scenario.Units))
	l.printZoneInputs(s.Out, z)
	return nil
}

// printZoneInputs lists the parameters of zone z as understood.
func (l *loaded) printZoneInputs(w io.Writer, z int) {
	fmt.Fprintf(w, "\nInputs of zone %q:\n", l.Scenario.Zones[z].Name)
	for _, v := range l.Scenario.ZoneValues[z] {
		if v.Key != "name" {
			fmt.Fprintf(w, "   %-26s %s\n", v.Key, v.Text(l.Scenario.Units))
		}
	}
}

func (l *loaded) zoneNames() []string {
	var names []string
	for i := range l.Scenario.Zones {
		names = append(names, l.Scenario.Zones[i].Name)
	}
	return names
}

// weatherOf says how the day's reference ET came about.
func (l *loaded) weatherOf(d cal.Date) []string {
	i := int(d - l.Weather.Start)
	method := l.Weather.ET.Methods[i]
	line := fmt.Sprintf("Reference ET of %v: %.2f mm, %v.", d, l.Weather.ET.EToMM[i], method)
	if method.Way == et0.SuppliedByInput {
		line = fmt.Sprintf("Reference ET of %v: %.2f mm, supplied with the weather.", d, l.Weather.ET.EToMM[i])
	}
	return []string{line}
}

// find returns the index of name in known, or a fault that suggests one.
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
	return 0, &usageError{diag.UnknownName, fmt.Sprintf("there is no %s %q", what, name), fix}
}
