package et0

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// A Standard says whose constants are used where two publications differ.
type Standard uint8

// The standards. The zero value is the one to use.
const (
	ASCE2005 Standard = iota // [ASCE]: cloud term held to 0.05 and up, RHmean at Tmean
	FAO1998                  // [FAO56]
)

// Options chooses what stands in for what a record lacks. The zero value is
// the published defaults.
type Options struct {
	Standard Standard

	// TdewOffsetC is how far below Tmin the dew point is taken to lie where
	// humidity is unknown [°C], 0 to 6. [FAO56] annex 6: 0 in humid and
	// subhumid places, 2 in arid and semiarid ones.
	TdewOffsetC float64

	// KRs is the coefficient of [RadiationFromRange]; 0 means [KRsInterior].
	KRs float64

	// DefaultWindMS is the wind at 2 m where it is unknown [m/s]; 0 means 2,
	// which [FAO56] gives as the mean of 2,000 stations.
	DefaultWindMS float64

	// IgnoreSupplied computes every day even where the record carries ETo.
	IgnoreSupplied bool

	// CalibrateHargreaves scales the temperature-only equation by the ratio
	// of the full one to it on the record's own full days, by the month where
	// there are enough of them.
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

// A NeedError says what is lacking for reference ET and how to supply it.
type NeedError struct {
	Code diag.Code // one of [diag.Codes]
	Msg  string    // what was found and the rule it breaks
	Fix  string    // what to give instead
}

func (e *NeedError) Error() string { return e.Msg + "\n\tfix: " + e.Fix }

// check returns the first thing that keeps the equations from being used.
func check(s *weather.Series, o Options) error {
	st := s.Station
	switch {
	case !s.Has(weather.Tmax) || !s.Has(weather.Tmin):
		return &NeedError{diag.MissingColumn, "reference ET needs the day's highest and lowest temperature, and the record lacks them", "give tmax_c and tmin_c; nothing stands in for them"}
	case math.IsNaN(st.LatDeg):
		return &NeedError{diag.MissingPlace, "reference ET needs the latitude, and neither the record nor the scenario states it", "give latitude under site, or --latitude, in decimal degrees, south negative"}
	case st.LatDeg < -90 || st.LatDeg > 90:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("latitude %g is outside -90 to 90", st.LatDeg), "give the latitude in decimal degrees, south negative"}
	case math.IsNaN(st.ElevM) && needsElevation(s):
		return &NeedError{diag.MissingPlace, "the full reference ET equation needs the elevation, and neither the record nor the scenario states it", "give elevation under site, or --elevation, such as 1600 ft or 490 m"}
	case st.ElevM < -450 || st.ElevM > 6000:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("elevation %g m is outside -450 to 6000 m", st.ElevM), "give the elevation with its unit; feet are often read as metres"}
	case st.WindHeightM < 0.5 || st.WindHeightM > 50:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("wind height %g m is outside 0.5 to 50 m", st.WindHeightM), "give wind_height under weather, or --wind-height, the height of the anemometer above ground; 2, 3 and 10 m are usual"}
	case o.TdewOffsetC < 0 || o.TdewOffsetC > 6:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("a dew point %g °C below Tmin is outside 0 to 6", o.TdewOffsetC), "give 0 for humid places and 2 for dry ones"}
	case o.KRs < 0.1 || o.KRs > 0.25:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("kRs %g is outside 0.1 to 0.25", o.KRs), "give 0.16 inland and 0.19 by the coast"}
	case o.DefaultWindMS < 0.1 || o.DefaultWindMS > 15:
		return &NeedError{diag.OutOfRange, fmt.Sprintf("a default wind of %g m/s is outside 0.1 to 15", o.DefaultWindMS), "give the usual wind at 2 m in m/s; 2 is the default"}
	}
	return nil
}

// needsElevation reports whether any day may use more than temperatures.
func needsElevation(s *weather.Series) bool {
	for _, c := range []weather.Column{weather.Rs, weather.Sun, weather.Wind, weather.Ea, weather.Tdew, weather.RHmax, weather.RHmin, weather.RHmean} {
		if s.CountMissing(c) < s.Days {
			return true
		}
	}
	return false
}
