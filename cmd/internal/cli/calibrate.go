package cli

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/scenarios/study"
	"loamledger/sim/calibrate"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// calibrateOptions are the flags of the calibrate command.
type calibrateOptions struct {
	scenarioFlags
	Meter, HoldFrom, Means, Out string
	Bounds                      []string
	Confidence                  float64
	Draws                       int
	Seed                        uint64
	Force, JSON                 bool

	study.CalibrateOptions
}

func newCalibrate(s Streams) *cobra.Command {
	var o calibrateOptions
	cmd := &cobra.Command{
		Use:   "calibrate SCENARIO",
		Short: "Fit the strategy as found to the reads of water meters",
		Long: `Tunes the replay of the strategy as found to the reads of each meter, in a fixed
order and within bounds, and prints every value:

  base use      the same every day; 0 at a meter for irrigation only
  flow          one factor on flow, or on area, of all zones of the meter
  schedule      months in which nothing ran; run times changed from a date on
  losses        a leak, at a meter for irrigation only
  plants        one factor on plant coefficients, if the water depends on them

After each stage the values before it are fitted again. From the schedule on, a
stage is kept only if it earns its place. Periods after the day under changed are
never fitted. The last year of at least two is held out, and in shorter records
every third period; statistics of both parts are printed, with intervals.

A table of levers shows what the meter can teach: each number of the scenario is
changed, and the metered water of every strategy replayed. A pass on the strategy
as found does not validate a proposed strategy.

--out writes the tuned values as keys to paste into the scenario. A meter cannot
tell flow from area or from run times: --means says which of them is scaled.`,
		Example: "  loamledger calibrate yard.yaml\n  loamledger calibrate yard.yaml --meter house --bounds flow=0.8:1.25 --out calibrated.yaml",
		Args:    exactly(1, "one scenario file"),
		RunE:    onScenario(o.check, &o.scenarioFlags, func(ctx context.Context, l *loaded) error { return l.calibrate(ctx, s, &o) }),
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.StringVar(&o.Meter, "meter", "", "`METER` to fit (default all that have reads)")
	f.StringVar(&o.HoldFrom, "hold-from", "", "hold out the periods from this `DATE` on")
	f.StringSliceVar(&o.Bounds, "bounds", nil, "comma-separated `BOUNDS`, such as flow=0.8:1.25, of flow, run-times or k")
	f.Float64Var(&o.Confidence, "confidence", 100*calibrate.DefaultConfidence, "confidence of intervals in `PERCENT`")
	f.IntVar(&o.Draws, "resamples", calibrate.DefaultDraws, "`NUMBER` of resamples for the intervals")
	f.Uint64Var(&o.Seed, "seed", 1, "random seed `NUMBER` of the resamples")
	f.StringVar(&o.Means, "means", string(study.MeansFlow), "what --out scales: `flow`, area or run-times")
	f.StringVarP(&o.Out, "out", "o", "", "YAML `FILE` to write the tuned values to; requires one meter")
	f.BoolVar(&o.Force, "force", false, "replace the file of --out")
	f.BoolVar(&o.JSON, "json", false, "print the calibration as JSON")
	return cmd
}

// check checks the flags before any file is read.
func (o *calibrateOptions) check() error {
	bad := func(fix, format string, args ...any) error {
		return &usageError{diag.BadFlag, fmt.Sprintf(format, args...), fix}
	}
	if o.HoldFrom != "" {
		d, err := cal.Parse(o.HoldFrom)
		if err != nil {
			return bad("write a date such as 2024-01-01", "--hold-from %s is not a date", o.HoldFrom)
		}
		o.CalibrateOptions.HoldFrom = d
	}
	if !(o.Confidence >= 50 && o.Confidence <= 99) {
		return bad("write a percentage such as 90", "--confidence %g is outside 50 to 99", o.Confidence)
	}
	const least, most = 99, 99999
	if o.Draws < least || o.Draws > most {
		return bad("write a number such as 999", "--resamples %d is outside %d to %d", o.Draws, least, most)
	}
	o.CalibrateOptions.Confidence, o.CalibrateOptions.Draws, o.CalibrateOptions.Seed = o.Confidence/100, o.Draws, o.Seed
	if o.CalibrateOptions.Means = study.FlowMeaning(o.Means); !slices.Contains(study.FlowMeanings(), o.CalibrateOptions.Means) {
		return bad("write flow, area or run-times", "--means %s is not valid", o.Means)
	}
	for _, text := range o.Bounds {
		if err := o.bound(text); err != nil {
			return err
		}
	}
	if o.Out == "" {
		return nil
	}
	return forced(o.Force).free(o.Out)
}

// bound reads one pair of bounds.
func (o *calibrateOptions) bound(text string) error {
	bad := func(format string, args ...any) error {
		return &usageError{diag.BadFlag, "--bounds: " + fmt.Sprintf(format, args...), "write a name and two factors, as in flow=0.8:1.25"}
	}
	key, ends, ok := strings.Cut(text, "=")
	low, high, ok2 := strings.Cut(ends, ":")
	if !ok || !ok2 {
		return bad("%q is not valid", text)
	}
	a, errA := strconv.ParseFloat(strings.TrimSpace(low), 64)
	b, errB := strconv.ParseFloat(strings.TrimSpace(high), 64)
	const least, most = 0.01, 100
	if errA != nil || errB != nil || !(a >= least && a < b && b <= most) {
		return bad("%q is not a range from %g to %g", ends, least, float64(most))
	}
	r := calibrate.Range{Low: a, High: b, Source: "stated with --bounds", Grade: quantity.Given}
	bounds := &o.CalibrateOptions.Bounds
	switch calibrate.Key(strings.TrimSpace(key)) {
	case calibrate.Scale:
		bounds.Scale = r
	case calibrate.Change:
		bounds.Factor = r
	case calibrate.K:
		bounds.K = r
	default:
		return bad("%q is not flow, run-times or k", key)
	}
	if a > 1 || b < 1 {
		return bad("%q does not include 1, the value of the scenario", ends)
	}
	return nil
}

// calibrate fits, writes and prints.
func (l *loaded) calibrate(ctx context.Context, s Streams, o *calibrateOptions) error {
	inputs, err := l.wantedMeters(o.Meter)
	if err != nil {
		return err
	}
	if len(inputs) > 1 && o.Out != "" {
		return &usageError{diag.MissingFlag, "--meter is required with --out: the scenario has several meters with reads", "add --meter NAME"}
	}
	metered, err := l.CompareMeters(ctx, inputs)
	if err != nil {
		return err
	}
	var list []*study.Calibration
	for _, m := range metered {
		c, err := l.Calibrate(ctx, m, o.CalibrateOptions)
		if err != nil {
			return err
		}
		list = append(list, c)
	}
	wrote := o.Out != "" && list[0].Better()
	if wrote {
		if err := l.spare(o.Out); err != nil {
			return err
		}
		text := l.CalibratedYAML(list[0])
		if err := writeWhole(o.Out, forced(o.Force), func(w io.Writer) error {
			_, err := io.WriteString(w, text)
			return err
		}); err != nil {
			return err
		}
	}
	if o.JSON {
		var records []study.CalibrationRecord
		for _, c := range list {
			records = append(records, l.CalibrationRecord(c))
		}
		return printJSON(s.Out, struct {
			Meters []study.CalibrationRecord `json:"meters"`
		}{records})
	}
	printLines(s.Out, l.Head()[:1])
	for _, c := range list {
		printViews(s.Out, l.CalibrationViews(c))
	}
	fmt.Fprintf(s.Out, "\n%s\n", study.Caution)
	switch {
	case wrote:
		fmt.Fprintf(s.Out, "\nWrote %s: keys to paste into the scenario\n", o.Out)
	case o.Out != "":
		fmt.Fprintf(s.Out, "\nNot written: %s\n", o.Out)
	}
	return nil
}
