package study

import (
	"fmt"
	"math"
	"slices"

	"loamledger/scenarios"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/forecast"
	"loamledger/weather/prepare"
)

// A ForecastFile is a forecast file as read: an archive, or daily weather
// without days of issue.
type ForecastFile struct {
	Name    string
	Layout  string            // description of the layout of a daily file
	Archive *forecast.Archive // nil for a daily file
	Daily   *weather.Record   // nil for an archive
}

// Forecasts are the forecasts for a site and their source.
type Forecasts struct {
	archive     *forecast.Archive // for the days of the record
	ahead       *forecast.Archive // for the days after it
	source      string            // of archive, in words
	aheadSource string            // of ahead; empty if it is the same
	thresholdMM float64           // minimum rain of an event when the forecasts are scored
	days        int               // days of the record whose rain amount was forecast by that morning
	past        int               // days of a daily file that are not after the record, and are not used
	synthetic   bool              // Archive was made from the record

	inside bool              // some forecast is for a day of the record
	known  strategy.Forecast // each morning of the record
	found  []weather.Finding // while making or checking them
}

// Announce determines which forecasts of a file were known on each morning of
// the record. A daily file counts as issued on the record's last day, so it
// serves only the days after it. If the scenario has synthetic forecasts, they
// are made from the record itself, with the skill that it states, and the file,
// if any, serves the days after the record. Without a forecast in the scenario
// it returns nil; an impossible skill is a [*diag.Error].
func Announce(sc *scenarios.Scenario, w *Weather, file *ForecastFile) (*Forecasts, error) {
	if sc.Forecast == nil {
		return nil, nil
	}
	f := &Forecasts{archive: &forecast.Archive{}, thresholdMM: forecast.DefaultThresholdMM}
	if file != nil {
		f.take(sc, w, file)
	}
	if sc.Forecast.Synthetic != nil {
		f.aheadSource = f.source
		if err := f.make(sc.Forecast, w); err != nil {
			return nil, err
		}
	}
	f.known = knownEachMorning(f.archive, w.Start, w.Days)
	for _, v := range f.known.RainMM[0] {
		if !math.IsNaN(v) {
			f.days++
		}
	}
	for one := range f.archive.All() {
		f.inside = f.inside || one.Valid >= w.Start && one.Valid <= w.End()
	}
	return f, nil
}

// take uses a forecast file.
func (f *Forecasts) take(sc *scenarios.Scenario, w *Weather, file *ForecastFile) {
	f.archive, f.source = file.Archive, file.Name
	if file.Daily != nil {
		rec := file.Daily
		placeStation(&rec.Station, sc.Site)
		placeStation(&rec.Station, scenarios.Site{LatDeg: w.Station.LatDeg, LonDeg: w.Station.LonDeg, ElevM: w.Station.ElevM})
		eto := prepare.Forecast(rec, etOptions(&sc.Weather.WeatherRules))
		f.archive, f.past = forecast.FromDaily(&rec.Series, eto, w.End())
		f.source = fmt.Sprintf("%s, read as %s, taken as issued on %v", file.Name, file.Layout, w.End())
		for _, found := range rec.Findings {
			found.What = "forecast: " + found.What
			f.found = append(f.found, found)
		}
	}
	f.ahead = f.archive
}

// make makes forecasts of the record's own days.
func (f *Forecasts) make(asked *scenarios.Forecast, w *Weather) error {
	s := asked.Synthetic
	o := forecast.Defaults(w.Station.LatDeg)
	skill := "of a modern public forecast"
	if len(s.Leads) > 0 {
		o.Leads, o.WarmPODCut, skill = nil, 0, "as stated"
		for _, k := range s.Leads {
			o.Leads = append(o.Leads, forecast.Skill{POD: k.POD, FAR: k.FAR})
		}
	}
	o.ThresholdMM = s.ThresholdMM
	a, found, err := forecast.Synthetic(&w.Series, w.ET.EToMM, o, s.Seed)
	if err != nil {
		return &diag.Error{Code: diag.OutOfRange, Pos: asked.Pos, Msg: err.Error(), Fix: "correct the skill or the threshold"}
	}
	f.archive, f.thresholdMM, f.synthetic = a, o.ThresholdMM, true
	f.source = fmt.Sprintf("synthetic, seed %d, rain of at least %g mm, skill %s for %d days ahead", s.Seed, o.ThresholdMM, skill,
		len(o.Leads))
	f.found = append(f.found, found...)
	return nil
}

// knownEachMorning returns the forecasts known on the mornings of n days from
// start.
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

// knownThrough returns the forecasts known on the mornings of the record and of
// the n days after it. Mornings of the record know what they know in the replay
// of the record.
func (f *Forecasts) knownThrough(start cal.Date, days, n int) strategy.Forecast {
	ahead := knownEachMorning(f.ahead, start+cal.Date(days), n)
	out := strategy.Forecast{}
	for lead := range ahead.RainMM {
		out.RainMM = append(out.RainMM, slices.Concat(f.known.RainMM[lead], ahead.RainMM[lead]))
		out.Probability = append(out.Probability, slices.Concat(f.known.Probability[lead], ahead.Probability[lead]))
	}
	return out
}
