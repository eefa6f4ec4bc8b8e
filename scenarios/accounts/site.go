package accounts

import (
	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim"
	"loamledger/sim/bill"
)

// A Site is a station whose weather is ready: it is read and prepared once, and never
// changes. Scenario is the program built for the station.
type Site struct {
	Scenario *scenarios.Scenario
	Weather  *study.Weather
	Forecast *study.Forecasts // nil if the program has none

	climate climate
	biller  *biller // nil if water has no price
}

// NewSite returns a site of a program. rates are those that its money names; nil without money. An error is a
// [*diag.Error] or [*diag.Errors].
func NewSite(p *Program, sc *scenarios.Scenario, ready *study.Weather, forecast *study.Forecasts, rates *bill.Rates) (Site, error) {
	l, err := study.New(sc, ready, forecast)
	if err != nil {
		return Site{}, err
	}
	days := &l.Job.Weather
	s := Site{Scenario: sc, Weather: ready, Forecast: forecast, climate: climateOf(days.Start, days.RainMM, days.EToMM)}
	if rates != nil {
		own := *rates // each station has its own ETo
		s.biller, err = newBiller(p.Money, &own, sim.NewCalendar(days.Start, days.Days()), days.EToMM)
	}
	return s, err
}

// Billing says what the meter of every account serves, and the day whose prices count; day is empty if the rates have no
// dates. It has a meaning only for a program with money.
func (s *Site) Billing() (use bill.Use, day string) {
	if s.biller.prices != nil {
		day = s.biller.prices.String()
	}
	return s.biller.meter.Use, day
}
