package strategy

import (
	"fmt"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func etPercentKind() Kind {
	return Spec[ETPercent]{
		Key:       "et_percent",
		Doc:       "scales run times by the mean reference ET of recent days, relative to a design value",
		Example:   "et_percent: {design_eto: auto, days: 7 days, subtract_rain: true, max: 150%}",
		Params:    (*ETPercent).params,
		Sheet:     (*ETPercent).sheet,
		Copy:      replaced[ETPercent],
		Lines:     (*ETPercent).lines,
		Plain:     (*ETPercent).plain,
		YAML:      FromParams,
		Conflicts: (*ETPercent).conflicts,
		Warnings:  noWarnings[ETPercent],
		Record:    (*ETPercent).record,
	}.Kind()
}

func (p *ETPercent) params() []Param {
	return []Param{
		{Key: "design_eto", Field: asQuantityOr(&p.DesignEToMM, quantity.Depth, designAuto), Word: designAuto, Choices: []string{designAuto},
			Min: 0.1, Max: 25, Always: true, Grade: quantity.Guess,
			Doc:    "ETo of the day that the program's run times are designed for; auto is the mean of the record's peak month, in hindsight",
			Source: "assumption by loamledger: run times fit the month with the highest ETo; the report shows the result over 25% more and less"},
		{Key: "days", Field: AsQuantity(&p.Days, quantity.Days), Default: 7, Min: 1, Max: 60,
			Doc: "days in the mean, ending yesterday", Source: "assumption by loamledger", Grade: quantity.Guess, Always: true},
		{Key: "subtract_rain", Field: asFlag(&p.SubtractRain), Default: 0,
			Doc: "subtract the rain of the same days from their ETo", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true,
			Always: true},
		{Key: "rain_credit", Field: asRest(&p.RainIgnored), Default: 1, Min: 0, Max: 1,
			Doc: "share of that rain to subtract", Source: "assumption by loamledger: all of it", Grade: quantity.Guess, Off: true},
		{Key: "min", Field: AsQuantity(&p.Min, quantity.Fraction), Default: 0, Min: 0, Max: 10,
			Doc: "minimum percentage", Source: "assumption by loamledger", Grade: quantity.Guess, Off: true},
		{Key: "max", Field: AsQuantity(&p.Max, quantity.Fraction), Default: 2, Min: 0, Max: 10,
			Doc: "maximum percentage", Source: "assumption by loamledger", Grade: quantity.Guess, Always: true},
	}
}

// ETPercent scales run times each day by
//
//	(mean ETo − (1 − RainIgnored) mean rain, if subtracted) / design ETo
//
// over the last Days days, ending yesterday, within Min to Max. On the first day
// of a record without spin-up, nothing is known and the factor is 1.
type ETPercent struct {
	DesignEToMM  float64 // ETo of the day that run times are designed for [mm/d]; 0 for that of the record's peak month
	DesignFactor float64 // factor on either, to see what a wrong design ETo does; 0 means 1
	peak         bool    // DesignEToMM was taken from the record's peak month
	Days         int     // days in the mean, at least 1
	SubtractRain bool    // subtract rain
	RainIgnored  float64 // share of the rain that is not subtracted, 0 to 1
	Min, Max     float64
}

// Kind returns the kind of the part.
func (ETPercent) Kind() Kind { return etPercentKind() }

// Stage returns [Scale].
func (ETPercent) Stage() Stage { return Scale }

// Apply multiplies the draft's factors.
func (e ETPercent) Apply(d *Draft) {
	scale, w, design := d.scale(), d.Site.Weather, e.design(d.Site)
	for i := range scale {
		if i == 0 {
			continue
		}
		// The sum starts fresh each day: a running sum would accumulate rounding
		// errors and water after days without need.
		sum, days := 0.0, min(i, e.Days)
		for back := range days {
			k := d.Site.Source(i - 1 - back)
			sum += w.EToMM[k]
			if e.SubtractRain {
				sum -= float64((1 - e.RainIgnored) * w.RainMM[k])
			}
		}
		scale[i] *= min(max(sum/float64(days)/design, e.Min), e.Max)
	}
}

// sheet settles the design ETo, which a person must enter as a number.
func (p *ETPercent) sheet(site *Site) SheetEntry {
	e := SheetEntry{Use: ByItself, Most: p.Max}
	if p.DesignEToMM == 0 {
		settled := *p
		settled.DesignEToMM, settled.peak = p.design(site), true
		settled.DesignFactor = 0
		e.Part = settled
	}
	return e
}

func (p *ETPercent) lines(_ []string, sys quantity.System) []string {
	day := quantity.Format(p.DesignEToMM, quantity.Depth, sys) + " of reference ET"
	switch {
	case p.DesignEToMM == 0:
		day = "the mean reference ET of the record's peak month (hindsight)"
	case p.peak:
		day += " (that of the record's peak month, hindsight)"
	}
	text := fmt.Sprintf("ET adjustment: run times are for a day with %s, mean of %d days; minimum %.0f%%, maximum %.0f%%",
		day, p.Days, 100*p.Min, 100*p.Max)
	if p.SubtractRain {
		text += fmt.Sprintf("; %.0f%% of the rain is subtracted", 100*(1-p.RainIgnored))
	}
	return []string{text}
}

func (p *ETPercent) conflicts(Given) Conflicts {
	return contradiction(p.Max < p.Min, diag.WrongOrder, "write a max of at least min", "et_percent: max is below min")
}

func (p *ETPercent) plain() Plain {
	return Plain{Text: "run times follow recent weather", needs: WeatherController}
}
