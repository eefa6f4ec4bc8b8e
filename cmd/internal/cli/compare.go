package cli

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/plots"
	"loamledger/scenarios/study"
	"loamledger/sim/soilwater/soilfile"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// compareOptions holds the flags of the compare command.
type compareOptions struct {
	scenarioFlags
	Measured, Zone, Strategy    string
	Soil                        string
	FieldCapacity, WiltingPoint string
	Fit                         string
	Plot, PlotUse               string
	Force, JSON                 bool
	fit                         []study.FitKey
	fieldCapacity, wiltingPoint float64
	source                      study.SoilSource
}

func newCompare(s Streams) *cobra.Command {
	var o compareOptions
	cmd := &cobra.Command{
		Use:   "compare SCENARIO --measured FILE",
		Short: "Compare a replay with measured soil water",
		Long: `Replays one zone and compares its depletion with sensors in the same soil: by
how much the replay is off, on which days water got scarce in both, and the
likely reason of the largest difference. Nothing is changed unless --fit asks.

The file has the daily layout of the US Climate Reference Network, or the column
date and a column for each sensor, headed by its depth and unit:
  date,5 cm [m3/m3],20 cm north [%],20 cm south [%],10 cm [C]
Several sensors at one depth are averaged. Empty cells and missing days are
gaps. Days with frozen soil do not count.

Field capacity and wilting point of each depth come from the record itself: its
0.90 and 0.005 quantiles. --soil scenario replays with the scenario's soil
instead, and --field-capacity with --wilting-point states both. Sensors under
irrigation need the strategy that ran; waterings from a log can be given there
as dated manual runs.`,
		Example: `  loamledger compare yard.yaml --measured sensors.csv --zone "front lawn"
  loamledger compare yard.yaml --measured sensors.csv --strategy "as found" --soil scenario
  loamledger compare yard.yaml --measured sensors.csv --plot depletion.png --plot-use use.png
  loamledger compare yard.yaml --measured sensors.csv --fit k,awc`,
		Args: exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.parse(); err != nil {
				return err
			}
			l, err := load(args[0], o.scenarioFlags)
			if err != nil {
				return err
			}
			return l.compare(cmd.Context(), s, &o)
		},
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.StringVar(&o.Measured, "measured", "", "`FILE` of measured soil water; required")
	f.StringVar(&o.Zone, "zone", "", "`ZONE` of the sensors; required if there are several")
	f.StringVar(&o.Strategy, "strategy", "", "`STRATEGY` that ran; without it, no watering")
	f.StringVar(&o.Soil, "soil", study.SoilSources()[0], "soil of the replay: record or scenario")
	f.StringVar(&o.FieldCapacity, "field-capacity", "", "stated field capacity of all depths, a `SHARE` of the\nvolume such as 30%")
	f.StringVar(&o.WiltingPoint, "wilting-point", "", "stated wilting point, a `SHARE` likewise")
	f.StringVar(&o.Fit, "fit", "", "`PARAMETERS` to fit to half of the record, in their order:\nk, awc or k,awc")
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw simulated and measured depletion to")
	f.StringVar(&o.PlotUse, "plot-use", "", "PNG `FILE` to draw measured water use against depletion to")
	f.BoolVar(&o.Force, "force", false, "replace the files of --plot and --plot-use")
	f.BoolVar(&o.JSON, "json", false, "print the comparison as JSON")
	return cmd
}

// parse checks the flags before any file is read.
func (o *compareOptions) parse() error {
	if o.Measured == "" {
		return &usageError{diag.MissingFlag, "--measured is required", "add --measured FILE with the measured soil water"}
	}
	if err := o.parseSoil(); err != nil {
		return err
	}
	for _, word := range strings.FieldsFunc(o.Fit, func(r rune) bool { return r == ',' || r == ' ' }) {
		key := study.FitKey(strings.ToLower(word))
		if !slices.Contains(study.FitKeys(), key) {
			return &usageError{diag.BadFlag, fmt.Sprintf("--fit %q is not a parameter that can be fitted", word), "write --fit k, --fit awc or --fit k,awc"}
		}
		if slices.Contains(o.fit, key) {
			return &usageError{diag.BadFlag, fmt.Sprintf("--fit has %q twice", word), "name each parameter once"}
		}
		o.fit = append(o.fit, key)
	}
	if o.Plot != "" && filepath.Clean(o.Plot) == filepath.Clean(o.PlotUse) {
		return &usageError{diag.FlagConflict, "--plot and --plot-use name the same file", "use two names"}
	}
	if err := freePNG(o.Plot, forced(o.Force), "depletion.png"); err != nil {
		return err
	}
	return freePNG(o.PlotUse, forced(o.Force), "use.png")
}

