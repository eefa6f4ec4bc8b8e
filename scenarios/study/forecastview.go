package study

import (
	"fmt"
	"math"

	"loamledger/weather"
	"loamledger/weather/forecast"
	"loamledger/weather/quantity"
)

// ForecastViews shows the forecast of the days after the record and, for
// archived forecasts, their scores over the record; nil without forecasts.
func (l *Study) ForecastViews() []View {
	f := l.Forecast
	if f == nil {
		return nil
	}
	out := []View{l.aheadView()}
	if scores := l.forecastScores(); len(scores) > 0 {
		out = append(out, View{Grid: ScoreGrid(scores), Head: []string{"",
			fmt.Sprintf("Skill of the forecasts for a day with at least %s of rain:",
				quantity.Format(f.thresholdMM, quantity.Depth, l.Scenario.Units))},
			Notes: []string{ScoreWords}})
	}
	return out
}

// forecastScores scores the forecasts of days of the record.
func (l *Study) forecastScores() []forecast.Score {
	scores, err := forecast.Verify(l.Forecast.archive, withoutFilledRain(&l.Weather.Series), forecast.Rule{RainMM: l.Forecast.thresholdMM})
	if err != nil {
		return nil // the threshold is a default, so it is an event
	}
	return scores
}

// aheadView shows the days after the record.
func (l *Study) aheadView() View {
	f, sys := l.Forecast, l.Scenario.Units
	head := "Forecast: " + f.source
	v := View{Head: []string{"", head}}
	if f.past > 0 {
		v.Notes = append(v.Notes, fmt.Sprintf("Not used: %s up to the record's last day.", quantity.Count(f.past, "day", "days")))
	}
	for _, found := range f.found {
		v.Notes = append(v.Notes, fmt.Sprintf("%s: %s in %s; %s.", found.Code, found.What,
			quantity.Count(found.Count, "case", "cases"), found.Action))
	}
	c, ok := f.ahead.Coming(l.Weather.End(), l.Weather.Station)
	if !ok {
		v.Notes = append(v.Notes, fmt.Sprintf("No forecast is for a day after the record, which ends on %v.", l.Weather.End()))
		return v
	}
	depth, warmth := quantity.Label(quantity.Depth, sys), quantity.Label(quantity.Temperature, sys)
	g := &Grid{Head: []string{"date", "issued", "rain\n[" + depth + "]", "ETo\n[" + depth + "]",
		"high\n[" + warmth + "]", "low\n[" + warmth + "]"}}
	g.Columns = toTheRight(2, 6)
	for i := range min(c.Series.Days, mostComing) {
		issued := "-"
		if c.Issued[i] != 0 {
			issued = c.Issued[i].String()
		}
		at := func(col weather.Column) float64 { return c.Series.At(col, i) }
		g.add(c.Series.Date(i), issued, depthText(at(weather.Rain), sys), depthText(at(weather.ETo), sys), degrees(at(weather.Tmax), sys),
			degrees(at(weather.Tmin), sys))
	}
	if n := c.Series.Days; n > mostComing {
		v.Notes = append(v.Notes, fmt.Sprintf("Showing the first %d of %d days.", mostComing, n))
	}
	v.Grid = g
	return v
}

// degrees writes a temperature without its unit.
func degrees(c float64, sys quantity.System) string {
	if math.IsNaN(c) {
		return "-"
	}
	return fmt.Sprintf("%.1f", quantity.Convert(c, quantity.Temperature, sys))
}

// A ForecastRecord is a forecast file for scripts, in SI.
type ForecastRecord struct {
	Source string              `json:"source"`
	Past   int                 `json:"days_not_after_the_record"`
	Days   []ForecastDayRecord `json:"days"`
	RainMM float64             `json:"rain_day_from_mm"`
	Leads  []LeadScore         `json:"leads"`
}

// A ForecastDayRecord is the forecast for one day; unknown values are nil.
type ForecastDayRecord struct {
	ComingDayRecord
	TmaxC *float64 `json:"tmax_c"`
}

// ForecastRecord returns the forecast for scripts; nil if there is none.
func (l *Study) ForecastRecord() *ForecastRecord {
	f := l.Forecast
	if f == nil {
		return nil
	}
	out := &ForecastRecord{Source: f.source, Past: f.past, RainMM: f.thresholdMM, Days: []ForecastDayRecord{}, Leads: []LeadScore{}}
	for _, s := range l.forecastScores() {
		out.Leads = append(out.Leads, ScoreOf(s))
	}
	c, ok := f.ahead.Coming(l.Weather.End(), l.Weather.Station)
	if !ok {
		return out
	}
	for i, issued := range c.Issued {
		if issued == 0 {
			continue
		}
		at := func(col weather.Column) *float64 { return Number(c.Series.At(col, i)) }
		out.Days = append(out.Days, ForecastDayRecord{ComingDayRecord{c.Series.Date(i).String(), issued.String(),
			at(weather.Rain), at(weather.ETo), at(weather.Tmin)}, at(weather.Tmax)})
	}
	return out
}
