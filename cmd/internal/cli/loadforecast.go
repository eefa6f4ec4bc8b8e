package cli

import (
	"fmt"
	"math"
	"strings"

	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/forecast"
	"loamledger/weather/forecastfile"
)

// A siteForecast is what was forecast to a site and where that is from.
type siteForecast struct {
	Archive     *forecast.Archive
	Source      string  // in words
	ThresholdMM float64 // rain of an event, against which the forecasts are verified
	Days        int     // days of the record with an amount of rain forecast on their own morning
}

// readForecast reads or makes the scenario's forecasts and hands the job what
// was known of them each morning.
func (l *loaded) readForecast(name string) error {
	f := l.Scenario.Forecast
	if f == nil {
		return nil
	}
	l.Forecast = &siteForecast{ThresholdMM: forecast.DefaultThresholdMM}
	if f.File != nil {
		in, err := l.openAt(beside(name, f.File.Name), f.File.Pos)
		if err != nil {
			return err
		}
		defer in.Close()
		if l.Forecast.Archive, err = forecastfile.Read(in, f.File.Name); err != nil {
			return err
		}
		l.Forecast.Source = f.File.Name
	} else if err := l.makeForecast(); err != nil {
		return err
	}
	l.Job.Forecast = knownEachMorning(l.Forecast.Archive, l.Job.Weather.Start, l.Job.Weather.Days())
	for _, v := range l.Job.Forecast.RainMM[0] {
		if !math.IsNaN(v) {
			l.Forecast.Days++
		}
	}
	if names := l.Scenario.UseSiteForecast(); len(names) > 0 && l.Forecast.Days == 0 {
		return &diag.Error{Code: diag.NoForecast, Pos: f.Pos, Msg: fmt.Sprintf("no forecast amount of rain reaches any morning of the record, %v to %v, and strategies skip by it: %s", l.Weather.Start, l.Weather.End(), strings.Join(names, ", ")),
			Fix: "give rain_mm in forecasts issued before days of the record, or take skip: {forecast: ...} out"}
	}
	return nil
}

// makeForecast makes forecasts of the record's own days.
func (l *loaded) makeForecast() error {
	s, f := &l.Scenario.Forecast.Synthetic, l.Forecast
	o := forecast.Defaults(l.Weather.Station.LatDeg)
	skill := "of a modern public forecast"
	if len(s.Leads) > 0 {
		o.Leads, o.WarmPODCut, skill = nil, 0, "as stated"
		for _, k := range s.Leads {
			o.Leads = append(o.Leads, forecast.Skill{POD: k.POD, FAR: k.FAR})
		}
	}
	o.ThresholdMM = s.ThresholdMM
	a, found, err := forecast.Synthetic(&l.Weather.Series, l.Weather.ET.EToMM, o, s.Seed)
	if err != nil {
		return &diag.Error{Code: diag.OutOfRange, Pos: l.Scenario.Forecast.Pos, Msg: err.Error(), Fix: "correct the skill or the threshold"}
	}
	f.Archive, f.ThresholdMM = a, o.ThresholdMM
	f.Source = fmt.Sprintf("synthetic, seed %d, rain of %g mm and more, skill %s for %d days ahead", s.Seed, o.ThresholdMM, skill, len(o.Leads))
	l.Weather.Findings = append(l.Weather.Findings, found...)
	return nil
}

// knownEachMorning returns what was known on the mornings of n days from start.
func knownEachMorning(a *forecast.Archive, start cal.Date, n int) strategy.Forecast {
	var f strategy.Forecast
	for lead := range strategy.MaxLead {
		rain, chance := a.Ahead(forecast.Rain, start, n, lead), a.Ahead(forecast.Probability, start, n, lead)
		for i := range chance {
			chance[i] /= 100
		}
		f.RainMM, f.Probability = append(f.RainMM, rain), append(f.Probability, chance)
	}
	return f
}

// extend returns the job with the coming days behind its record, up to the
// first whose rain is not forecast. ok is false where there is none. ETo and
// Tmin that are not forecast are those usual at that time of the year in the
// record, and coming says on how many days.
func (l *loaded) extend() (job replay.Job, c coming, ok bool) {
	if l.Forecast == nil {
		return job, c, false
	}
	ahead, ok := l.Forecast.Archive.Coming(l.Weather.End(), l.Weather.Station)
	if !ok {
		return job, c, false
	}
	c.Coming = ahead
	n := min(ahead.Series.Days, mostComing)
	w := l.Job.Weather
	job = l.Job
	job.Step = nil
	for i := range n {
		day := ahead.Series.Date(i)
		if math.IsNaN(ahead.Series.At(weather.Rain, i)) {
			n = i
			break
		}
		take := func(col weather.Column, list []float64, lowest float64) ([]float64, float64) {
			v := ahead.Series.At(col, i)
			if math.IsNaN(v) {
				v = usual(list, w.Start, w.Days(), day)
				c.Usual[col]++
			}
			v = max(v, lowest)
			return append(list[:len(list):len(list)], v), v
		}
		var v comingDay
		v.Date, v.Issued = day, ahead.Issued[i]
		job.Weather.RainMM, v.RainMM = take(weather.Rain, job.Weather.RainMM, 0)
		job.Weather.EToMM, v.EToMM = take(weather.ETo, job.Weather.EToMM, 0)
		job.Weather.TminC, v.TminC = take(weather.Tmin, job.Weather.TminC, math.Inf(-1))
		if w.WindMS != nil {
			job.Weather.WindMS = append(job.Weather.WindMS[:len(job.Weather.WindMS):len(job.Weather.WindMS)], math.NaN())
		}
		c.Days = append(c.Days, v)
	}
	job.Forecast = knownEachMorning(l.Forecast.Archive, w.Start, w.Days()+n)
	return job, c, n > 0
}

// mostComing is how many coming days are shown: past two weeks no forecast has
// skill for single days.
const mostComing = 16

// A coming is the days past the record, as a replay goes on through them.
type coming struct {
	forecast.Coming
	Days  []comingDay
	Usual [weather.Columns]int // days on which the record's usual value stands in
}

type comingDay struct {
	Date, Issued         cal.Date
	RainMM, EToMM, TminC float64
}

// usual returns the mean of list on the days of all years that lie within a
// week of the given day of the year, over the n days from start; where there
// are none, as in a short record, the mean of the last week.
func usual(list []float64, start cal.Date, n int, day cal.Date) float64 {
	sum, count := 0.0, 0
	doy := day.YearDay()
	for i := range n {
		apart := (start + cal.Date(i)).YearDay() - doy
		if apart = max(apart, -apart); apart > 182 {
			apart = 365 - apart
		}
		if apart <= 7 && !math.IsNaN(list[i]) {
			sum, count = sum+list[i], count+1
		}
	}
	if count > 0 {
		return sum / float64(count)
	}
	last := list[max(0, n-7):n]
	for _, v := range last {
		sum += v
	}
	return sum / float64(len(last))
}
