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
	Declared      string
	MaxFillDays   int
	MaxFillRun    int
	ExcludeYears  []int
	DewPointBelow string
	Coast         bool
	UsualWind     string
	Calibrate     bool
	ComputeETo    bool
}

func (o *weatherRules) addFlags(f *pflag.FlagSet) {
	f.StringVar(&o.Declared, "declared", "", "YAML `FILE` that declares the layout's columns, units and dates;\n\"loamledger weather --layouts\" shows one")
	f.IntVar(&o.MaxFillDays, "max-fill-days", -1, "most `DAYS` of a year that may be filled, instead of 30")
	f.Lookup("max-fill-days").DefValue = "0" // help shows no default: 30 stands in the text
	f.IntVar(&o.MaxFillRun, "max-fill-run", -1, "most `DAYS` in a row that may be filled, instead of 10")
	f.Lookup("max-fill-run").DefValue = "0"
	f.IntSliceVar(&o.ExcludeYears, "exclude-year", nil, "`YEAR` that is filled without limit and left out of means;\nmay be given several times")
	f.Lookup("exclude-year").DefValue = ""
	f.StringVar(&o.DewPointBelow, "dew-point-below", "", "`DEGREES` by which the dew point lies below the lowest temperature\nwhere humidity is unknown: 0 C in humid places, 2 C in dry ones")
	f.BoolVar(&o.Coast, "coast", false, "take radiation from the temperature range as on a coast (kRs 0.19)\ninstead of inland (0.16)")
	f.StringVar(&o.UsualWind, "usual-wind", "", "`SPEED` of the wind at 2 m where it is unknown, instead of 2 m/s")
	f.BoolVar(&o.Calibrate, "calibrate", false, "scale reference ET from temperatures alone by the full days of the\nrecord")
	f.BoolVar(&o.ComputeETo, "compute-eto", false, "compute reference ET even where the file carries it")
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
			return w, &usageError{diag.BadFlag, fmt.Sprintf("--%s %d is outside 0 to 366", limit.flag, limit.v), "write a number of days, 0 for none at all"}
		case limit.v == 0:
			*limit.to = -1
		default:
			*limit.to = limit.v
		}
	}
	if o.Declared != "" {
		w.Declared = &scenarios.File{Name: o.Declared}
	}
	if o.DewPointBelow != "" {
		v, ok := scenarios.DegreesApart(o.DewPointBelow)
		if !ok || v < 0 || v > 6 {
			return w, &usageError{diag.BadFlag, fmt.Sprintf("--dew-point-below %q is not a difference of 0 to 6 °C", o.DewPointBelow), `write "0 C" in humid places and "2 C" in dry ones`}
		}
		w.DewPointBelowC = v
	}
	if o.UsualWind != "" {
		v, err := quantity.Parse(o.UsualWind, quantity.Speed)
		if err != nil || v < 0.1 || v > 15 {
			return w, &usageError{diag.BadFlag, fmt.Sprintf("--usual-wind %q is not a speed of 0.1 to 15 m/s", o.UsualWind), "write a speed with its unit, such as 2 m/s or 4 mph"}
		}
		w.UsualWindMS = v
	}
	w.ExcludeYears, w.Coast, w.Calibrate, w.ComputeETo = o.ExcludeYears, o.Coast, o.Calibrate, o.ComputeETo
	return w, nil
}
