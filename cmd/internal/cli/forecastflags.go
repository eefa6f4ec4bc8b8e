package cli

import (
	"path/filepath"

	"github.com/spf13/pflag"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/weather/diag"
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
	file, err := in.files("").Forecast(sc)
	if err == nil {
		l.Forecast, err = study.Announce(sc, w, file)
	}
	return err
}
