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
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
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
	Output                 string
	JSON                   bool
	weatherRules
	weatherViews
	parsed                  scenarios.WeatherRules
	elevationM, windHeightM float64
	dates                   cal.Period
}

func (o *weatherOptions) addFlags(f *pflag.FlagSet) {
	f.BoolVar(&o.Layouts, "layouts", false, "describe every layout that is recognised, and stop")
	f.StringVar(&o.Layout, "layout", "", "take the file to be of this `LAYOUT` instead of recognising it")
	f.StringVar(&o.Units, "units", "", "`UNITS` of a file that states none: si, us or tenths")
	f.StringVar(&o.Station, "station", "", "id or `NAME` of the station to read, for a file that holds several")
	f.Float64Var(&o.Latitude, "latitude", math.NaN(), "latitude in decimal `DEGREES`, south negative, where the file has\nnone")
	f.Lookup("latitude").DefValue = "0" // help shows no default: there is none
	f.StringVar(&o.Elevation, "elevation", "", "`LENGTH` above sea level, such as 1600 ft, where the file has none")
	f.StringVar(&o.WindHeight, "wind-height", "", "height of the wind gauge, a `LENGTH` with its unit such as 3 m")
	f.StringVar(&o.From, "from", "", "first `DATE` to use, such as 2012-01-01")
	f.StringVar(&o.To, "to", "", "last `DATE` to use")
	f.StringArrayVar(&o.Fill, "fill", nil, "another station's `FILE` to fill gaps from, first choice first")
	f.StringVar(&o.Gauge, "rain", "", "`FILE` of a nearer rain gauge")
	f.StringVarP(&o.Output, "output", "o", "", "`FILE` to write the checked and filled record to, as CSV of\nloamledger's own layout")
	o.weatherRules.addFlags(f)
	o.weatherViews.addFlags(f)
	f.BoolVar(&o.JSON, "json", false, "print as JSON")
}

func newWeather(s Streams) *cobra.Command {
	var o weatherOptions
	cmd := &cobra.Command{
		Use:   "weather FILE...",
		Short: "Recognise a weather file, check it, fill it and compute reference ET",
		Long: `Says what a daily weather file is, what is wrong with it, what was done about it
and how far its reference ET can be trusted. Several files are read as parts of
one station's record. With --output the record is written as loamledger's own CSV.`,
		Example: "  loamledger weather station.csv\n  loamledger weather station.csv --latitude 38.9 --elevation \"1600 ft\" -o weather.csv\n  loamledger weather --layouts",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 && !o.Layouts {
				return &usageError{diag.MissingFlag, "no weather file is named", "write: loamledger weather FILE"}
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

// parse reads the flags that carry units or dates.
func (o *weatherOptions) parse() error {
	length := func(flag, text string) (float64, error) {
		if text == "" {
			return math.NaN(), nil
		}
		v, err := quantity.Parse(text, quantity.Length)
		if err != nil {
			f := err.(*quantity.Fault)
			return 0, &usageError{diag.BadFlag, fmt.Sprintf("--%s: %s", flag, f.Msg), f.Fix}
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
		return &usageError{diag.BadFlag, fmt.Sprintf("--latitude %g is outside -90 to 90", o.Latitude), "write it in decimal degrees, south negative"}
	}
	if !slices.Contains([]string{"", "si", "us", "tenths"}, o.Units) {
		return &usageError{diag.UnknownName, fmt.Sprintf("--units %q is not known", o.Units), "write si, us or tenths"}
	}
	var layouts []string
	for _, l := range csvfile.Layouts() {
		layouts = append(layouts, l.Name)
	}
	if o.Layout != "" && !slices.Contains(layouts, o.Layout) {
		_, err := find("layout", o.Layout, layouts)
		return err
	}
	if o.Output != "" {
		if err := keepIt.free(o.Output); err != nil {
			return err
		}
	}
	var err error
	if o.parsed, err = o.rules(); err != nil {
		return err
	}
	if err := o.check(); err != nil {
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
		return &usageError{diag.BadFlag, fmt.Sprintf("--to %v is before --from %v", to, from), "write the earlier day after --from"}
	}
	return nil
}

// scenario returns what the flags say in the form a scenario has it, so that
// both go the same way.
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
	records, err := in.readRecords("", sc)
	if err != nil {
		return err
	}
	records.SelfTest = true
	w, err := study.Prepare(sc, records)
	if w == nil {
		return err
	}
	l := study.OfWeather(sc, w)
	l.Layout = layoutTitle(w.Layout)
	if err != nil {
		if o.Plot != "" {
			if perr := plotRecord(o.Plot, l); perr != nil {
				return errors.Join(err, perr)
			}
		}
		if !o.JSON {
			fmt.Fprint(s.Out, l.WeatherText()) // what it is and what is wrong, though it cannot drive a replay
			fmt.Fprintln(s.Out, "\nNot fit for a replay as it stands:")
		}
		return err
	}
	if o.Output != "" {
		if err := writeOwn(o.Output, l.Weather); err != nil {
			return err
		}
	}
	if o.Plot != "" {
		if err := plotRecord(o.Plot, l); err != nil {
			return err
		}
	}
	if o.JSON {
		return printJSON(s.Out, struct {
			study.WeatherRecord
			Warnings []study.WarningRecord `json:"warnings"`
		}{l.WeatherRecord(), l.Warnings(nil)})
	}
	fmt.Fprint(s.Out, l.WeatherText())
	if o.Output != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", o.Output)
	}
	return nil
}

// writeOwn writes the record, ETo included.
func writeOwn(name string, r *prepare.Ready) error {
	series := r.Series
	if !series.Has(weather.ETo) {
		series.Add(weather.ETo)
	}
	copy(series.Data[weather.ETo], r.ET.EToMM)
	return writeWhole(name, keepIt, func(w io.Writer) error { return csvfile.WriteOwn(w, &series) })
}