// parseSoil reads where the soil of the replay comes from.
func (o *compareOptions) parseSoil() error {
	at := slices.Index(study.SoilSources(), strings.ToLower(strings.TrimSpace(o.Soil)))
	if at < 0 {
		return &usageError{diag.BadFlag, fmt.Sprintf("--soil %q is not valid", o.Soil), "write --soil record or --soil scenario"}
	}
	o.source = study.SoilSource(at)
	if o.FieldCapacity == "" && o.WiltingPoint == "" {
		return nil
	}
	if o.source == study.SoilOfScenario {
		return &usageError{diag.FlagConflict, "--soil scenario contradicts a stated field capacity", "omit one of them"}
	}
	o.source = study.SoilStated
	for _, f := range []struct {
		name, text string
		to         *float64
	}{{"field-capacity", o.FieldCapacity, &o.fieldCapacity}, {"wilting-point", o.WiltingPoint, &o.wiltingPoint}} {
		if f.text == "" {
			return &usageError{diag.MissingFlag, "--" + f.name + " is missing", "state --field-capacity and --wilting-point together"}
		}
		v, err := quantity.Parse(f.text, quantity.Fraction)
		if err != nil || !(v >= 0 && v <= 0.9) {
			return &usageError{diag.BadFlag, fmt.Sprintf("--%s %q is not a share from 0%% to 90%%", f.name, f.text), "write it with its sign, such as 30%"}
		}
		*f.to = v
	}
	if o.wiltingPoint >= o.fieldCapacity {
		return &usageError{diag.BadFlag, "--wilting-point is not below --field-capacity", "check the two values"}
	}
	return nil
}

// compare reads the measurements, compares, draws and prints.
func (l *loaded) compare(ctx context.Context, s Streams, o *compareOptions) error {
	zone, err := l.compareZone(o.Zone)
	if err != nil {
		return err
	}
	st := -1
	if o.Strategy != "" {
		if st, err = find("strategy", o.Strategy, l.StrategyNames()); err != nil {
			return err
		}
	}
	f, err := l.open(o.Measured)
	if err != nil {
		return err
	}
	defer f.Close()
	file, err := soilfile.Read(f, o.Measured)
	if err != nil {
		return err
	}
	m, err := l.Measure(ctx, &study.MeasuredOptions{Record: file.Record, Zone: zone, Strategy: st, Soil: o.source,
		FieldCapacity: o.fieldCapacity, WiltingPoint: o.wiltingPoint, Fit: o.fit})
	if err != nil {
		return err
	}
	written, err := l.plotCompared(m, o)
	if err != nil {
		return err
	}
	if o.JSON {
		return printJSON(s.Out, l.MeasuredRecord(m, o.Measured, file.Layout))
	}
	for _, view := range l.MeasuredViews(m, o.Measured, file.Layout) {
		printLines(s.Out, view.Head)
		if view.Grid != nil {
			printGrid(s.Out, view.Grid)
		}
		printLines(s.Out, view.Notes)
	}
	for _, name := range written {
		fmt.Fprintf(s.Out, "\nWrote %s\n", name)
	}
	return nil
}

// compareZone returns the index of the zone of the sensors.
func (l *loaded) compareZone(name string) (int, error) {
	names := l.ZoneNames()
	if name == "" && len(names) > 1 {
		return 0, &usageError{diag.MissingFlag, "--zone is required: the scenario has several zones", "use one of: " + strings.Join(names, "; ")}
	}
	if name == "" {
		return 0, nil
	}
	return find("zone", name, names)
}

// plotCompared draws the charts that were asked for and lists their files. A record
// that is not scored has none.
func (l *loaded) plotCompared(m *study.Measured, o *compareOptions) (written []string, err error) {
	if m.NotScored != 0 {
		return nil, nil
	}
	for _, p := range []struct {
		name  string
		chart func(*study.Measured) plots.Chart
	}{{o.Plot, l.DepletionChart}, {o.PlotUse, l.UseChart}} {
		if p.name == "" {
			continue
		}
		chart := p.chart(m)
		if err := writePNG(p.name, forced(o.Force), &chart); err != nil {
			return nil, err
		}
		written = append(written, p.name)
	}
	return written, nil
}
