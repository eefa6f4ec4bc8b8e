package quality

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/quantity"
)

// snowBelowC is the daily mean temperature, (Tmax + Tmin)/2, up to which a day's rain
// is taken as snow [°C]. Rain and snow are equally frequent at 1.0 °C on average, at
// -0.4 to 2.4 °C at 95% of the stations. Source: Jennings, Winchell, Livneh and Molotch
// (2018), Nature Communications 9:1148; it is for the air temperature at the time, and
// its use for daily means is our choice.
const snowBelowC = 1.0

const snowSource = "rain and snow are equally frequent at 1.0 °C, -0.4 to 2.4 °C by place (Jennings et al. 2018, Nature " +
	"Communications); " +
	"daily means instead of the hour's: our choice"

// Snow is the part of the rain that fell as snow.
type Snow struct {
	Days    int     // days with rain and a mean temperature of at most snowBelowC
	DepthMM float64 // their rain [mm]
	RainMM  float64 // all rain [mm]
	years   float64 // length of the record [years]
}

// Share returns the share of the rain that fell as snow, 0 to 1; 0 without rain.
func (s Snow) Share() float64 {
	if s.RainMM <= 0 {
		return 0
	}
	return s.DepthMM / s.RainMM
}

// DaysPerYear and MMPerYear return means over the record; 0 for an empty one.
func (s Snow) DaysPerYear() float64 { return perYear(float64(s.Days), s.years) }

// MMPerYear returns the mean yearly depth [mm].
func (s Snow) MMPerYear() float64 { return perYear(s.DepthMM, s.years) }

func perYear(v, years float64) float64 {
	if years <= 0 {
		return 0
	}
	return v / years
}

// SnowOf counts the snow of a record, with a finding if there is any: a replay lets
// it enter the soil on the day it falls. Days without rain or temperatures are not
// judged.
func SnowOf(s *weather.Series) (Snow, []weather.Finding) {
	var out Snow
	if !s.Has(weather.Tmax) || !s.Has(weather.Tmin) || !s.Has(weather.Rain) {
		return out, nil
	}
	out.years = float64(s.Days) / 365.25
	worst, most := 0, 0.0
	for i, rain := range s.Data[weather.Rain] {
		if !(rain > 0) {
			continue
		}
		out.RainMM += rain
		mean := (s.Data[weather.Tmax][i] + s.Data[weather.Tmin][i]) / 2
		if math.IsNaN(mean) || mean > snowBelowC {
			continue
		}
		out.Days++
		out.DepthMM += rain
		if rain > most {
			worst, most = i, rain
		}
	}
	if out.Days == 0 {
		return out, nil
	}
	f := weather.Finding{
		Code: weather.CodeSnow, What: fmt.Sprintf("rain on days with a mean temperature of at most %g °C, probably snow", snowBelowC),
		Column: weather.Rain.Key(), Count: out.Days, Worst: s.Date(worst),
		Detail: fmt.Sprintf("%.1f mm; %.0f mm (%.1f in) a year on %.0f days, %.0f%% of the rain", most, out.MMPerYear(),
			out.MMPerYear()/quantity.InchMM, out.DaysPerYear(), 100*out.Share()),
		Action: "kept; a replay lets it enter the soil on the day it falls, not when it melts", Source: snowSource,
	}
	return out, []weather.Finding{f}
}
