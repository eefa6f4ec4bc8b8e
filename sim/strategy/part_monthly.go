package strategy

import (
	"math"

	"loamledger/weather/quantity"
)

// monthlyAuto is the word for percentages from the record.
const monthlyAuto = "auto"

func monthlyKind() Kind {
	return Spec[Monthly]{
		Key: "monthly",
		Doc: "multiplies all run times by 12 percentages, one for each month, starting with January; auto derives the percentages from the " +
			"weather record",
		Example:   "monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]",
		Params:    (*Monthly).params,
		Sheet:     (*Monthly).sheet,
		Copy:      replaced[Monthly],
		Lines:     (*Monthly).lines,
		Plain:     (*Monthly).plain,
		YAML:      FromParams,
		Conflicts: noConflicts[Monthly],
		Warnings:  noWarnings[Monthly],
		Record:    (*Monthly).record,
	}.Kind()
}

func (p *Monthly) params() []Param {
	return []Param{
		{Field: asTwelveShares(&p.Share, &p.Auto, monthlyAuto), Required: true, Min: 0, Max: 10,
			Doc: "twelve percentages, or auto", Choices: []string{monthlyAuto}},
	}
}

// Monthly multiplies run times by a share per calendar month, as entered on a
// controller.
type Monthly struct {
	Share [12]float64
	Auto  bool // the shares are those of [monthlyFromETo]; Share is ignored
	// Step is the step to which the shares of Auto are rounded, one that divides 1: that
	// of the timer, if it is known; 0 means [autoStep]. A scenario sets it by its timer.
	Step float64
	// Zones are those it applies to, on sites with controllers of different percentages;
	// nil for all. A scenario cannot set it.
	Zones []bool
}

// Kind returns the kind of the part.
func (Monthly) Kind() Kind { return monthlyKind() }

// Stage returns [Scale].
func (Monthly) Stage() Stage { return Scale }

// Apply multiplies the draft's factors.
func (m Monthly) Apply(d *Draft) {
	if m.Zones == nil {
		m.scale(d, d.scale())
		return
	}
	for z, is := range m.Zones {
		if is {
			m.scale(d, d.zoneScale(z))
		}
	}
}

// scale multiplies one column of factors.
func (m *Monthly) scale(d *Draft, scale []float64) {
	month, share := d.Site.Calendar.Month, m.of(d.Site)
	for i := range scale {
		scale[i] *= share[month[d.Site.Source(i)]-1]
	}
}

// of returns the shares on a site.
func (m *Monthly) of(site *Site) [12]float64 {
	if m.Auto {
		return monthlyInSteps(site, m.Step)
	}
	return m.Share
}

// monthlyFromETo returns twelve shares: the record's mean ETo of each calendar
// month divided by that of the highest month, rounded to 5%. A month without data
// gets 1. It uses the whole record, like a person who sets a controller by past
// climate.
func monthlyFromETo(site *Site) [12]float64 { return monthlyInSteps(site, autoStep) }

// autoStep is the step of the percentages that are derived from the record.
const autoStep = 0.05

// monthlyInSteps is [monthlyFromETo] with shares rounded to another step; 0 means
// [autoStep].
func monthlyInSteps(site *Site, step float64) [12]float64 {
	if step == 0 {
		step = autoStep
	}
	steps := math.Round(1 / step)
	share := MonthlyETo(site)
	greatest := 0.0
	for _, mean := range share {
		if mean > greatest {
			greatest = mean
		}
	}
	for m := range share {
		if math.IsNaN(share[m]) || greatest == 0 {
			share[m] = 1
			continue
		}
		share[m] = math.Round(share[m]/greatest*steps) / steps
	}
	return share
}

func (p *Monthly) sheet(site *Site) SheetEntry {
	share := p.of(site)
	return SheetEntry{Use: Entered, Months: &share}
}

func (p *Monthly) lines([]string, quantity.System) []string {
	if p.Auto {
		return []string{"Seasonal percentages: from the record's mean reference ET by month"}
	}
	return []string{"Seasonal percentages: " + monthsText(p.Share, func(int) bool { return false })}
}

// linesWithout is lines without the months, 1 to 12, in which the system is off.
func (p Monthly) linesWithout(off func(m int) bool) []string {
	text := monthsText(p.Share, off)
	if p.Auto || text == "" {
		return p.lines(nil, quantity.SI)
	}
	return []string{"Seasonal percentages: " + text}
}

// record reports the derived percentages.
func (p *Monthly) record(site *Site) string {
	if !p.Auto {
		return ""
	}
	return "seasonal percentages from the record's mean ETo, starting with January: " + percents(p.of(site))
}

func (p *Monthly) plain() Plain { return Plain{Text: "run times follow a monthly percentage"} }
