package strategy

import (
	"fmt"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

func forecastHoldKind() Kind {
	return Spec[ForecastHold]{
		Key:       "hold.forecast",
		Doc:       "holds watering if rain is forecast for today or the following days",
		Example:   "hold: {forecast: {at_least: 0.2 in, days: 2 days, max_held: 3 days}}",
		Params:    (*ForecastHold).params,
		Sheet:     onController[ForecastHold],
		Copy:      Kept[ForecastHold],
		Lines:     (*ForecastHold).lines,
		Plain:     (*ForecastHold).plain,
		YAML:      FromParams,
		Conflicts: noConflicts[ForecastHold],
		Warnings:  (*ForecastHold).warnings,
		Record:    (*ForecastHold).record,
	}.Kind()
}

func (p *ForecastHold) params() []Param {
	return []Param{
		{Key: "at_least", Field: AsQuantity(&p.AtLeastMM, quantity.Depth), Default: 5, Min: 0.1, Max: 100,
			Doc: "rain forecast for one day, this or more, that holds watering", Source: "threshold of published forecast verification, 5 mm",
			Grade: quantity.GeneralTable},
		{Key: "min_probability", Field: AsQuantity(&p.minProbability, quantity.Fraction), Default: 0, Min: 0, Max: 1,
			Doc: "minimum probability of rain, if the forecast has one", Source: "assumption by loamledger: any", Grade: quantity.Guess, Off: true},
		{Key: "days", Field: AsQuantity(&p.Days, quantity.Days), Default: 1, Min: 1, Max: MaxLead,
			Doc: "days to look ahead, including today", Source: "assumption by loamledger", Grade: quantity.Guess},
		{Key: "max_held", Field: AsQuantity(&p.MaxHeld, quantity.Days), Default: 4, Min: 1, Max: 60,
			Doc: "maximum number of watering days on hold in a row; the next one waters", Source: "assumption by loamledger", Grade: quantity.Guess},
		{Key: "source", Field: AsChoice(&p.Source), Word: siteForecast, Choices: []string{siteForecast, PerfectForecast, noForecast},
			Doc: "the site's forecast, or one of two bounds", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
	}
}

// ForecastHold holds watering on a day if at least AtLeastMM of rain is forecast for
// that day or one of the next Days−1 days, in a forecast issued before it. Source
// [PerfectForecast] uses the weather itself, a bound that no controller can reach;
// [noForecast] never holds.
type ForecastHold struct {
	AtLeastMM      float64
	minProbability float64 // minimum probability, 0 to 1
	Days           int
	MaxHeld        int // maximum number of watering days on hold in a row; the next one waters
	Source         string
}

// Kind returns the kind of the part.
func (ForecastHold) Kind() Kind { return forecastHoldKind() }

// Stage returns [Permit].
func (ForecastHold) Stage() Stage { return Permit }

// Apply stores the hold in the draft until it is known on which days anything
// waters.
func (f ForecastHold) Apply(d *Draft) { d.forecasts = append(d.forecasts, f) }

// hold marks the days on hold. wanted reports the days on which something waters.
// Only those days count toward MaxHeld, unless something else holds them.
func (f ForecastHold) hold(d *Draft, wanted func(i int) bool) {
	held := 0
	for i := range d.Block {
		rainy := false
		for lead := range f.Days {
			rainy = rainy || f.rain(d, lead, i)
		}
		counts := wanted(i) && d.Block[i] == sim.NotScheduled
		switch {
		case rainy && held >= f.MaxHeld: // waters, unless something else holds it
			if counts {
				held = 0
			}
			continue
		case rainy && counts:
			held++
		case counts:
			held = 0
		}
		if rainy {
			d.hold(i, sim.ForecastHold)
		}
	}
}

// rain reports whether enough rain is forecast on day i for day i+lead.
func (f ForecastHold) rain(d *Draft, lead, i int) bool {
	switch f.Source {
	case noForecast:
		return false
	case PerfectForecast:
		k := d.Site.Source(i) + lead
		return k < d.Site.Weather.Days() && atLeast(d.Site.Weather.RainMM[k], f.AtLeastMM)
	}
	fc := &d.Site.Forecast
	i = d.Site.Source(i)
	if lead >= len(fc.RainMM) || !atLeast(fc.RainMM[lead][i], f.AtLeastMM) {
		return false
	}
	if lead < len(fc.Probability) {
		if p := fc.Probability[lead][i]; below(p, f.minProbability) {
			return false
		}
	}
	return true
}

func (p *ForecastHold) lines(_ []string, sys quantity.System) []string {
	return []string{fmt.Sprintf("Forecast hold: at least %s of rain expected with a chance of at least %.0f%%, maximum %s in a row",
		quantity.Format(p.AtLeastMM, quantity.Depth, sys), 100*p.minProbability, dayCount(p.MaxHeld))}
}

func (p *ForecastHold) warnings([]string) Warnings {
	if p.Source != siteForecast {
		return Warnings{Checked: true}
	}
	return Warnings{Checked: true, SiteForecast: true, Rain: &RainRule{p.AtLeastMM, p.minProbability, p.Days}}
}

// record reports a site without a forecast.
func (p *ForecastHold) record(site *Site) string {
	if p.Source == siteForecast && len(site.Forecast.RainMM) == 0 {
		return "the site has no forecast, so the forecast hold never acts"
	}
	return ""
}

func (p *ForecastHold) plain() Plain {
	if p.Source == noForecast {
		return Plain{}
	}
	return Plain{Text: "off when rain is forecast", needs: ForecastConnection}
}
