package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"loamledger/scenarios/study"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/forecast"
	"loamledger/weather/forecastfile"
	"loamledger/weather/quantity"
)

// forecastOptions are the flags of the forecast command.
type forecastOptions struct {
	Weather, Units, Station string
	Above, Probability      string
	JSON                    bool
	rule                    forecast.Rule
}

func newForecast(s Streams) *cobra.Command {
	var o forecastOptions
	cmd := &cobra.Command{
		Use:   "forecast FILE --weather FILE",
		Short: "Hold archived forecasts against what came, by days ahead",
		Long: `Reads a file of forecasts with the day each was issued, holds them against the
rain of a weather file, and prints for each number of days ahead how many rain
days were forecast (POD), how many forecast ones did not come (FAR) and how many
were forecast for each that came (bias). The file's header is
issued,valid,rain_mm and any of rain_probability_pct,tmin_c,eto_mm.`,
		Example: "  loamledger forecast forecast.csv --weather station.csv\n  loamledger forecast forecast.csv --weather station.csv --above \"0.25 in\" --probability \"50 %\"",
		Args:    exactly(1, "one forecast file"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := o.parse(); err != nil {
				return err
			}
			return o.run(s, args[0])
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Weather, "weather", "", "weather `FILE` with the rain that came; must be given")
	f.StringVar(&o.Units, "units", "", "`UNITS` of a weather file that states none: si, us or tenths")
	f.StringVar(&o.Station, "station", "", "id or `NAME` of the station, for a weather file that holds several")
	f.StringVar(&o.Above, "above", "5 mm", "least rain of a rain day, a `DEPTH` with its unit")
	f.StringVar(&o.Probability, "probability", "", "take a forecast as announcing rain when its chance is at least this\n`SHARE`, such as 50 %, instead of by its amount")
	f.BoolVar(&o.JSON, "json", false, "print as JSON")
	return cmd
}

func (o *forecastOptions) parse() error {
	if o.Weather == "" {
		return &usageError{diag.MissingFlag, "no weather file is named", "add --weather FILE, the record with the rain that came"}
	}
	v, err := quantity.Parse(o.Above, quantity.Depth)
	if err != nil || !(v > 0 && v <= 500) {
		return &usageError{diag.BadFlag, fmt.Sprintf("--above %q is not a depth above 0 and up to 500 mm", o.Above), "write it with its unit, such as 5 mm or 0.2 in"}
	}
	o.rule.RainMM = v
	if o.Probability == "" {
		return nil
	}
	v, err = quantity.Parse(o.Probability, quantity.Fraction)
	if err != nil || !(v > 0 && v <= 1) {
		return &usageError{diag.BadFlag, fmt.Sprintf("--probability %q is not a share above 0 %% and up to 100 %%", o.Probability), "write it with its sign, such as 50 %"}
	}
	o.rule.ProbabilityPct = 100 * v
	return nil
}

func (o *forecastOptions) run(s Streams, name string) error {
	var in inputs
	f, err := in.open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	a, err := forecastfile.Read(f, name)
	if err != nil {
		return err
	}
	rec, err := in.readRecord(o.Weather, diag.Pos{}, csvfile.Options{Units: o.Units, Station: o.Station})
	if err != nil {
		return err
	}
	if !rec.Has(weather.Rain) {
		return &diag.Error{Code: diag.MissingColumn, Pos: diag.Pos{File: o.Weather}, Msg: "the record holds no rain", Fix: "name a record with rain"}
	}
	scores, err := forecast.Verify(a, &rec.Series, o.rule)
	if err != nil {
		return &usageError{diag.BadFlag, err.Error(), "correct --above or --probability"}
	}
	if len(scores) == 0 {
		return &diag.Error{Code: diag.NoForecast, Pos: diag.Pos{File: name}, Msg: fmt.Sprintf("no forecast is for a day of the record, %v to %v", rec.Start, rec.End()), Fix: "name forecasts and a record of the same days"}
	}
	if o.JSON {
		return printJSON(s.Out, o.record(name, a, scores))
	}
	fmt.Fprintf(s.Out, "%s: %s, against the rain of %s, %v to %v\nA rain day has at least %s; it is forecast when %s.\n\n", name, quantity.Count(a.Len(), "forecast", "forecasts"), o.Weather, rec.Start, rec.End(), o.Above, o.announces())
	printGrid(s.Out, study.ScoreGrid(scores))
	fmt.Fprintln(s.Out, "\n"+study.ScoreWords)
	return nil
}

// announces says when a forecast counts as announcing rain.
func (o *forecastOptions) announces() string {
	if o.rule.ProbabilityPct > 0 {
		return "its chance is at least " + o.Probability
	}
	return "its amount is at least that"
}

type verifyJSON struct {
	File           string            `json:"file"`
	Weather        string            `json:"weather"`
	Forecasts      int               `json:"forecasts"`
	RainMM         float64           `json:"rain_day_from_mm"`
	ProbabilityPct *float64          `json:"rain_probability_from_pct,omitempty"`
	Leads          []study.LeadScore `json:"leads"`
}

func (o *forecastOptions) record(name string, a *forecast.Archive, scores []forecast.Score) verifyJSON {
	out := verifyJSON{File: name, Weather: o.Weather, Forecasts: a.Len(), RainMM: o.rule.RainMM}
	if o.rule.ProbabilityPct > 0 {
		out.ProbabilityPct = study.Number(o.rule.ProbabilityPct)
	}
	for _, s := range scores {
		out.Leads = append(out.Leads, study.ScoreOf(s))
	}
	return out
}
