package study

import (
	"context"
	"math"
	"strconv"

	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/cal"
)

// mostComing is the maximum number of coming days shown: beyond two weeks no
// forecast has skill for single days.
const mostComing = 16

// Coming is what every strategy would do on the forecast days after the record.
// It is not history and is excluded from all totals.
type Coming struct {
	days   []comingDay
	usual  [weather.Columns]int // days with the record's usual value as a substitute
	to     cal.Date             // last day of the forecasts; days may end earlier
	zones  []string
	areaM2 []float64                 // by zone
	rows   map[string][][]replay.Row // by strategy, then zone, then day
}

// A comingDay is the weather forecast for one day, and the date of issue: rain
// and reference ET [mm], minimum temperature [°C].
type comingDay struct {
	date, issued         cal.Date
	rainMM, etoMM, tminC float64
}

// LookAhead continues the replay after the record. It returns nil if no
// forecast is for a later day. The error is that of ctx.
func (l *Study) LookAhead(ctx context.Context) (*Coming, error) {
	job, c := l.extend()
	if c == nil {
		return nil, nil
	}
	for z := range job.Zones {
		c.zones, c.areaM2 = append(c.zones, job.Zones[z].Name), append(c.areaM2, job.Zones[z].AreaM2)
	}
	first := l.Job.Weather.Days()
	_, err := replay.Run(ctx, &job, func(s *replay.Sheet) error {
		if l.Scenario.StrategyIndex(s.Strategy) < 0 {
			return nil // a reference
		}
		var rows []replay.Row
		for d := range c.days {
			rows = append(rows, s.Row(first+d))
		}
		c.rows[s.Strategy] = append(c.rows[s.Strategy], rows)
		return nil
	})
	return c, err
}

// extend returns the job with the coming days added to its record, up to the
// first day without a rain forecast; nil if there are none. If ETo or Tmin is
// not forecast, the usual value for that time of year in the record is used;
// the result has the number of such days.
func (l *Study) extend() (replay.Job, *Coming) {
	job := l.Job
	if l.Forecast == nil || l.Forecast.ahead == nil {
		return job, nil
	}
	ahead, ok := l.Forecast.ahead.Coming(l.Weather.End(), l.Weather.Station)
	if !ok {
		return job, nil
	}
	c := &Coming{to: ahead.Series.End(), rows: map[string][][]replay.Row{}}
	n := min(ahead.Series.Days, mostComing)
	w := l.Job.Weather
	job.Step = nil
	if l.Job.SpinUp() == 0 && !job.NoSpinUp { // as the record itself starts, even if the coming days make it long enough
		job.NoSpinUp, job.StartShare = true, 0
	}
	for i := range n {
		day := ahead.Series.Date(i)
		if math.IsNaN(ahead.Series.At(weather.Rain, i)) {
			n = i
			break
		}
		stoodIn := false
		take := func(col weather.Column, list []float64, lowest float64) ([]float64, float64) {
			v := ahead.Series.At(col, i)
			if math.IsNaN(v) {
				v = usual(list, w.Start, w.Days(), day)
				c.usual[col]++
				stoodIn = true
			}
			v = max(v, lowest)
			return append(list[:len(list):len(list)], v), v
		}
		var v comingDay
		v.date, v.issued = day, ahead.Issued[i]
		job.Weather.RainMM, v.rainMM = take(weather.Rain, job.Weather.RainMM, 0)
		job.Weather.EToMM, v.etoMM = take(weather.ETo, job.Weather.EToMM, 0)
		v.tminC = math.NaN()
		lowest := math.Inf(-1)
		if w.TminC != nil {
			job.Weather.TminC, v.tminC = take(weather.Tmin, job.Weather.TminC, lowest)
			lowest = v.tminC
		}
		if w.TmaxC != nil {
			job.Weather.TmaxC, _ = take(weather.Tmax, job.Weather.TmaxC, lowest)
		}
		if w.WindMS != nil {
			job.Weather.WindMS = append(job.Weather.WindMS[:len(job.Weather.WindMS):len(job.Weather.WindMS)], math.NaN())
		}
		if w.Filled != nil {
			job.Weather.Filled = append(job.Weather.Filled[:len(job.Weather.Filled):len(job.Weather.Filled)], stoodIn)
		}
		c.days = append(c.days, v)
	}
	if n == 0 {
		return job, nil
	}
	job.Forecast = l.Forecast.knownThrough(w.Start, w.Days(), n)
	return job, c
}

// ComingTable lists the coming days of every strategy, zone by zone, in SI,
// with a header row.
func (l *Study) ComingTable(c *Coming) [][]string {
	out := [][]string{{"date", "issued", "strategy", "zone", "minutes", "reason", "rain_mm", "eto_mm", "gross_mm", "irrigation_runoff_mm",
		"depletion_mm", "raw_mm", "stress"}}
	for i := range l.Job.Strategies {
		name := l.Job.Strategies[i].Name
		for z, rows := range c.rows[name] {
			for d, row := range rows {
				day := c.days[d]
				out = append(out, []string{day.date.String(), day.issued.String(), name, c.zones[z], plain(row.Minutes), row.Reason.String(),
					plain(day.rainMM), plain(day.etoMM), plain(tenThousandth(row.GrossMM)), plain(tenThousandth(row.IrrRunoffMM)),
					plain(tenThousandth(row.DepletionMM)), plain(tenThousandth(row.RAWMM)), flagText(thirsty(&row))})
			}
		}
	}
	return out
}

// plain writes the shortest number that reads back as v.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// tenThousandth rounds as the CSV ledger does.
func tenThousandth(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// flagText writes a flag as the CSV ledger does.
func flagText(is bool) string {
	if is {
		return "1"
	}
	return "0"
}

// usual returns the mean of list on the days of all years within a week of the
// given day of the year, over the n days from start. If there are none, as in a
// short record, it returns the mean of the last week.
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
