package cli

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"runtime"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/sim/settingsfile"
	"loamledger/sim/tune"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// deficitOptions are the flags of the deficit command.
type deficitOptions struct {
	Strategy string
	File     string
	Plot     string
	Force    bool
	JSON     bool
}

func newDeficit(s Streams) *cobra.Command {
	var o deficitOptions
	cmd := &cobra.Command{
		Use:   "deficit SCENARIO --strategy STRATEGY",
		Short: "Show water against stress days as minutes are cut",
		Long: `Replays one strategy with 10 % to 150 % of its minutes, for the site and for
each zone, and shows water a year against days of stress: can we just water
less? Today's setting is marked. With -o the same goes to a CSV file, in SI,
and with --plot it is drawn.`,
		Example: `  loamledger deficit yard.yaml --strategy "as found"
  loamledger deficit yard.yaml --strategy "as found" -o curve.csv --plot curve.png`,
		Args: exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := o.check(); err != nil {
				return err
			}
			l, err := load(args[0])
			if err != nil {
				return err
			}
			return l.deficit(cmd.Context(), s, &o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Strategy, "strategy", "", "`STRATEGY` whose minutes are cut and raised")
	f.StringVarP(&o.File, "file", "o", "", "CSV `FILE` to write")
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw the curves to")
	f.BoolVar(&o.Force, "force", false, "replace the files of -o and --plot")
	f.BoolVar(&o.JSON, "json", false, "print the curve as JSON")
	return cmd
}

// check refuses names that cannot be written before the work is done.
func (o *deficitOptions) check() error {
	if o.Strategy == "" {
		return &usageError{diag.MissingFlag, "--strategy is missing", "name the strategy whose minutes are to be cut"}
	}
	if o.File != "" {
		if err := forced(o.Force).free(o.File); err != nil {
			return err
		}
	}
	if o.File != "" && filepath.Clean(o.File) == filepath.Clean(o.Plot) {
		return &usageError{diag.FlagConflict, "-o and --plot name the same file", "name two"}
	}
	return freePNG(o.Plot, forced(o.Force), "curve.png")
}

// deficit replays a strategy with more and less of its minutes, writes what is
// to be written, and prints the curve.
func (l *loaded) deficit(ctx context.Context, s Streams, o *deficitOptions) error {
	st, err := l.strategyNamed(o.Strategy)
	if err != nil {
		return err
	}
	job := l.Job
	job.Workers = runtime.GOMAXPROCS(0)
	meter := progress.New(s.Err, s.Terminal && !o.JSON, len(tune.CurveShares())+2, "replaying")
	job.Step = meter.Step
	defer meter.Done()
	c, err := tune.Deficit(ctx, &job, st, nil)
	meter.Done()
	if err != nil {
		return err
	}
	if o.File != "" {
		if err := writeWhole(o.File, forced(o.Force), func(w io.Writer) error { return settingsfile.WriteCurve(w, c) }); err != nil {
			return err
		}
	}
	if o.Plot != "" {
		chart := l.curveChart(c)
		if err := writePNG(o.Plot, forced(o.Force), &chart); err != nil {
			return err
		}
	}
	if o.JSON {
		return printJSON(s.Out, l.curveJSON(c))
	}
	l.printHead(s.Out)
	l.printCurve(s.Out, c)
	for _, name := range []string{o.File, o.Plot} {
		if name != "" {
			fmt.Fprintf(s.Out, "\nWrote %s\n", name)
		}
	}
	return nil
}

// printCurve prints the site's curve, then each zone's.
func (l *loaded) printCurve(w io.Writer, c *tune.Curve) {
	sys := l.Scenario.Units
	fmt.Fprintf(w, "%s, with more and less of its minutes:\n", c.Strategy)
	volume := quantity.Label(quantity.Volume, sys)
	stress := func(v float64) string {
		if c.Dry == 0 {
			return "-"
		}
		return days(v)
	}
	tw := plainTable(w, toTheRight(1, 12)...)
	tw.AppendHeader(table.Row{"minutes", volume + "\na year", "stress days\nmedian year", "stress days\ndry year", "runoff\nevents/yr"})
	for _, p := range c.Points {
		tw.AppendRow(table.Row{shareText(p.Share), volumeText(p.Site.M3PerYear, sys), stress(p.Site.StressDaysMedian), stress(p.Site.StressDaysDry), fmt.Sprintf("%.1f", p.Site.RunoffEvents)})
	}
	tw.Render()
	fmt.Fprintf(w, "\nBy zone: %s a year / stress days of the dry year\n", volume)
	const perTable = 5 // fits a terminal
	for from := 0; from < len(c.Zones); from += perTable {
		to := min(from+perTable, len(c.Zones))
		tw := plainTable(w, toTheRight(1, 12)...)
		head := table.Row{"minutes"}
		for _, z := range c.Zones[from:to] {
			head = append(head, text.WrapSoft(z, 16))
		}
		tw.AppendHeader(head)
		for _, p := range c.Points {
			row := table.Row{shareText(p.Share)}
			for _, f := range p.Zones[from:to] {
				row = append(row, volumeText(f.M3PerYear, sys)+" / "+stress(f.StressDaysDry))
			}
			tw.AppendRow(row)
		}
		tw.Render()
	}
	if c.Dry == 0 {
		fmt.Fprintln(w, "\n"+noWholeYear)
	} else {
		fmt.Fprintf(w, "\nMedian year %d, 1-in-10 dry year %d. Stress days of the site are means over zones by area.\n", c.Median, c.Dry)
	}
	for _, n := range c.Notes {
		fmt.Fprintln(w, n)
	}
	fmt.Fprintln(w, caution)
}

// shareText writes a share of the minutes, with today's marked.
func shareText(share float64) string {
	mark := "  "
	if share == 1 {
		mark = "today "
	}
	return fmt.Sprintf("%s%.0f %%", mark, 100*share)
}

type curvePointJSON struct {
	Zone         string   `json:"zone,omitempty"`
	Percent      float64  `json:"percent"`
	Today        bool     `json:"today"`
	M3PerYear    *float64 `json:"volume_m3_per_year"`
	StressMedian *float64 `json:"stress_days_median_year"`
	StressDry    *float64 `json:"stress_days_dry_year"`
	StressYear   *float64 `json:"stress_days_per_year"`
	RunoffEvents *float64 `json:"runoff_events_per_year"`
}

// curveJSON lists the points, the site's first at each share.
func (l *loaded) curveJSON(c *tune.Curve) any {
	var list []curvePointJSON
	add := func(zone string, share float64, f *tune.CurveFigures) {
		p := curvePointJSON{zone, 100 * share, share == 1, number(f.M3PerYear), number(f.StressDaysMedian), number(f.StressDaysDry), number(f.StressDaysPerYear), number(f.RunoffEvents)}
		if c.Dry == 0 {
			p.StressMedian, p.StressDry = nil, nil
		}
		list = append(list, p)
	}
	for i := range c.Points {
		add("", c.Points[i].Share, &c.Points[i].Site)
		for z := range c.Zones {
			add(c.Zones[z], c.Points[i].Share, &c.Points[i].Zones[z])
		}
	}
	return map[string]any{"strategy": c.Strategy, "median_year": c.Median, "dry_year": c.Dry, "points": list, "notes": orEmpty(c.Notes), "warnings": l.warnings(nil)}
}
