package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamledger/plots"
	"loamledger/scenarios/study"
	"loamledger/sim/sample"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// samplesOptions holds the flags of the samples command.
type samplesOptions struct {
	CV                    []float64
	Precision, Confidence string
	Population, Count     int
	Mean, SD              float64
	JSON                  bool
}

func newSamples(s Streams) *cobra.Command {
	var o samplesOptions
	cmd := &cobra.Command{
		Use:   "samples",
		Short: "Tell how many accounts to measure, and the interval of a mean",
		Long: `Without --mean, tells how many accounts must be drawn at random so that a mean is
within a share of itself (precision) with a confidence. It depends on the
coefficient of variation (CV), standard deviation divided by mean: about 0.5 to 1
for the use of accounts, 2 or more for their savings, of which some are below 0.

With --mean, --sd and --count, tells in which interval the mean of all accounts
lies, by Student's t. The accounts must be drawn at random.`,
		Example: `  loamledger samples
  loamledger samples --cv 2 --precision 20% --confidence 90% --population 3000
  loamledger samples --mean 30 --sd 60 --count 68 --confidence 90%`,
		Args: exactly(0, "no arguments"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			f := cmd.Flags()
			if f.Changed("mean") || f.Changed("sd") || f.Changed("count") {
				for _, name := range []string{"mean", "sd", "count"} {
					if !f.Changed(name) {
						return &usageError{diag.MissingFlag, "--" + name + " is missing", "give --mean, --sd and --count together"}
					}
				}
				if f.Changed("cv") || f.Changed("precision") {
					return &usageError{diag.FlagConflict, "--mean excludes --cv and --precision", "omit one or the other"}
				}
				return o.interval(s)
			}
			return o.sizes(s)
		},
	}
	f := cmd.Flags()
	f.Float64SliceVar(&o.CV, "cv", nil, "comma-separated `CVS` of the quantity (default 0.5,1,2,3)")
	f.StringVar(&o.Precision, "precision", "", "half the width of the interval as a `SHARE` of the mean, such as 10%")
	f.StringVar(&o.Confidence, "confidence", "", "confidence, a `SHARE` such as 90% (default 90% with --mean)")
	f.IntVar(&o.Population, "population", 0, "`NUMBER` of all accounts (default unlimited)")
	f.Lookup("population").DefValue = "0"
	f.Float64Var(&o.Mean, "mean", 0, "mean of the sample, a `NUMBER` in any unit")
	f.Lookup("mean").DefValue = "0"
	f.Float64Var(&o.SD, "sd", 0, "standard deviation of the sample, a `NUMBER` in the same unit")
	f.Lookup("sd").DefValue = "0"
	f.IntVar(&o.Count, "count", 0, "`NUMBER` of accounts in the sample")
	f.Lookup("count").DefValue = "0"
	f.BoolVar(&o.JSON, "json", false, "print the answer as JSON")
	return cmd
}

// A goal is a precision with its confidence.
type goal struct{ confidence, precision float64 }

// goals returns what the flags ask for; without them three usual goals.
func (o *samplesOptions) goals() ([]goal, error) {
	if o.Precision == "" && o.Confidence == "" {
		return []goal{{0.9, 0.1}, {0.9, 0.2}, {0.8, 0.2}}, nil
	}
	g := goal{0.9, 0.1}
	var err error
	if o.Precision != "" {
		if g.precision, err = shareFlag("precision", o.Precision, "10%", 10); err != nil {
			return nil, err
		}
	}
	if o.Confidence != "" {
		if g.confidence, err = shareFlag("confidence", o.Confidence, "90%", 0.9999); err != nil {
			return nil, err
		}
	}
	return []goal{g}, nil
}

// shareFlag reads a flag that is a share above 0.
func shareFlag(flag, text, like string, most float64) (float64, error) {
	v, err := quantity.Parse(text, quantity.Fraction)
	if err != nil || !(v > 0 && v <= most) {
		return 0, &usageError{diag.BadFlag, fmt.Sprintf("--%s %q is not a share above 0%% and up to %g%%", flag, text, 100*most),
			"write it with its sign, such as " + like}
	}
	return v, nil
}

