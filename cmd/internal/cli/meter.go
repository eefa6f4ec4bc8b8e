package cli

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim/readsfile"
	"loamledger/weather/diag"
)

// meterOptions are the flags of the meter command.
type meterOptions struct {
	scenarioFlags
	Meter             string
	Plot, PlotScatter string
	Force, JSON       bool
}

func newMeter(s Streams) *cobra.Command {
	var o meterOptions
	cmd := &cobra.Command{
		Use:   "meter SCENARIO",
		Short: "Compare a replay with the reads of water meters",
		Long: `Replays the strategy as found and puts it beside the reads of each meter, period
by period at the real read dates: metered, simulated and base use, statistics
with their labels, years held out, baselines, and what may be said of savings.

The scenario names the reads, and what is known of the meter:
  meters:
    - name: house
      reads: reads.csv
      serves: mixed          # or irrigation: no base use
      people: 3              # one of the ways to tell base use
      base: winter           # or lowest, people, change-point, stated, none
      base_use: 160 gal      # of a day, if it is known; it then counts
      changed: 2023-04-01    # the day from which other settings ran
      changed_to: months     # the strategy that has run since
      events: none           # or a list of kind, from, to, volume, reason
All keys but name and reads are optional. An event with a volume has it taken off
the use of its days; one without omits the periods that have its days.

The reads are CSV with the columns date and volume (or register), the unit in the
heading or in a column unit, and optionally from, meter, read_type (actual,
estimated, customer, corrected), replaced, old_end, new_start. A volume below 0
corrects the estimates just before it.`,
		Example: "  loamledger meter yard.yaml\n  loamledger meter yard.yaml --meter house --plot meter.png --plot-scatter dots.png",
		Args:    exactly(1, "one scenario file"),
		RunE:    onScenario(o.check, &o.scenarioFlags, func(ctx context.Context, l *loaded) error { return l.meter(ctx, s, &o) }),
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.StringVar(&o.Meter, "meter", "", "`METER` to show (default all that have reads)")
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw metered and simulated use over time to")
	f.StringVar(&o.PlotScatter, "plot-scatter", "", "PNG `FILE` to draw metered against simulated use to")
	f.BoolVar(&o.Force, "force", false, "replace the files of --plot and --plot-scatter")
	f.BoolVar(&o.JSON, "json", false, "print the comparison as JSON")
	return cmd
}

// check checks the flags before any file is read.
func (o *meterOptions) check() error {
	if o.Plot != "" && filepath.Clean(o.Plot) == filepath.Clean(o.PlotScatter) {
		return &usageError{diag.FlagConflict, "--plot and --plot-scatter name the same file", "use two names"}
	}
	if err := freePNG(o.Plot, forced(o.Force), "meter.png"); err != nil {
		return err
	}
	return freePNG(o.PlotScatter, forced(o.Force), "dots.png")
}

// readMeters reads the reads of every meter of the scenario that has some.
func (l *loaded) readMeters(scenario string) error {
	for i := range l.Scenario.Meters {
		m := &l.Scenario.Meters[i]
		if m.Reads == nil {
			continue
		}
		name := beside(scenario, m.Reads.Name)
		rows, err := l.files(scenario).Reads(name, m.Reads.Pos)
		if err != nil {
			return err
		}
		h, err := readsfile.History(rows, m.Name)
		if err != nil {
			return err
		}
		if len(h.Reads) == 0 {
			return &diag.Error{Code: diag.EmptyFile, Pos: m.Reads.Pos, Msg: name + ": the reads have no use", Fix: "add the read after the first"}
		}
		in := study.MeterInput{Name: m.Name, File: name, Said: m.Serves != "", Only: m.Serves == scenarios.ServesIrrigation, Use: m.MeterUse,
			History: h}
		for z := range l.Scenario.Zones {
			if l.Scenario.Zones[z].Meter == i {
				in.Zones = append(in.Zones, z)
			}
		}
		l.meters = append(l.meters, in)
	}
	return nil
}

// meter compares, draws and prints.
func (l *loaded) meter(ctx context.Context, s Streams, o *meterOptions) error {
	inputs, err := l.wantedMeters(o.Meter)
	if err != nil {
		return err
	}
	if len(inputs) > 1 && (o.Plot != "" || o.PlotScatter != "") {
		return &usageError{diag.MissingFlag, "--meter is required with --plot: the scenario has several meters with reads", "add --meter NAME"}
	}
	list, err := l.CompareMeters(ctx, inputs)
	if err != nil {
		return err
	}
	charts := l.MeterCharts(list)
	var written []string
	for i, name := range []string{o.Plot, o.PlotScatter} {
		if name == "" {
			continue
		}
		if err := writePNG(name, forced(o.Force), &charts[i]); err != nil {
			return err
		}
		written = append(written, name)
	}
	if o.JSON {
		return printJSON(s.Out, struct {
			Meters []study.MeteredRecord `json:"meters"`
		}{l.MeteredRecords(list)})
	}
	printLines(s.Out, l.Head()[:1])
	printViews(s.Out, l.MeteredViews(list))
	fmt.Fprintf(s.Out, "\n%s\n", study.MeterCaution)
	for _, name := range written {
		fmt.Fprintf(s.Out, "\nWrote %s\n", name)
	}
	return nil
}

// wantedMeters returns the meters with reads, or the one that is named.
func (l *loaded) wantedMeters(name string) ([]study.MeterInput, error) {
	if len(l.meters) == 0 {
		return nil, &diag.Error{Code: diag.MissingKey, Pos: diag.Pos{File: l.Scenario.File}, Msg: "no meter of the scenario has reads",
			Fix: "add meters: [{name: main, reads: reads.csv, serves: mixed}]"}
	}
	if name == "" {
		return l.meters, nil
	}
	var names []string
	for i := range l.meters {
		names = append(names, l.meters[i].Name)
	}
	i, err := find("meter", name, names)
	if err != nil {
		return nil, &usageError{diag.UnknownName, fmt.Sprintf("no meter with reads is called %q", name),
			"use one of: " + strings.Join(names, "; ")}
	}
	return l.meters[i : i+1], nil
}
