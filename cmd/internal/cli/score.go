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

// scoreOptions holds the flags of the score command.
type scoreOptions struct {
	Weather, Units, Station string
	Threshold, Probability  string
	JSON                    bool
	Accept                  []string
	rule                    forecast.Rule
}

func newScore(s Streams) *cobra.Command {
	var o scoreOptions
	cmd := &cobra.Command{
		Use:   "score FILE --weather FILE",
		Short: "Score archived forecasts against observed rain",
		Long: `Compares archived forecasts with the rain in a weather file. For each number of
days ahead it prints the share of rain days that were forecast (POD), the share
of forecast rain days that stayed dry (FAR), and the forecast rain days per
observed one (bias).

The forecast file is CSV with the columns issued,valid,rain_mm and optionally
rain_probability_pct,tmin_c,eto_mm.`,
		Example: `  loamledger score forecasts.csv --weather station.csv
  loamledger score forecasts.csv --weather station.csv --rain-threshold "0.25 in"
  loamledger score forecasts.csv --weather station.csv --min-probability 50%`,
		Args: exactly(1, "one forecast file"),
		RunE: func(_ *cobra.Command, args []string) error {
			if err := o.parse(); err != nil {
				return err
			}
			return o.run(s, args[0])
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Weather, "weather", "", "weather `FILE` of observed rain; required")
	f.StringVar(&o.Units, "units", "", "`UNITS` of the weather file, if it states none: si, us or tenths")
	f.StringVar(&o.Station, "station", "", "id or `NAME` of the station, if the weather file has several")
	f.StringVar(&o.Threshold, "rain-threshold", "5 mm", "rain-day threshold, a `DEPTH` with its unit")
	f.StringVar(&o.Probability, "min-probability", "",
		"forecast rain means a probability of at least this `SHARE`, such as\n50%, instead of an amount")
	acceptFlag(f, &o.Accept, "run")
	f.BoolVar(&o.JSON, "json", false, "print the scores as JSON")
	return cmd
}

func (o *scoreOptions) parse() error {
	if o.Weather == "" {
		return &usageError{diag.MissingFlag, "--weather is required", "add --weather FILE with the observed rain"}
	}
	v, err := quantity.Parse(o.Threshold, quantity.Depth)
	if err != nil || !(v > 0 && v <= 500) {
		msg := fmt.Sprintf("--rain-threshold %q is not a depth above 0 and up to 500 mm", o.Threshold)
		return &usageError{diag.BadFlag, msg, "write it with its unit, such as 5 mm or 0.2 in"}
	}
	if err := knownCodes(o.Accept); err != nil {
		return err
	}
	o.rule.RainMM = v
	if o.Probability == "" {
		return nil
	}
	v, err = quantity.Parse(o.Probability, quantity.Fraction)
	if err != nil || !(v > 0 && v <= 1) {
		msg := fmt.Sprintf("--min-probability %q is not a share above 0%% and up to 100%%", o.Probability)
		return &usageError{diag.BadFlag, msg, "write it with its sign, such as 50%"}
	}
	o.rule.ProbabilityPct = 100 * v
	return nil
}

func (o *scoreOptions) run(s Streams, name string) error {
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
		at := diag.Pos{File: o.Weather}
		return &diag.Error{Code: diag.MissingColumn, Pos: at, Msg: "the record has no rain", Fix: "choose a record with rain"}
	}
	doubts, err := study.JudgeRecord(rec, o.Accept, weather.Rain)
	if err != nil {
		return err
	}
	scores, err := forecast.Verify(a, &rec.Series, o.rule)
	if err != nil {
		return &usageError{diag.BadFlag, err.Error(), "correct --rain-threshold or --min-probability"}
	}
	if len(scores) == 0 {
		return &diag.Error{
			Code: diag.NoForecast, Pos: diag.Pos{File: name},
			Msg: fmt.Sprintf("no forecast is for a day in the record, %v to %v", rec.Start, rec.End()),
			Fix: "use forecasts and a record of the same days",
		}
	}
	if o.JSON {
		return printJSON(s.Out, o.record(name, a, scores, doubts.Records))
	}
	printLines(s.Out, doubts.Lines)
	count := quantity.Count(a.Len(), "forecast", "forecasts")
	fmt.Fprintf(s.Out, "%s: %s, compared with the rain in %s, %v to %v\n", name, count, o.Weather, rec.Start, rec.End())
	fmt.Fprintf(s.Out, "A rain day has at least %s. It counts as forecast if %s.\n\n", o.Threshold, o.criterion())
	printGrid(s.Out, study.ScoreGrid(scores))
	fmt.Fprintln(s.Out, "\n"+study.ScoreWords)
	return nil
}

// criterion says which forecasts count as forecasts of rain.
func (o *scoreOptions) criterion() string {
	if o.rule.ProbabilityPct > 0 {
		return "the forecast probability is at least " + o.Probability
	}
	return "the forecast amount is at least that"
}

type scoreJSON struct {
	File           string            `json:"file"`
	Weather        string            `json:"weather"`
	Forecasts      int               `json:"forecasts"`
	RainMM         float64           `json:"rain_day_from_mm"`
	ProbabilityPct *float64          `json:"rain_probability_from_pct,omitempty"`
	Leads          []study.LeadScore `json:"leads"`

	Findings []study.FindingRecord `json:"weather_findings,omitempty"`
}

func (o *scoreOptions) record(name string, a *forecast.Archive, scores []forecast.Score,
	found []study.FindingRecord) scoreJSON {
	out := scoreJSON{File: name, Weather: o.Weather, Forecasts: a.Len(), RainMM: o.rule.RainMM, Findings: found}
	if o.rule.ProbabilityPct > 0 {
		out.ProbabilityPct = study.Number(o.rule.ProbabilityPct)
	}
	for _, s := range scores {
		out.Leads = append(out.Leads, study.ScoreOf(s))
	}
	return out
}
