package cli

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/scenarios/studyfile"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
	"loamledger/weather/prepare"
	"loamledger/weather/quantity"
)

// weatherOptions are the flags of the weather command.
type weatherOptions struct {
	Layouts                bool
	Layout, Units, Station string
	Latitude               float64
	Elevation, WindHeight  string
	From, To               string
	Fill                   []string
	Gauge                  string
	Out                    string
	JSON                   bool
	weatherRules
	weatherViews
	forecastFlags
	parsed                  scenarios.WeatherRules
	elevationM, windHeightM float64
	dates                   cal.Period
}

func (o *weatherOptions) addFlags(f *pflag.FlagSet) {
	f.BoolVar(&o.Layouts, "layouts", false, "describe every known layout and exit")
	f.StringVar(&o.Layout, "layout", "", "read the file as this `LAYOUT` instead of detecting it")
	f.StringVar(&o.Units, "units", "", "`UNITS`, if the file states none: si, us or tenths")
	f.StringVar(&o.Station, "station", "", "id or `NAME` of the station to read, if the file has several")
	f.Float64Var(&o.Latitude, "latitude", math.NaN(), "latitude in decimal `DEGREES`, south negative, if the file has none")
	f.Lookup("latitude").DefValue = "0" // help shows no default: there is none
	f.StringVar(&o.Elevation, "elevation", "", "elevation as a `LENGTH`, such as 1600 ft, if the file has none")
	f.StringVar(&o.WindHeight, "wind-height", "", "height of the anemometer as a `LENGTH`, such as 3 m")
	f.StringVar(&o.From, "from", "", "first `DATE` to use, such as 2012-01-01")
	f.StringVar(&o.To, "to", "", "last `DATE` to use")
	f.StringArrayVar(&o.Fill, "fill", nil, "`FILE` of another station to fill gaps from; may be repeated, best\nfirst")
	f.StringVar(&o.Gauge, "rain", "", "`FILE` of a rain gauge nearer to the site")
	f.StringVarP(&o.Out, "out", "o", "", "CSV `FILE` to write the checked and filled record to")
	o.weatherRules.addFlags(f)
	o.weatherViews.addFlags(f)
	o.forecastFlags.addFlags(f)
	f.BoolVar(&o.JSON, "json", false, "print the result as JSON")
}

func newWeather(s Streams) *cobra.Command {
	var o weatherOptions
	cmd := &cobra.Command{
		Use:   "weather FILE...",
		Short: "Identify, check and fill a weather file; compute reference ET",
		Long: `Detects the layout of a daily weather file, checks the values, fills gaps and
computes reference ET. It reports what it found and changed, and how reliable
the reference ET is. Several files are joined into one station's record. With
--out it writes the record as CSV in loamledger's own layout. With --forecast it
shows the forecast days after the record and, for archived forecasts, how good
they were.`,
		Example: `  loamledger weather station.csv
  loamledger weather station.csv --latitude 38.9 --elevation "1600 ft" --out weather.csv
  loamledger weather --layouts`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 && !o.Layouts {
				return &usageError{diag.MissingFlag, "missing weather file", "write: loamledger weather FILE"}
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if o.Layouts {
				printLayouts(s.Out)
				return nil
			}
			if err := o.parse(); err != nil {
				return err
			}
			return o.run(s, args)
		},
	}
	o.addFlags(cmd.Flags())
	return cmd
}

// parse reads the flags that have units or dates.
func (o *weatherOptions) parse() error {
	length := func(flag, text string) (float64, error) {
		if text == "" {
			return math.NaN(), nil
		}
		v, err := quantity.Parse(text, quantity.Length)
		if err != nil {
			bad := err.(*quantity.Fault)
			return 0, &usageError{diag.BadFlag, fmt.Sprintf("--%s: %s", flag, bad.Msg), bad.Fix}
		}
		return v, nil
	}
	day := func(flag, text string, put func(cal.Date) cal.Period) error {
		d, err := dayFlag(flag, text, "2012-01-01")
		if err == nil && text != "" {
			o.dates = put(d)
		}
		return err
	}
	if math.IsInf(o.Latitude, 0) || o.Latitude < -90 || o.Latitude > 90 {
		msg := fmt.Sprintf("--latitude %g is outside -90 to 90", o.Latitude)
		return &usageError{diag.BadFlag, msg, "write decimal degrees, south negative"}
	}
	if !slices.Contains([]string{"", "si", "us", "tenths"}, o.Units) {
		return &usageError{diag.UnknownName, fmt.Sprintf("unknown units %q", o.Units), "write si, us or tenths"}
	}
	var layouts []string
	for _, l := range csvfile.Layouts() {
		layouts = append(layouts, l.Name)
	}
	if o.Layout != "" && !slices.Contains(layouts, o.Layout) {
		_, err := find("layout", o.Layout, layouts)
		return err
	}
	if o.Out != "" {
		if err := keepIt.free(o.Out); err != nil {
			return err
		}
	}
	var err error
	if o.parsed, err = o.rules(); err != nil {
		return err
	}
	if err := o.weatherViews.check(); err != nil {
		return err
	}
	if err := o.forecastFlags.check(); err != nil {
		return err
	}
	if o.elevationM, err = length("elevation", o.Elevation); err != nil {
		return err
	}
	if o.windHeightM, err = length("wind-height", o.WindHeight); err != nil {
		return err
	}
	if err = day("from", o.From, func(d cal.Date) cal.Period { return o.dates.From(d) }); err != nil {
		return err
	}
	if err = day("to", o.To, func(d cal.Date) cal.Period { return o.dates.To(d) }); err != nil {
		return err
	}
	from, okFrom := o.dates.First()
	if to, okTo := o.dates.Last(); okFrom && okTo && to < from {
		return &usageError{diag.BadFlag, fmt.Sprintf("--to %v is before --from %v", to, from), "pass the earlier date with --from"}
	}
	return nil
}

