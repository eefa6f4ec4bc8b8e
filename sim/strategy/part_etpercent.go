package strategy

import (
	"fmt"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func etPercentKind() Kind {
	return Spec[ETPercent]{
		Key:       "et_percent",
		Doc:       "scales minutes by the mean reference ET of the days just past against a design value",
		Example:   "et_percent: {design_eto: 0.25 in, days: 7 days, subtract_rain: true, max: 150 %}",
		Params:    (*ETPercent).params,
		Sheet:     (*ETPercent).sheet,
		Copy:      Replaced[ETPercent],
		Lines:     (*ETPercent).lines,
		YAML:      FromParams,
		Conflicts: (*ETPercent).conflicts,
		Warnings:  NoWarnings[ETPercent],
		Record:    NothingOfRecord[ETPercent],
	}.Kind()
}

func (p *ETPercent) params() []Param {
	return []Param{
		{Key: "design_eto", Field: AsQuantity(&p.DesignEToMM, quantity.Depth), Required: true, Min: 0.1, Max: 25,
			Doc: "ETo of a day for which the program's minutes are meant"},
		{Key: "days", Field: AsQuantity(&p.Days, quantity.Days), Default: 7, Min: 1, Max: 60,
			Doc: "days averaged, up to yesterday", Source: "assumption of this program", Grade: quantity.Guess, Always: true},
		{Key: "subtract_rain", Field: AsFlag(&p.SubtractRain), Default: 0,
			Doc: "take the rain of the same days off their ETo", Source: "assumption of this program", Grade: quantity.Guess, Off: true, Always: true},
		{Key: "rain_credit", Field: AsRest(&p.RainIgnored), Default: 1, Min: 0, Max: 1,
			Doc: "share of that rain that counts", Source: "assumption of this program: all of it", Grade: quantity.Guess, Off: true},
		{Key: "min", Field: AsQuantity(&p.Min, quantity.Fraction), Default: 0, Min: 0, Max: 10,
			Doc: "lowest percentage", Source: "assumption of this program", Grade: quantity.Guess, Off: true},
		{Key: "max", Field: AsQuantity(&p.Max, quantity.Fraction), Default: 2, Min: 0, Max: 10,
			Doc: "highest percentage", Source: "assumption of this program", Grade: quantity.Guess, Always: true},
	}
}

// ETPercent scales minutes each day by
//
//	(mean ETo − (1 − RainIgnored) mean rain, if counted) / design
//
// over the last Over days up to yesterday, held to Least..Most. On the first
// day of a record without spin-up nothing is known and the factor is 1.
type ETPercent struct {
	DesignEToMM  float64 // ETo of the day the minutes are meant for [mm/d]
	Days         int     // days averaged, at least 1
	SubtractRain bool    // take rain off
	RainIgnored  float64 // share of the rain that does not count, 0 to 1
	Min, Max     float64
}

// Kind returns the kind of the part.
func (ETPercent) Kind() Kind { return etPercentKind() }

// Stage returns [Scale].
func (ETPercent) Stage() Stage { return Scale }

// Apply multiplies the draft's factors.
func (e ETPercent) Apply(d *Draft) {
	scale, w := d.scale(), d.Site.Weather
	for i := range scale {
		if i == 0 {
			continue
		}
		// Added up anew each day: a sum carried along keeps its roundings, and
		// would water on after days that asked for nothing.
		sum, days := 0.0, min(i, e.Days)
		for back := range days {
			k := d.Site.Source(i - 1 - back)
			sum += w.EToMM[k]
			if e.SubtractRain {
				sum -= (1 - e.RainIgnored) * w.RainMM[k]
			}
		}
		scale[i] *= min(max(sum/float64(days)/e.DesignEToMM, e.Min), e.Max)
	}
}

func (p *ETPercent) sheet(*Site) SheetEntry { return SheetEntry{Use: ByItself, Most: p.Max} }

func (p *ETPercent) lines(_ []string, sys quantity.System) []string {
	text := fmt.Sprintf("Scaling by weather: minutes are meant for a day with %s of reference ET, averaged over %d days; least %.0f %%, most %.0f %%",
		quantity.Format(p.DesignEToMM, quantity.Depth, sys), p.Days, 100*p.Min, 100*p.Max)
	if p.SubtractRain {
		text += fmt.Sprintf("; %.0f %% of the rain is taken off", 100*(1-p.RainIgnored))
	}
	return []string{text}
}

func (p *ETPercent) conflicts(Given) Conflicts {
	return contradiction(p.Max < p.Min, diag.WrongOrder, "write most of at least least", "et_percent: most is below least")
}
