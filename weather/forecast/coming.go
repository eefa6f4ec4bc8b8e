package forecast

import (
	"math"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// Coming is the forecast for the days after a record ends.
type Coming struct {
	// Series has rain, Tmax, Tmin and ETo if they are forecast. Every value is marked
	// as forecast.
	Series *weather.Series
	Issued []cal.Date // by day: when the forecast used was issued; 0 if there is none
	holes  int        // days within the forecast period that have no forecast
}

// Coming returns the days after the last day of a record up to the last
// forecast day, each from its newest forecast. ok is false if no forecast goes
// beyond the record.
func (a *Archive) Coming(last cal.Date, st weather.Station) (c Coming, ok bool) {
	if a.Len() == 0 {
		return c, false
	}
	end := a.list[len(a.list)-1].Valid
	if end <= last {
		return c, false
	}
	days := int(end - last)
	c.Series = weather.NewSeries(st, last+1, days)
	c.Issued = make([]cal.Date, days)
	for i := range days {
		f, known := a.newest(end, last+1+cal.Date(i))
		if !known {
			c.holes++
			continue
		}
		c.Issued[i] = f.Issued
		for _, v := range []struct {
			col weather.Column
			v   float64
		}{{weather.Rain, f.RainMM}, {weather.Tmax, f.TmaxC}, {weather.Tmin, f.TminC}, {weather.ETo, f.EToMM}} {
			if !math.IsNaN(v.v) {
				c.Series.Add(v.col)
				c.Series.Set(v.col, i, v.v, weather.Forecast)
			}
		}
	}
	return c, true
}