// scenario returns the flags as a scenario, so that both take the same path.
func (o *weatherOptions) scenario(files []string) *scenarios.Scenario {
	sc := &scenarios.Scenario{Site: scenarios.Site{LatDeg: o.Latitude, LonDeg: math.NaN(), ElevM: o.elevationM}}
	w := &sc.Weather
	w.Layout, w.Units, w.Station, w.WindHeightM, w.Dates = o.Layout, o.Units, o.Station, o.windHeightM, o.dates
	w.WeatherRules = o.parsed
	for _, f := range files {
		w.Files = append(w.Files, scenarios.File{Name: f})
	}
	if o.Gauge != "" {
		w.RainFile = &scenarios.File{Name: o.Gauge}
	}
	for _, name := range o.Fill {
		w.FillFiles = append(w.FillFiles, scenarios.File{Name: name})
	}
	return sc
}

func (o *weatherOptions) run(s Streams, files []string) error {
	if o.Stations {
		return o.listStations(s, files)
	}
	sc := o.scenario(files)
	var in inputs
	records, err := in.files("").Records(sc)
	if err != nil {
		return err
	}
	records.SelfTest = true
	w, err := study.Prepare(sc, records)
	if w == nil {
		return err
	}
	l := study.OfWeather(sc, w)
	l.Layout = studyfile.LayoutTitle(w.Layout)
	if err == nil && o.given() {
		if err := o.addForecast(&in, l, sc, w); err != nil {
			return err
		}
	}
	if asks := placeAlone(err); len(asks) > 0 && o.Out == "" && !o.given() {
		return o.printUnplaced(s, l, asks)
	}
	if err != nil {
		if perr := o.plot(l); perr != nil {
			return errors.Join(err, perr)
		}
		if !o.JSON {
			fmt.Fprint(s.Out, l.WeatherText()) // what was found, even though a replay cannot use it
			fmt.Fprintf(s.Out, "\nNot ready for a replay: %v\n", err)
		}
		return err
	}
	if o.Out != "" {
		if err := writeOwn(o.Out, l.Weather); err != nil {
			return err
		}
	}
	if err := o.plot(l); err != nil {
		return err
	}
	if o.JSON {
		return printJSON(s.Out, struct {
			study.WeatherRecord
			Warnings []study.WarningRecord `json:"warnings"`
			Forecast *study.ForecastRecord `json:"forecast,omitempty"`
		}{l.WeatherRecord(), l.Warnings(nil), l.ForecastRecord()})
	}
	fmt.Fprint(s.Out, l.WeatherText())
	printViews(s.Out, l.ForecastViews())
	if o.Out != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", o.Out)
	}
	return nil
}

// writeOwn writes the record with ETo, marked as computed on the days when it
// is not the file's own.
func writeOwn(name string, r *prepare.Ready) error {
	series := r.Series
	series.Data[weather.ETo] = slices.Clone(r.ET.EToMM)
	series.Mark[weather.ETo] = make([]weather.Mark, series.Days)
	for i, m := range r.ET.Methods {
		switch {
		case m.Way != et0.SuppliedByInput:
			series.Mark[weather.ETo][i] = weather.Computed
		case r.Has(weather.ETo):
			series.Mark[weather.ETo][i] = r.Mark[weather.ETo][i]
		}
	}
	return writeWhole(name, keepIt, func(w io.Writer) error { return csvfile.WriteOwn(w, &series) })
}

// plot draws the record if a plot is wanted.
func (o *weatherOptions) plot(l *study.Study) error {
	if o.Plot == "" {
		return nil
	}
	return plotRecord(o.Plot, l)
}
