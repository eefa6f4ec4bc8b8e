package study

import (
	"slices"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
)

// timerOf returns what a controller can be set to: its own timer, or that of the site; nil
// if neither is stated.
func (l *Study) timerOf(controller int) *timer.Profile {
	if t := l.Scenario.Controllers[controller].Timer; t != nil {
		return t
	}
	return l.Scenario.Timer
}

// made makes the sheet of a strategy with run times: one for each controller, and their
// sum, on a site with several. If fit is set, each fits its timer. Else with a timer in the
// scenario, percentages keep to whole percents, so that those that it refuses are the
// strategy's.
func (l *Study) made(st *strategy.Strategy, o *SheetOptions, fit bool) (*settings.Sheet, error) {
	settled, zones := st.Settled(l.Job.Zones)
	site := settings.NewSite(zones, l.Job.Weather, l.Job.Limits, l.Job.Wiring)
	options := func(c int) settings.Options {
		out := settings.Options{PercentStep: o.PercentStep, AsOf: o.AsOf, Units: l.Scenario.Units}
		if t := l.timerOf(c); t != nil {
			out.PercentStep = 0.01
			if fit {
				out.Timer = t
			}
		}
		return out
	}
	if len(l.Scenario.Controllers) == 1 {
		return settings.Make(site, &settled, options(0))
	}
	var each []settings.Options
	for c := range l.Scenario.Controllers {
		own := options(c)
		own.Controller, own.Only = l.Scenario.Controllers[c].Name, l.zonesOn(c)
		each = append(each, own)
	}
	return settings.MakeEach(site, &settled, each)
}

// zonesOn returns the zones of a controller.
func (l *Study) zonesOn(controller int) []bool {
	out := make([]bool, len(l.Scenario.Zones))
	for z := range out {
		out[z] = l.Scenario.Zones[z].Controller == controller
	}
	return out
}

// refusals lists what of a sheet does not fit the timers: of each of its sheets, or of
// the only one.
func (l *Study) refusals(s *settings.Sheet) [][]timer.Refusal {
	sheets := s.Each
	if sheets == nil {
		sheets = []*settings.Sheet{s}
	}
	out := make([][]timer.Refusal, len(sheets))
	for k, one := range sheets {
		if t := l.timerOf(l.controllerOf(one)); t != nil {
			out[k] = one.Refusals(t)
		}
	}
	return out
}

// controllerOf returns the controller that a sheet is for.
func (l *Study) controllerOf(s *settings.Sheet) int {
	for c := range l.Scenario.Controllers {
		if l.Scenario.Controllers[c].Name == s.Controller {
			return c
		}
	}
	return 0
}

// setRefused notes what did not fit, each with what the sheet has instead.
func (s *Sheet) setRefused(refused [][]timer.Refusal) {
	if s.Each == nil {
		s.Refused = settings.Nearest(refused[0], s.Sheet)
		return
	}
	s.RefusedOf = make([][]timer.Refusal, len(s.Each))
	for k := range s.Each {
		s.RefusedOf[k] = settings.Nearest(refused[k], s.Each[k])
	}
	s.Refused = slices.Concat(s.RefusedOf...)
}
