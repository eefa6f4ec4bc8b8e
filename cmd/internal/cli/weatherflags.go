package cli

import (
	"fmt"

	"github.com/spf13/pflag"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// weatherRules are the flags that a scenario has as keys under weather.
type weatherRules struct {
	Declared       string
	MaxFillDays    int
	MaxFillRun     int
	ExcludeYears   []int
	DewPointOffset string
	Coastal        bool
	DefaultWind    string
	Calibrate      bool
	ComputeETo     bool
}

// renamedWeatherFlags maps each former flag to its present name.
var renamedWeatherFlags = map[string]string{
	"declared": "layout-file", "dew-point-below": "dew-point-offset", "coast": "coastal", "usual-wind": "default-wind",
}

func (o *weatherRules) addFlags(f *pflag.FlagSet) {
	f.StringVar(&o.Declared, "layout-file", "",
		"YAML `FILE` that describes the layout: columns, units and dates;\n\"loamledger weather --layouts\" shows one")
	f.IntVar(&o.MaxFillDays, "max-fill-days", -1, "max `DAYS` to fill in a year, instead of 30")
	f.Lookup("max-fill-days").DefValue = "0" // Help shows no default: the text names 30.
	f.IntVar(&o.MaxFillRun, "max-fill-run", -1, "max `DAYS` to fill in a row, instead of 10")
	f.Lookup("max-fill-run").DefValue = "0"
	f.IntSliceVar(&o.ExcludeYears, "exclude-year", nil, "`YEAR` to fill without limit and exclude from means;\nmay be repeated")
	f.Lookup("exclude-year").DefValue = ""
	f.StringVar(&o.DewPointOffset, "dew-point-offset", "",
		"`DEGREES` from the lowest temperature down to the dew point if\nhumidity is unknown: 0 C in humid places, 2 C in dry ones")
	f.BoolVar(&o.Coastal, "coastal", false, "estimate radiation from the temperature range as on a coast\n(kRs 0.19) instead of inland (0.16)")
	f.StringVar(&o.DefaultWind, "default-wind", "", "wind `SPEED` at 2 m if it is unknown, instead of 2 m/s")
	f.BoolVar(&o.Calibrate, "calibrate", false, "scale reference ET from temperatures alone to the record's\nfull days")
	f.BoolVar(&o.ComputeETo, "compute-eto", false, "compute reference ET even if the file has it")
}

// rules checks the flags and returns them as a scenario has them.
func (o *weatherRules) rules() (w scenarios.WeatherRules, err error) {
	for _, limit := range []struct {
		flag string
		v    int
		to   *int
	}{{"max-fill-days", o.MaxFillDays, &w.MaxFillDays}, {"max-fill-run", o.MaxFillRun, &w.MaxFillRun}} {
		switch {
		case limit.v == -1: // not given
		case limit.v < 0 || limit.v > 366:
			return w, &usageError{diag.BadFlag, fmt.Sprintf("--%s %d is outside 0 to 366", limit.flag, limit.v), "write a number of days, or 0 for no filling"}
		case limit.v == 0:
			*limit.to = -1
		default:
			*limit.to = limit.v
		}
	}
	if o.Declared != "" {
		w.Declared = &scenarios.File{Name: o.Declared}
	}
	if o.DewPointOffset != "" {
		v, ok := scenarios.DegreesApart(o.DewPointOffset)
		if !ok || v < 0 || v > 6 {
			return w, &usageError{diag.BadFlag, fmt.Sprintf("--dew-point-offset %q is not a difference of 0 to 6 °C", o.DewPointOffset), `write "0 C" in humid places and "2 C" in dry ones`}
		}
		w.DewPointOffsetC = v
	}
	if o.DefaultWind != "" {
		v, err := quantity.Parse(o.DefaultWind, quantity.Speed)
		if err != nil || v < 0.1 || v > 15 {
			return w, &usageError{diag.BadFlag, fmt.Sprintf("--default-wind %q is not a speed of 0.1 to 15 m/s", o.DefaultWind), "write a speed with its unit, such as 2 m/s or 4 mph"}
		}
		w.DefaultWindMS = v
	}
	w.ExcludeYears, w.Coastal, w.Calibrate, w.ComputeETo = o.ExcludeYears, o.Coastal, o.Calibrate, o.ComputeETo
	return w, nil
}
