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

// Forecasts are the forecasts for a site and their source.
type Forecasts struct {
	Archive     *forecast.Archive
	Source      string  // in words
	ThresholdMM float64 // minimum rain of an event when the forecasts are scored
	Days        int     // days of the record whose rain amount was forecast by that morning

	known strategy.Forecast // each morning of the record
	found []weather.Finding // while making them
}

// Announce determines which forecasts of an archive, from the named source,
// were known on each morning of the record. With a nil archive, it makes
// forecasts from the record itself, with the skill that the scenario states. It
// returns nil if the scenario has no forecasts. An impossible skill is a
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
	f.Source = fmt.Sprintf("synthetic, seed %d, rain of at least %g mm, skill %s for %d days ahead", s.Seed, o.ThresholdMM, skill,
		len(o.Leads))
	f.found = found
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
