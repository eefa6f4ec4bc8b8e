package study

import (
	"fmt"
	"math"

	"loamledger/scenarios"
	"loamledger/sim/strategy"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/forecast"
)

// Forecasts are what was forecast to a site and where that is from.
type Forecasts struct {
	Archive     *forecast.Archive
	Source      string  // in words
	ThresholdMM float64 // rain of an event, against which the forecasts are verified
	Days        int     // days of the record with an amount of rain forecast on their own morning

	known strategy.Forecast // each morning of the record
	found []weather.Finding // in making them
}

// Announce works out what was known of the forecasts in an archive, from the
// named source, on each morning of the record; a nil archive has forecasts made
// from the record itself, with the skill that the scenario states. It returns
// nil where the scenario has no forecasts. A skill that cannot be is a
// [*diag.Error].
func Announce(sc *scenarios.Scenario, w *Weather, archive *forecast.Archive, source string) (*Forecasts, error) {
	if sc.Forecast == nil {
		return nil, nil
	}
	f := &Forecasts{Archive: archive, Source: source, ThresholdMM: forecast.DefaultThresholdMM}
	if archive == nil {
		if err := f.make(sc.Forecast, w); err != nil {
			return nil, err
		}
	}
	f.known = knownEachMorning(f.Archive, w.Start, w.Days)
	for _, v := range f.known.RainMM[0] {
		if !math.IsNaN(v) {
			f.Days++
		}
	}
	return f, nil
}

// make makes forecasts of the record's own days.
func (f *Forecasts) make(asked *scenarios.Forecast, w *Weather) error {
	s := &asked.Synthetic
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
	f.Archive, f.ThresholdMM = a, o.ThresholdMM
	f.Source = fmt.Sprintf("synthetic, seed %d, rain of %g mm and more, skill %s for %d days ahead", s.Seed, o.ThresholdMM, skill, len(o.Leads))
	f.found = found
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
