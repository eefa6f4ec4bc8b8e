package cli

import (
	"fmt"

	"github.com/spf13/pflag"

	"loamledger/scenarios"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// weatherRules holds the flags that are also keys under weather in a scenario.
type weatherRules struct {
	LayoutFile     string
	MaxFillDays    int
	MaxFillRun     int
	ExcludeYears   []int
	DewPointOffset string
	Coastal        bool
	DefaultWind    string
	Calibrate      bool
	ComputeETo     bool
}

func (o *weatherRules) addFlags(f *pflag.FlagSet) {
	f.StringVar(&o.LayoutFile, "layout-file", "",
		"YAML `FILE` that describes the columns, units and dates of the\nweather file; --layouts prints an example")
	f.IntVar(&o.MaxFillDays, "max-fill-days", -1, "max `DAYS` to fill in a year (default 30)")
	f.Lookup("max-fill-days").DefValue = "0" // help adds no default: the text has it
	f.IntVar(&o.MaxFillRun, "max-fill-run", -1, "max `DAYS` to fill in a row (default 10)")
	f.Lookup("max-fill-run").DefValue = "0"
	f.IntSliceVar(&o.ExcludeYears, "exclude-year", nil, "`YEAR` to omit from all means and fill without limit; may be\nrepeated")
	f.StringVar(&o.DewPointOffset, "dew-point-offset", "",
		"`DEGREES` the nightly low stays above the dew point, if humidity\nis unknown: 0 C in humid climates, 2 C in dry ones")
	f.BoolVar(&o.Coastal, "coastal", false,
		"estimate radiation from temperatures with the coastal coefficient\n(kRs 0.19) instead of the inland one (0.16)")
	f.StringVar(&o.DefaultWind, "default-wind", "", "wind `SPEED` at 2 m, if unknown (default 2 m/s)")
	f.BoolVar(&o.Calibrate, "calibrate", false, "scale temperature-only reference ET to the days with full data")
	f.BoolVar(&o.ComputeETo, "compute-eto", false, "compute reference ET even if the file has it")
}

// rules checks the flags and returns them in the form that a scenario has.
func (o *weatherRules) rules() (w scenarios.WeatherRules, err error) {
	for _, limit := range []struct {
		flag string
		v    int
		to   *int
	}{{"max-fill-days", o.MaxFillDays, &w.MaxFillDays}, {"max-fill-run", o.MaxFillRun, &w.MaxFillRun}} {
		switch {
		case limit.v == -1: // not given
		case limit.v < 0 || limit.v > 366:
			msg := fmt.Sprintf("--%s %d is outside 0 to 366", limit.flag, limit.v)
			return w, &usageError{diag.BadFlag, msg, "write a number of days, or 0 for none"}
		case limit.v == 0:
			*limit.to = -1
		default:
			*limit.to = limit.v
		}
	}
	if o.LayoutFile != "" {
		w.Declared = &scenarios.File{Name: o.LayoutFile}
	}
	if o.DewPointOffset != "" {
		v, ok := scenarios.DegreesApart(o.DewPointOffset)
		if !ok || v < 0 || v > 6 {
			msg := fmt.Sprintf("--dew-point-offset %q is not a difference of 0 to 6 °C", o.DewPointOffset)
			return w, &usageError{diag.BadFlag, msg, `write "0 C" in humid climates or "2 C" in dry ones`}
		}
		w.DewPointOffsetC = v
	}
	if o.DefaultWind != "" {
		v, err := quantity.Parse(o.DefaultWind, quantity.Speed)
		if err != nil || v < 0.1 || v > 15 {
			msg := fmt.Sprintf("--default-wind %q is not a speed of 0.1 to 15 m/s", o.DefaultWind)
			return w, &usageError{diag.BadFlag, msg, "write a speed with its unit, such as 2 m/s or 4 mph"}
		}
		w.DefaultWindMS = v
	}
	w.ExcludeYears, w.Coastal, w.Calibrate, w.ComputeETo = o.ExcludeYears, o.Coastal, o.Calibrate, o.ComputeETo
	return w, nil
}