type sampleSize struct {
	CV         float64 `json:"cv"`
	Confidence float64 `json:"confidence"`
	Precision  float64 `json:"precision"`
	Population int     `json:"population,omitempty"`
	Z          float64 `json:"z"`
	Exact      float64 `json:"exact"`
	Accounts   int     `json:"accounts"`
}

func (o *samplesOptions) sizes(s Streams) error {
	goals, err := o.goals()
	if err != nil {
		return err
	}
	if o.CV == nil {
		o.CV = []float64{0.5, 1, 2, 3}
	}
	var list []sampleSize
	grid := study.Grid{Head: []string{"CV"}, Columns: []study.GridColumn{{}}}
	for _, g := range goals {
		grid.Head = append(grid.Head, fmt.Sprintf("%g%% confidence, ±%g%%", 100*g.confidence, 100*g.precision))
		grid.Columns = append(grid.Columns, study.GridColumn{Right: true})
	}
	for _, cv := range o.CV {
		row := []string{plots.Fixed(cv, 2)}
		for _, g := range goals {
			n, err := sample.Needed(cv, g.precision, g.confidence, o.Population)
			if err != nil {
				return &usageError{diag.BadFlag, err.Error(), "check --cv, --precision and --population"}
			}
			list = append(list, sampleSize{cv, g.confidence, g.precision, o.Population, n.Z, n.Exact, n.Samples})
			row = append(row, plots.Fixed(float64(n.Samples), 0))
		}
		grid.Rows = append(grid.Rows, row)
	}
	if o.JSON {
		return printJSON(s.Out, struct {
			Sizes []sampleSize `json:"sizes"`
		}{list})
	}
	of := "an unlimited number of accounts"
	if o.Population > 0 {
		of = fmt.Sprintf("%s accounts", plots.Fixed(float64(o.Population), 0))
	}
	fmt.Fprintf(s.Out, "Accounts to draw at random from %s, rounded up:\n\n", of)
	printGrid(s.Out, &grid)
	fmt.Fprintln(s.Out, "\nn = (z × CV ÷ precision)², of N accounts n ÷ (1 + n/N). Draw more: some accounts move or have no bill.")
	return nil
}

func (o *samplesOptions) interval(s Streams) error {
	confidence := 0.9
	if o.Confidence != "" {
		var err error
		if confidence, err = shareFlag("confidence", o.Confidence, "90%", 0.9999); err != nil {
			return err
		}
	}
	i, err := sample.Around(o.Mean, o.SD, o.Count, confidence, o.Population)
	if err != nil {
		return &usageError{diag.BadFlag, err.Error(), "check --mean, --sd, --count and --population"}
	}
	if o.JSON {
		return printJSON(s.Out, struct {
			Mean          float64  `json:"mean"`
			Confidence    float64  `json:"confidence"`
			T             float64  `json:"t"`
			StandardError float64  `json:"standard_error"`
			Low           float64  `json:"low"`
			High          float64  `json:"high"`
			Precision     *float64 `json:"precision,omitempty"`
		}{o.Mean, confidence, i.T, i.Error, i.Low, i.High, study.Number(i.Precision)})
	}
	fmt.Fprintf(
		s.Out,
		"The mean of all accounts is %s to %s with %g%% confidence",
		plots.Rounded(i.Low),
		plots.Rounded(i.High),
		100*confidence,
	)
	if o.Mean != 0 {
		fmt.Fprintf(s.Out, ": %s ± %s%%", plots.Rounded(o.Mean), plots.Fixed(100*i.Precision, 0))
	}
	fmt.Fprintf(s.Out, ".\nStandard error %s, t %s with %d degrees of freedom.\n", plots.Rounded(i.Error), plots.Fixed(i.T, 3), o.Count-1)
	if i.Low < 0 && i.High > 0 {
		fmt.Fprintln(s.Out, "The interval has 0: the sample does not tell whether there is a saving at all.")
	}
	return nil
}
