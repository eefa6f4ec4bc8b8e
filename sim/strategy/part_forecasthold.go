package strategy

import (
	"fmt"
	"math"

	"loamledger/sim"
	"loamledger/weather/quantity"
)

func forecastHoldKind() Kind {
	return Spec[ForecastHold]{
		Key:       "hold.forecast",
		Doc:       "holds watering back when rain is forecast for today or the days after",
		Example:   "hold: {forecast: {at_least: 0.2 in, days: 2 days, max_held: 3 days}}",
		Params:    (*ForecastHold).params,
		Sheet:     OnController[ForecastHold],
		Copy:      Kept[ForecastHold],
		Lines:     (*ForecastHold).lines,
		YAML:      FromParams,
		Conflicts: NoConflicts[ForecastHold],
		Warnings:  (*ForecastHold).warnings,
		Record:    (*ForecastHold).record,
	}.Kind()
}

func (p *ForecastHold) params() []Param {
	return []Param{
		{Key: "at_least", Field: AsQuantity(&p.AtLeastMM, quantity.Depth), Default: 5, Min: 0.1, Max: 100,
			Doc: "rain forecast for one day that holds watering back", Source: "threshold of published forecast verification, 5 mm", Grade: quantity.GeneralTable},
		{Key: "min_probability", Field: AsQuantity(&p.MinProbability, quantity.Fraction), Default: 0, Min: 0, Max: 1,
			Doc: "least probability of rain, where the forecast gives one", Source: "assumption of this program: any", Grade: quantity.Guess, Off: true},
		{Key: "days", Field: AsQuantity(&p.Days, quantity.Days), Default: 1, Min: 1, Max: MaxLead,
			Doc: "days looked ahead, today being the first", Source: "assumption of this program", Grade: quantity.Guess},
		{Key: "max_held", Field: AsQuantity(&p.MaxHeld, quantity.Days), Default: 4, Min: 1, Max: 60,
			Doc: "most days of watering skipped in a row; the next is not", Source: "assumption of this program", Grade: quantity.Guess},
		{Key: "source", Field: AsChoice(&p.Source), Word: SiteForecast, Choices: []string{SiteForecast, PerfectForecast, NoForecast},
			Doc: "the site's forecast, or one of the two bounds", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
	}
}

// ForecastHold holds watering back on a day when rain of at least AboveMM is
// forecast for it or one of the Days−1 after it, by what was issued before.
// Source [PerfectForecast] looks at the weather itself: a bound, which no controller
// can reach; [NoForecast] never holds back.
type ForecastHold struct {
	AtLeastMM      float64
	MinProbability float64 // least probability, 0 to 1
	Days           int
	MaxHeld        int // most days of watering skipped in a row; the next is not
	Source         string
}

// Kind returns the kind of the part.
func (ForecastHold) Kind() Kind { return forecastHoldKind() }

// Stage returns [Permit].
func (ForecastHold) Stage() Stage { return Permit }

// Apply leaves the skip with the draft until it is known on which days
// anything is to water.
func (f ForecastHold) Apply(d *Draft) { d.forecasts = append(d.forecasts, f) }

// hold writes the days held back. wanted tells on which days something is to
// water: only those, where nothing else holds them back, count as skips.
func (f ForecastHold) hold(d *Draft, wanted func(i int) bool) {
	held := 0
	for i := range d.Block {
		rainy := false
		for lead := range f.Days {
			rainy = rainy || f.rain(d, lead, i)
		}
		counts := wanted(i) && d.Block[i] == sim.NotScheduled
		switch {
		case rainy && held >= f.MaxHeld: // not skipped, unless something else holds it back
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
	case NoForecast:
		return false
	case PerfectForecast:
		k := d.Site.Source(i) + lead
		return k < d.Site.Weather.Days() && d.Site.Weather.RainMM[k] >= f.AtLeastMM
	}
	fc := &d.Site.Forecast
	i = d.Site.Source(i)
	if lead >= len(fc.RainMM) || !(fc.RainMM[lead][i] >= f.AtLeastMM) {
		return false
	}
	if lead < len(fc.Probability) {
		if p := fc.Probability[lead][i]; !math.IsNaN(p) && p < f.MinProbability {
			return false
		}
	}
	return true
}

func (p *ForecastHold) lines(_ []string, sys quantity.System) []string {
	return []string{fmt.Sprintf("Forecast: skip when %s of rain is expected with at least %.0f %% chance, at most %s in a row",
		quantity.Format(p.AtLeastMM, quantity.Depth, sys), 100*p.MinProbability, dayCount(p.MaxHeld))}
}

func (p *ForecastHold) warnings([]string) Warnings {
	return Warnings{Checked: true, SiteForecast: p.Source == SiteForecast}
}

// record tells that there is no forecast to act on.
func (p *ForecastHold) record(site *Site) string {
	if p.Source == SiteForecast && len(site.Forecast.RainMM) == 0 {
		return "no forecast is given for the site: the forecast skip never holds back"
	}
	return ""
}
