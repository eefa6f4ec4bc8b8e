package strategy

import (
	"fmt"

	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

func manualKind() Kind {
	return Spec[Manual]{
		Key:       "manual",
		Doc:       "an extra run started manually on one day; holds and percentages do not affect it",
		Example:   "manual: [{date: 2014-07-03, zone: front lawn, minutes: 15 min}]",
		Many:      true,
		Params:    (*Manual).params,
		Sheet:     (*Manual).sheet,
		Copy:      replaced[Manual],
		Lines:     (*Manual).lines,
		Plain:     (*Manual).plain,
		YAML:      FromParams,
		Conflicts: noConflicts[Manual],
		Warnings:  (*Manual).warnings,
		Record:    (*Manual).record,
	}.Kind()
}

func (p *Manual) params() []Param {
	return []Param{
		{Key: "date", Field: asDate(&p.Date), Required: true, Doc: "date of the run"},
		{Key: "zone", Field: asZone(&p.Zone), Required: true, Doc: "zone to run"},
		{Key: "minutes", Field: AsQuantity(&p.Minutes, quantity.Duration), Required: true, Min: 0.1, Max: 1440, Doc: "run time"},
		{Key: "at", Field: asClock(&p.AtMin), Word: "18:00", Default: 18 * 60, Doc: "start time", Source: "assumption by loamledger",
			Grade: quantity.Guess},
	}
}

// Manual is an extra run of one zone on one date.
type Manual struct {
	Date    cal.Date
	Zone    int
	Minutes float64
	AtMin   int // clock time [min after midnight]
}

// Kind returns the kind of the part.
func (Manual) Kind() Kind { return manualKind() }

// Stage returns [Water].
func (Manual) Stage() Stage { return Water }

// Apply adds the run as a program of one day.
func (m Manual) Apply(d *Draft) {
	p := Program{Name: "manual run", Days: DayRule{Kind: AnyDay}, Starts: []int{m.AtMin}, Minutes: make([]float64, len(d.Site.Zones)),
		From: m.Date, To: m.Date, ByHand: true}
	p.Minutes[m.Zone] = m.Minutes
	d.Programs = append(d.Programs, p)
}

func (p *Manual) sheet(site *Site) SheetEntry {
	return SheetEntry{Use: NotEntered,
		Note: fmt.Sprintf("The manual run of %s on %v is not on the sheet.", site.Zones[p.Zone].Name, p.Date)}
}

func (p *Manual) lines(zones []string, _ quantity.System) []string {
	return []string{fmt.Sprintf("Manual run on %v at %s: %s %g min", p.Date, ClockText(float64(p.AtMin)), zones[p.Zone], p.Minutes)}
}

func (p *Manual) warnings(zones []string) Warnings {
	waters := make([]bool, len(zones))
	if p.Zone >= 0 && p.Zone < len(zones) { // else its name is a fault already, or the zones could not be read
		waters[p.Zone] = true
	}
	return Warnings{Checked: true, Waters: waters}
}

// record reports a run outside the record.
func (p *Manual) record(site *Site) string {
	if site.outside(p.Date, p.Date) {
		return fmt.Sprintf("the manual run on %v is outside the record", p.Date)
	}
	return ""
}

func (p *Manual) plain() Plain { return Plain{Text: "extra runs by hand"} }
