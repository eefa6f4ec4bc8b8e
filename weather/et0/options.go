package et0

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// A Standard selects the constants if two publications differ.
type Standard uint8

// The standards. The zero value is recommended.
const (
	ASCE2005 Standard = iota // [ASCE]: cloud term at least 0.05, RHmean at Tmean
	FAO1998                  // [FAO56]
)

// Options selects substitutes for missing inputs. The zero value uses the
// published defaults.
type Options struct {
	Standard Standard

	// TdewOffsetC is how far below Tmin the dew point is assumed to be if
	// humidity is unknown [°C], 0 to 6. [FAO56] annex 6: 0 in humid and
	// subhumid places, 2 in arid and semiarid ones.
	TdewOffsetC float64

	// KRs is the coefficient of [RadiationFromRange]; 0 means [KRsInterior].
	KRs float64

	// DefaultWindMS is the wind at 2 m if it is unknown [m/s]; 0 means 2, the
	// mean of 2,000 stations in [FAO56].
	DefaultWindMS float64

	// IgnoreSupplied computes every day even if the record has ETo.
	IgnoreSupplied bool

	// CalibrateHargreaves scales the temperature-only equation to the full
	// equation on the record's own full days, by month if there are enough of
	// them.
	CalibrateHargreaves bool
}

func (o Options) withDefaults() Options {
	if o.KRs == 0 {
		o.KRs = KRsInterior
	}
	if o.DefaultWindMS == 0 {
		o.DefaultWindMS = 2
	}
	return o
}

// A NeedError says what is missing for reference ET and how to supply it.
type NeedError struct {
	Code diag.Code // one of [diag.Codes]
	Msg  string    // what was found and the rule it breaks
	Fix  string    // what to write instead
}

func (e *NeedError) Error() string { return e.Msg + "\n\tfix: " + e.Fix }

// check returns the first problem that prevents use of the equations.
func check(s *weather.Series, o Options) error {
	st := s.Station
	switch {
	case !s.Has(weather.Tmax) || !s.Has(weather.Tmin):
		return &NeedError{diag.MissingColumn, "reference ET needs the day's highest and lowest temperature, which the record lacks",
			"add tmax_c and tmin_c; there is no substitute for them"}
	case math.IsNaN(st.LatDeg):
		return &NeedError{diag.MissingPlace, "reference ET needs the latitude, but neither the record nor the scenario states it",
			"set latitude under site, or pass --latitude, in decimal degrees, south negative"}
	case st.LatDeg < -90 || st.LatDeg > 90:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("latitude %g is outside -90 to 90", st.LatDeg),
			"set the latitude in decimal degrees, south negative"}
	case math.IsNaN(st.ElevM) && needsElevation(s):
		return &NeedError{diag.MissingPlace, "the full reference ET equation needs the elevation, but neither the record nor the scenario " +
			"states it", "set elevation under site, or pass --elevation, such as 1600 ft or 490 m"}
	case st.ElevM < -450 || st.ElevM > 6000:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("elevation %g m is outside -450 to 6000 m", st.ElevM),
			"set the elevation with its unit; feet are often mistaken for meters"}
	case st.WindHeightM < 0.5 || st.WindHeightM > 50:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("wind height %g m is outside 0.5 to 50 m", st.WindHeightM),
			"set wind_height under weather, or pass --wind-height: the height of the anemometer above ground, usually 2, 3 or 10 m"}
	case o.TdewOffsetC < 0 || o.TdewOffsetC > 6:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("dew point offset %g °C is outside 0 to 6", o.TdewOffsetC),
			"use 0 in humid places and 2 in dry ones"}
	case o.KRs < 0.1 || o.KRs > 0.25:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("kRs %g is outside 0.1 to 0.25", o.KRs), "use 0.16 inland and 0.19 on coasts"}
	case o.DefaultWindMS < 0.1 || o.DefaultWindMS > 15:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("default wind %g m/s is outside 0.1 to 15", o.DefaultWindMS),
			"set the mean wind at 2 m in m/s; the default is 2"}
	}
	return nil
}

// needsElevation reports whether any day can use more than temperatures.
func needsElevation(s *weather.Series) bool {
	for _, c := range []weather.Column{weather.Rs, weather.Sun, weather.Wind, weather.Ea, weather.Tdew, weather.RHmax, weather.RHmin,
		weather.RHmean} {
		if s.CountMissing(c) < s.Days {
			return true
		}
	}
	return false
}
