package cli

import (
	"bufio"
	"math"
	"path/filepath"

	"github.com/spf13/pflag"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/forecastfile"
)

// forecastFlags name a forecast file.
type forecastFlags struct{ Forecast, ForecastLayout string }

func (o *forecastFlags) addFlags(f *pflag.FlagSet) {
	f.StringVar(&o.Forecast, "forecast", "",
		"forecast `FILE`: archived forecasts with the columns\nissued,valid,rain_mm and more, or the coming days as a daily\nweather file")
	f.StringVar(&o.ForecastLayout, "forecast-layout", "", "YAML `FILE` that describes the columns of a daily forecast file")
}

var errRepeatForecast = &usageError{diag.BadFlag, "--forecast would change the recorded run",
	"replay the scenario itself instead of run.json"}

func (o *forecastFlags) given() bool { return o.Forecast != "" }

// check rejects a layout file without a forecast.
func (o *forecastFlags) check() error {
	if o.ForecastLayout != "" && !o.given() {
		return &usageError{diag.MissingFlag, "--forecast-layout requires --forecast", "add --forecast FILE"}
	}
	return nil
}

// put names the files in a scenario, relative to its folder if possible.
func (o *forecastFlags) put(root *scenarios.Node, scenario string) {
	if !o.given() {
		return
	}
	from := func(name string) string {
		if name == "" || filepath.IsAbs(name) {
			return name
		}
		if rel, err := filepath.Rel(filepath.Dir(scenario), name); err == nil {
			return rel
		}
		if abs, err := filepath.Abs(name); err == nil { // the scenario is named by an absolute path
			return abs
		}
		return name
	}
	scenarios.PutForecastFile(root, from(o.Forecast), from(o.ForecastLayout))
}

// addForecast reads the forecast file of the flags into a study of weather.
func (o *forecastFlags) addForecast(in *inputs, l *study.Study, sc *scenarios.Scenario, w *study.Weather) error {
	sc.Forecast = &scenarios.Forecast{File: &scenarios.File{Name: o.Forecast}}
	if o.ForecastLayout != "" {
		sc.Forecast.Declared = &scenarios.File{Name: o.ForecastLayout}
	}
	file, err := in.readForecast("", sc)
	if err == nil {
		l.Forecast, err = study.Announce(sc, w, file)
	}
	return err
}

// readForecast reads the forecast file that a scenario names, nil if none: an
// archive, or a daily weather file in any layout.
func (in *inputs) readForecast(name string, sc *scenarios.Scenario) (*study.ForecastFile, error) {
	f := sc.Forecast
	if f == nil || f.File == nil {
		return nil, nil
	}
	r, err := in.openAt(beside(name, f.File.Name), f.File.Pos)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	text := bufio.NewReaderSize(r, 1<<12)
	start, _ := text.Peek(1 << 12) // an error comes again when the file is read
	out := &study.ForecastFile{Name: filepath.Base(f.File.Name)}
	if f.Layout == "" && f.Declared == nil && forecastfile.IsArchive(start) {
		out.Archive, err = forecastfile.Read(text, f.File.Name)
		return out, err
	}
	o := csvfile.Options{Layout: f.Layout, Units: f.Units}
	if f.Declared != nil {
		if o.Declared, err = in.readDeclared(beside(name, f.Declared.Name), f.Declared.Pos); err != nil {
			return nil, err
		}
	}
	if !math.IsNaN(sc.Weather.WindHeightM) {
		o.WindHeightM = &sc.Weather.WindHeightM
	}
	if !math.IsNaN(sc.Site.ElevM) {
		o.SiteElevM = &sc.Site.ElevM
	}
	if out.Daily, err = csvfile.Read(text, f.File.Name, o); err != nil {
		return nil, err
	}
	out.Layout = layoutTitle(out.Daily.Layout)
	return out, nil
}
